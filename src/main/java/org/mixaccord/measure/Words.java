package org.mixaccord.measure;

import java.util.Locale;

/** Figures and times as they stand in a sentence: unit, true minus, m:ss.mmm. */
final class Words {
  private static final char MINUS = '\u2212';

  private Words() {}

  /** A level with one decimal, or as many more as it takes to differ visibly from the limit. */
  static String level(double value, double limit, String unit) {
    int decimals = 1;
    while (decimals < 3 && number(value, decimals).equals(number(limit, decimals))) {
      decimals++;
    }
    return number(value, decimals) + "\u00A0" + unit;
  }

  static String level(double value, String unit) {
    return number(value, 1) + "\u00A0" + unit;
  }

  /** A level that carries its sign. */
  static String signed(double value, double limit, String unit) {
    String text = level(value, limit, unit);
    return value > 0 && Character.isDigit(text.charAt(0)) ? "+" + text : text;
  }

  static String number(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", Math.abs(value));
    boolean zero = text.chars().allMatch(c -> c == '0' || c == '.');
    return value < 0 && !zero ? MINUS + text : text;
  }

  /** A time as m:ss.mmm. */
  static String time(double seconds) {
    long ms = Math.round(seconds * 1000);
    return String.format(Locale.ROOT, "%d:%02d.%03d", ms / 60_000, ms / 1000 % 60, ms % 1000);
  }

  /** A length in seconds or, when short, milliseconds. */
  static String length(double seconds) {
    return seconds < 1 ? Math.round(seconds * 1000) + "\u00A0ms" : number(seconds, 1) + "\u00A0s";
  }

  static String places(int n) {
    return n == 1 ? "one place" : n + " places";
  }

  /** Names one channel of two; says nothing where there is one, and numbers more. */
  static String in(int channel, int channels) {
    return channels == 1
        ? ""
        : channels == 2 ? " on the " + side(channel) : " in channel " + (channel + 1);
  }

  static String side(int channel) {
    return channel == 0 ? "left" : "right";
  }

  static String hertz(double hz) {
    return hz < 1000 ? trimmed(hz) + "\u00A0Hz" : trimmed(hz / 1000) + "\u00A0kHz";
  }

  private static String trimmed(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }
}

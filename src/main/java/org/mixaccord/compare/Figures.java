package org.mixaccord.compare;

import java.util.Locale;

/**
 * Figures as they are printed: true minus, one decimal where that is enough, unit by the caller.
 */
final class Figures {
  private Figures() {}

  /** With sign: "+1.0", "−0.5", "0.0". */
  static String signed(double value, int decimals) {
    String digits = String.format(Locale.ROOT, "%." + decimals + "f", Math.abs(value));
    boolean zero = Double.parseDouble(digits) == 0;
    return zero ? digits : (value < 0 ? "−" : "+") + digits;
  }

  /** Without plus sign: "−71.0", "3.2". */
  static String plain(double value, int decimals) {
    String digits = String.format(Locale.ROOT, "%." + decimals + "f", Math.abs(value));
    return value < 0 && Double.parseDouble(digits) != 0 ? "−" + digits : digits;
  }

  /** A frequency: "250 Hz", "6.3 kHz". */
  static String hertz(double hz) {
    return hz >= 1000
        ? plain(hz / 1000, hz % 1000 == 0 ? 0 : 1) + " kHz"
        : plain(hz, hz % 1 == 0 ? 0 : 1) + " Hz";
  }

  /** A time as m:ss. */
  static String time(double seconds) {
    long whole = (long) Math.floor(seconds);
    return whole / 60 + ":" + String.format(Locale.ROOT, "%02d", whole % 60);
  }
}

package org.mixaccord.worksheet;

import java.util.List;
import java.util.Optional;

/**
 * A change list with its places on one mix.
 *
 * @param mix what the mix is called
 * @param round the round that is worked
 * @param lines what is asked, in the list's order
 * @param keeps what is to be left as it is
 */
public record WorkSheet(
    String song, String artist, String mix, int round, List<Line> lines, List<Keep> keeps) {

  /**
   * A stretch of the mix.
   *
   * @param name the section it is, or how it was written
   * @param fromSeconds on the mix
   * @param toSeconds the same for a moment
   */
  public record Stretch(String name, double fromSeconds, double toSeconds) {}

  /** Somebody's words. */
  public record Said(String name, String words) {}

  /** How a line stands. */
  public enum State {
    OPEN("open"),
    UNCLEAR("unclear"),
    DONE("done"),
    LEFT("left"),
    ANSWERED("answered");

    private final String words;

    State(String words) {
      this.words = words;
    }

    /** In words for people. */
    public String words() {
      return words;
    }
  }

  /**
   * One line.
   *
   * @param number its piece of work, from 1, with a letter where several lines are one piece: 2a
   * @param part what it is about, as people say it
   * @param ask what is asked, without the part
   * @param said the words of everybody who asked for it
   * @param where the place in words
   * @param places where it lies on the mix; empty for the whole song, and for a passage not there
   * @param how the engineer's answer, where there is one
   * @param reason in the engineer's words, where there are some
   * @param moved what was measured, in words
   * @param newWork what has to be made first, in words
   */
  public record Line(
      String number,
      String part,
      String ask,
      List<Said> said,
      String where,
      List<Stretch> places,
      State state,
      Optional<String> how,
      Optional<String> reason,
      Optional<String> moved,
      Optional<String> newWork) {
    public Line {
      said = List.copyOf(said);
      places = List.copyOf(places);
    }

    /** The same line with another number, other words and another figure. */
    Line with(String itsNumber, List<Said> words, Optional<String> figure) {
      return new Line(
          itsNumber, part, ask, words, where, places, state, how, reason, figure, newWork);
    }

    /** "Lead vocal: up, 1 dB". */
    public String what() {
      return part + ": " + ask;
    }

    /** Everybody who asked, each once. */
    public List<String> names() {
      return said.stream().map(Said::name).distinct().toList();
    }
  }

  /**
   * Something to be left as it is.
   *
   * @param places where it lies on the mix; empty for the whole song
   */
  public record Keep(String part, String where, List<Stretch> places, Said said) {
    public Keep {
      places = List.copyOf(places);
    }
  }

  public WorkSheet {
    lines = List.copyOf(lines);
    keeps = List.copyOf(keeps);
  }
}

package org.mixaccord.notes;

import java.util.OptionalDouble;

/**
 * Where bars and beats lie on the bounce a note is about. Both ways answer nothing where that is
 * not known.
 */
public interface BarGrid {
  /** Nothing is known. */
  BarGrid UNKNOWN =
      new BarGrid() {
        @Override
        public OptionalDouble seconds(double bars) {
          return OptionalDouble.empty();
        }

        @Override
        public OptionalDouble seconds(int bar, double beat) {
          return OptionalDouble.empty();
        }

        @Override
        public OptionalDouble bars(double seconds) {
          return OptionalDouble.empty();
        }
      };

  /**
   * Seconds of a place in bars.
   *
   * @param bars 1.0 for the beginning of bar 1, 1.5 for its middle
   */
  OptionalDouble seconds(double bars);

  /**
   * Seconds of a beat.
   *
   * @param bar 1 for the first bar
   * @param beat 1 for the first beat
   */
  OptionalDouble seconds(int bar, double beat);

  /** The place in bars at a time; the opposite of {@link #seconds(double)}. */
  OptionalDouble bars(double seconds);

  /**
   * One tempo throughout.
   *
   * @param beatSeconds length of a beat, more than 0
   * @param firstBarSeconds where bar 1 begins
   */
  static BarGrid steady(double beatSeconds, int beatsPerBar, double firstBarSeconds) {
    double barSeconds = beatSeconds * beatsPerBar;
    return new BarGrid() {
      @Override
      public OptionalDouble seconds(double bars) {
        return OptionalDouble.of(firstBarSeconds + (bars - 1) * barSeconds);
      }

      @Override
      public OptionalDouble seconds(int bar, double beat) {
        return OptionalDouble.of(
            firstBarSeconds + (bar - 1) * barSeconds + (beat - 1) * beatSeconds);
      }

      @Override
      public OptionalDouble bars(double seconds) {
        return OptionalDouble.of(1 + (seconds - firstBarSeconds) / barSeconds);
      }
    };
  }
}

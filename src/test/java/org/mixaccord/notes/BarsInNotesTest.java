package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.mixaccord.audio.TempoMap;

/** Places said in bars, where tempo and metre change. */
class BarsInNotesTest {
  /** Four bars of 3/4 at 120, then 4/4; from bar 8 on 90 bpm. Begins at 1 s. */
  private static final TempoMap MAP =
      TempoMap.of(
          1,
          List.of(new TempoMap.Tempo(0, 500_000), new TempoMap.Tempo(24, 60e6 / 90)),
          List.of(new TempoMap.Meter(0, 3, 4), new TempoMap.Meter(12, 4, 4)));

  private static final BarGrid GRID =
      new BarGrid() {
        @Override
        public OptionalDouble seconds(double bars) {
          return OptionalDouble.of(MAP.secondsOfBars(bars));
        }

        @Override
        public OptionalDouble seconds(int bar, double beat) {
          return OptionalDouble.of(MAP.seconds(bar, beat));
        }

        @Override
        public OptionalDouble bars(double seconds) {
          return OptionalDouble.of(MAP.bars(seconds));
        }
      };

  /** The song ends after bar 10: at 13 + 3 bars of 4 beats of 2/3 s. */
  private static final List<NamedSpan> SECTIONS = List.of(new NamedSpan("All", 0, 21));

  private static Where where(String text, BarGrid bars) {
    Reading reading = NoteReader.read(text, new NoteContext(SECTIONS, bars, List.of()));
    assertEquals(1, reading.changes().size(), text);
    return reading.changes().get(0).where();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "snare up at bar 5 | 7 | 7",
        "snare up at bar 8 | 13 | 13",
        "snare up at bar 9 | 15.6667 | 15.6667",
        "snare up at beat 3 of bar 2 | 3.5 | 3.5",
        "snare up at bar 8 beat 4 | 15 | 15",
        "snare up in bars 4-5 | 5.5 | 9",
        "snare up from bar 9 on | 15.6667 | 21",
        "snare up in the first 5 bars | 1 | 9",
        "snare up in the last 4 bars | 11 | 21",
      })
  void barsFollowTheTempoMap(String text, double from, double to) {
    Where where = where(text, GRID);
    assertEquals(from, where.fromSeconds().orElseThrow(), 0.001, text);
    assertEquals(to, where.toSeconds().orElseThrow(), 0.001, text);
  }

  @Test
  void oneTempoStaysPlainArithmetic() {
    BarGrid steady =
        NoteContext.steady(OptionalDouble.of(120), OptionalInt.of(4), OptionalDouble.of(0.5));
    assertEquals(0.5 + 7 * 2, where("snare up at bar 8", steady).fromSeconds().orElseThrow(), 1e-9);
    assertEquals(
        0.5 + 7 * 2 + 1,
        where("snare up at beat 3 of bar 8", steady).fromSeconds().orElseThrow(),
        1e-9);
  }

  /** No tempo, or one that makes no sense, leaves a bar a place nobody knows. */
  @Test
  void withoutATempoABarIsAskedAbout() {
    for (BarGrid unknown :
        List.of(
            BarGrid.UNKNOWN,
            NoteContext.steady(
                OptionalDouble.of(1e-308), OptionalInt.of(4), OptionalDouble.empty()),
            NoteContext.steady(
                OptionalDouble.of(120), OptionalInt.of(0), OptionalDouble.empty()))) {
      Reading reading =
          NoteReader.read("snare up at bar 8", new NoteContext(SECTIONS, unknown, List.of()));
      assertEquals(
          NoteQuestion.About.PLACE, reading.changes().get(0).question().orElseThrow().about());
    }
  }
}

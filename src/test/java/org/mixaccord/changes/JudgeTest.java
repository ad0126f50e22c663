package org.mixaccord.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.mixaccord.notes.Amount;

class JudgeTest {
  private static final Optional<Amount> ONE_DB = Optional.of(Amount.of(1, "dB"));

  private static Verdict judge(
      String direction, Optional<Amount> amount, double overall, double... moved) {
    List<Judge.Figure> figures = new ArrayList<>();
    for (double db : moved) {
      figures.add(
          new Judge.Figure(
              "Chorus " + (figures.size() + 1), OptionalDouble.of(db), OptionalDouble.of(0.02)));
    }
    return Judge.judge("level", direction, amount, overall, figures);
  }

  @Test
  void oneDecibelAskedIsJudgedByWhatMoved() {
    assertEquals(Seen.AS_ASKED, judge("up", ONE_DB, 0, 1.02).seen());
    assertEquals(Seen.PARTLY, judge("up", ONE_DB, 0, 0.4).seen());
    assertEquals(Seen.TOO_FAR, judge("up", ONE_DB, 0, 3.0).seen());
    assertEquals(Seen.OPPOSITE, judge("up", ONE_DB, 0, -0.8).seen());
    assertEquals(Seen.NOT_SEEN, judge("up", ONE_DB, 0, 0.05).seen());
    assertEquals(Seen.AS_ASKED, judge("down", ONE_DB, 0, -1.1).seen());
  }

  @Test
  void theOverallGainIsNoChangeOfAPart() {
    Verdict verdict = judge("up", ONE_DB, 1.0, 1.0);
    assertEquals(Seen.NOT_SEEN, verdict.seen());
    assertEquals(0.0, verdict.measuredDb().getAsDouble(), 1e-9);
    assertEquals(1.0, verdict.deliveredDb().getAsDouble(), 1e-9);
    assertEquals(
        "+0.0 dB in Chorus 1 with the overall level removed (+1.0 dB as delivered).",
        verdict.detail());
  }

  @Test
  void sectionsThatDisagreeArePartly() {
    assertEquals(Seen.PARTLY, judge("up", ONE_DB, 0, 1.0, 0.0).seen());
    assertEquals(Seen.TOO_FAR, judge("up", ONE_DB, 0, 1.0, 4.0).seen());
    assertEquals(Seen.OPPOSITE, judge("up", ONE_DB, 0, -1.0, 0.0).seen());
    assertEquals(Seen.PARTLY, judge("up", ONE_DB, 0, -1.0, 1.0).seen());
  }

  @Test
  void wordsMeanARangeAndPercentAreDecibels() {
    Optional<Amount> touch = Optional.of(Amount.vague("a touch"));
    assertEquals(Seen.AS_ASKED, judge("up", touch, 0, 0.7).seen());
    assertEquals(Seen.TOO_FAR, judge("up", touch, 0, 3).seen());
    Optional<Amount> lot = Optional.of(Amount.vague("a lot"));
    assertEquals(Seen.PARTLY, judge("up", lot, 0, 0.7).seen());
    // 20 lg 1.5 = 3.52
    assertEquals(Seen.AS_ASKED, judge("up", Optional.of(Amount.of(50, "%")), 0, 3.5).seen());
  }

  @Test
  void whatTheFilesDoNotTellIsNotGuessed() {
    assertEquals(Seen.CANNOT_TELL, judge("up", ONE_DB, 0).seen());
    assertEquals(OptionalDouble.empty(), judge("up", ONE_DB, 0).measuredDb());
    assertEquals(Seen.CANNOT_TELL, judge("match", ONE_DB, 0, 1).seen());
    assertEquals(Seen.CANNOT_TELL, judge("up", Optional.of(Amount.of(10, "ms")), 0, 1).seen());
    List<Judge.Figure> unsure =
        List.of(new Judge.Figure("Verse", OptionalDouble.of(1), OptionalDouble.of(2)));
    assertEquals(Seen.CANNOT_TELL, Judge.judge("level", "up", ONE_DB, 0, unsure).seen());
    List<Judge.Figure> known =
        List.of(new Judge.Figure("Verse", OptionalDouble.of(1), OptionalDouble.of(0.1)));
    assertEquals(Seen.CANNOT_TELL, Judge.judge("reverb", "up", ONE_DB, 0, known).seen());
  }
}

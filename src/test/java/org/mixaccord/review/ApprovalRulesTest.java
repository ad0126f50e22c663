package org.mixaccord.review;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.mixaccord.changes.Place;
import org.mixaccord.changes.Seen;
import org.mixaccord.compare.Difference;
import org.mixaccord.compare.Likeness;
import org.mixaccord.review.ApprovalBook.Standing;
import org.mixaccord.review.ApprovalRules.Outcome;

class ApprovalRulesTest {
  private static final OpenPoint CHANGE = new OpenPoint(OpenPoint.NO_OPEN_CHANGE, "one", true);
  private static final OpenPoint STOP = new OpenPoint(OpenPoint.NO_STOP, "ann", false);

  private static Outcome decide(
      ApprovalDecision decision,
      String hash,
      List<String> despite,
      boolean reasoned,
      ApprovalRules.Facts facts) {
    return ApprovalRules.decide(
            new ApprovalRules.Request(decision, hash, despite, reasoned, false), facts)
        .outcome();
  }

  private static ApprovalRules.Facts facts(
      boolean asked, boolean anybody, boolean engineer, boolean comments, OpenPoint... open) {
    return new ApprovalRules.Facts(asked, anybody, engineer, comments, true, "h", List.of(open));
  }

  @Test
  void onlyWhoIsAskedApprovesAndOnlyTheLonelyEngineerFinishes() {
    for (ApprovalDecision decision : ApprovalDecision.values()) {
      for (int i = 0; i < 16; i++) {
        boolean asked = (i & 1) != 0;
        boolean anybody = asked || (i & 2) != 0;
        boolean engineer = (i & 4) != 0;
        boolean comments = (i & 8) != 0;
        boolean may =
            switch (decision) {
              case APPROVE -> asked;
              case FINISHED -> engineer && !anybody;
              default -> comments;
            };
        assertEquals(
            may ? Outcome.ALLOWED : Outcome.NOT_YOURS,
            decide(decision, "h", List.of(), false, facts(asked, anybody, engineer, comments)),
            decision + " " + i);
      }
    }
  }

  @Test
  void whatBindsNeedsTheHashAndNothingOpen() {
    var approver = facts(true, true, false, true);
    assertEquals(
        Outcome.HASH_MISSING, decide(ApprovalDecision.APPROVE, null, List.of(), false, approver));
    assertEquals(
        Outcome.HASH_DIFFERS,
        decide(ApprovalDecision.APPROVE, "other", List.of(), false, approver));
    var open = facts(true, true, false, true, CHANGE);
    assertEquals(Outcome.OPEN_POINTS, decide(ApprovalDecision.APPROVE, "h", List.of(), true, open));
    List<String> despite = List.of(OpenPoint.NO_OPEN_CHANGE);
    assertEquals(
        Outcome.REASON_NEEDED, decide(ApprovalDecision.APPROVE, "h", despite, false, open));
    assertEquals(Outcome.ALLOWED, decide(ApprovalDecision.APPROVE, "h", despite, true, open));
    var stopped = facts(true, true, false, true, STOP);
    assertEquals(
        Outcome.OPEN_POINTS,
        decide(ApprovalDecision.APPROVE, "h", List.of(OpenPoint.NO_STOP), true, stopped));
  }

  @Test
  void nothingBlocksNotYetStopOrFine() {
    var open = facts(false, true, false, true, CHANGE, STOP);
    for (ApprovalDecision decision :
        List.of(ApprovalDecision.NOT_YET, ApprovalDecision.STOP, ApprovalDecision.FINE_BY_ME)) {
      assertEquals(Outcome.ALLOWED, decide(decision, null, List.of(), false, open));
    }
  }

  @Test
  void theFirstThreePointsAndAStopAlwaysBlock() {
    List<OpenPoint> all =
        OpenPoint.of(
            new OpenPoint.Facts(
                false,
                false,
                List.of("cut"),
                List.of("q"),
                List.of("c"),
                List.of("s"),
                List.of("ann")));
    assertEquals(OpenPoint.CODES, all.stream().map(OpenPoint::code).toList());
    assertEquals(
        List.of(false, false, false, true, true, true, false),
        all.stream().map(OpenPoint::passable).toList());
  }

  @Test
  void whatIsOpenIsToldInSentencesOneBehindTheOther() {
    List<OpenPoint> open =
        OpenPoint.of(
            new OpenPoint.Facts(
                true,
                true,
                List.of("The file is cut off. Print it again.", "39 samples hold no number."),
                List.of("Jo was asked: Which chorus?"),
                List.of("“vocal up”", "“less bass!”", "“c”", "“d”", "“e”", "“f”", "“g”"),
                List.of(),
                List.of("Ann has said stop")));
    assertEquals(
        List.of(
            "The file is cut off. Print it again. 39 samples hold no number.",
            "Jo was asked: Which chorus?",
            "“vocal up”. “less bass!” “c”. “d”. “e”. And 2 more.",
            "Ann has said stop."),
        open.stream().map(OpenPoint::detail).toList());
  }

  @Test
  void aStopIsLiftedByItsGiverOrByAnApproverWithAReason() {
    Given stop = given("1", "ann", ApprovalDecision.STOP, "b1", "h", 1);
    assertEquals(Outcome.ALLOWED, ApprovalRules.end(stop, true, false, false));
    assertEquals(Outcome.REASON_NEEDED, ApprovalRules.end(stop, false, true, false));
    assertEquals(Outcome.ALLOWED, ApprovalRules.end(stop, false, true, true));
    assertEquals(Outcome.NOT_YOURS, ApprovalRules.end(stop, false, false, true));
    Given approve = given("2", "ann", ApprovalDecision.APPROVE, "b1", "h", 1);
    assertEquals(Outcome.NOT_YOURS, ApprovalRules.end(approve, false, true, true));
  }

  private static Given given(
      String id, String person, ApprovalDecision decision, String bounce, String hash, int second) {
    return new Given(
        id,
        person,
        decision,
        bounce,
        hash,
        Instant.ofEpochSecond(second),
        false,
        List.of(),
        Set.of());
  }

  @Test
  void everyLikenessAgainstEveryWidth() {
    for (Likeness found : Likeness.values()) {
      for (Likeness widest :
          List.of(Likeness.IDENTICAL, Likeness.SAME_AUDIO, Likeness.REQUANTISED)) {
        boolean stays = found.ordinal() <= widest.ordinal();
        assertEquals(stays, CarryOver.stays(found, widest), found + " within " + widest);
      }
    }
  }

  @Test
  void theSameAudioStaysApprovedAndOneOtherSampleAsksAgain() {
    ApprovalBook book =
        new ApprovalBook(List.of(given("1", "ann", ApprovalDecision.APPROVE, "b1", "h", 1)));
    assertEquals(true, book.approves("b1", "h", List.of("ann"), Instant.MIN));
    assertEquals(true, book.approves("b2", "h", List.of("ann"), Instant.MIN));
    assertEquals(false, book.approves("b2", "other", List.of("ann"), Instant.MIN));
    assertEquals(false, book.approves("b1", "h", List.of("ann", "bob"), Instant.MIN));
    assertEquals(false, book.approves("b1", "h", List.of(), Instant.MIN));
    assertEquals(List.of("bob"), book.undecided("b1", "h", List.of("ann", "bob")));
  }

  @Test
  void aNewerMixAsksAgainUntilTheEarlierOneIsChosenAnew() {
    Given before = given("1", "ann", ApprovalDecision.APPROVE, "b1", "h", 5);
    Given after = given("2", "ann", ApprovalDecision.APPROVE, "b1", "h", 7);
    Instant newerSent = Instant.ofEpochSecond(6);
    List<String> ann = List.of("ann");
    assertEquals(false, new ApprovalBook(List.of(before)).approves("b1", "h", ann, newerSent));
    assertEquals(
        true, new ApprovalBook(List.of(before, after)).approves("b1", "h", ann, newerSent));
    Given finished = given("1", "eng", ApprovalDecision.FINISHED, "b1", "h", 5);
    ApprovalBook alone = new ApprovalBook(List.of(finished));
    assertEquals(true, alone.finishes("b1", "h", List.of(), Instant.MIN));
    assertEquals(false, alone.finishes("b1", "h", List.of(), newerSent));
  }

  @Test
  void aLaterWordReplacesAnEarlierOneButAStopStands() {
    ApprovalBook book =
        new ApprovalBook(
            List.of(
                given("1", "ann", ApprovalDecision.APPROVE, "b1", "h", 1),
                given("2", "ann", ApprovalDecision.FINE_BY_ME, "b1", "h", 2),
                given("3", "bob", ApprovalDecision.NOT_YET, "b1", "h", 3),
                given("4", "bob", ApprovalDecision.APPROVE, "b1", "h", 4)));
    assertEquals(
        List.of(Standing.VALID, Standing.VALID, Standing.LAPSED, Standing.VALID),
        book.of("b1", "h").stream().map(ApprovalBook.Entry::standing).toList());
    ApprovalBook stopped =
        new ApprovalBook(
            List.of(
                given("1", "ann", ApprovalDecision.STOP, "b1", "h", 1),
                given("2", "ann", ApprovalDecision.APPROVE, "b2", "k", 2)));
    assertEquals(false, stopped.approves("b2", "k", List.of("ann"), Instant.MIN));
    assertEquals(1, stopped.stops().size());
  }

  @Test
  void onceDoneTakesEffectOnlyWhenNothingElseMoved() {
    Place chorus = new Place(Set.of("chorus"), Optional.empty());
    var done = List.of(new CarryOver.Awaited(true, Seen.AS_ASKED, chorus));
    var parts = List.of(part("verse", Difference.UNCHANGED), part("chorus", Difference.CHANGED));
    assertEquals(Optional.empty(), CarryOver.holdsBack(done, parts, true));
    assertEquals(true, CarryOver.holdsBack(done, parts, false).isPresent());
    assertEquals(true, CarryOver.holdsBack(done, List.of(), true).isPresent());
    for (Difference doubtful :
        List.of(Difference.CHANGED, Difference.UNCERTAIN, Difference.ONLY_HERE)) {
      assertEquals(
          Optional.of("Something else changed in verse."),
          CarryOver.holdsBack(done, List.of(part("verse", doubtful)), true));
    }
    for (Seen seen : Seen.values()) {
      var one = List.of(new CarryOver.Awaited(true, seen, chorus));
      assertEquals(
          seen != Seen.AS_ASKED, CarryOver.holdsBack(one, parts, true).isPresent(), seen.wire());
    }
    var undone = List.of(new CarryOver.Awaited(false, Seen.AS_ASKED, chorus));
    assertEquals(true, CarryOver.holdsBack(undone, parts, true).isPresent());
  }

  private static CarryOver.Part part(String name, Difference difference) {
    return new CarryOver.Part(name, Optional.of(new Place.Span(0, 10)), difference);
  }
}

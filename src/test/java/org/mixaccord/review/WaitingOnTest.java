package org.mixaccord.review;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.mixaccord.review.WaitingOn.Reason;

/** One reason at a time: each is taken away in turn, and the next one shows. */
class WaitingOnTest {
  private static Instant at(int second) {
    return Instant.ofEpochSecond(second);
  }

  @Test
  void oneReasonGoesBeforeTheOther() {
    check(Reason.STOP, "ann", 1, 0);
    check(Reason.SETTLE, "last", 2, 1);
    check(Reason.ANSWER, "art", 3, 2);
    check(Reason.SEND_NOTES, "last", 4, 3);
    check(Reason.WORK, "eng", 6, 4);
    check(Reason.SEND, "eng", 7, 5);
    check(Reason.WORK, "eng", 6, 6);
    check(Reason.APPROVE, "boss", 9, 7);
    check(Reason.HEAR, "art", 10, 8);
    check(Reason.NOT_YET, "eng", 11, 9);
    check(Reason.FINISH, "eng", 9, 10);
  }

  private static void check(Reason reason, String person, int since, int gone) {
    WaitingOn waiting = WaitingOn.of(without(gone, Optional.of(at(9)))).orElseThrow();
    assertEquals(
        List.of(reason, List.of(person), at(since)),
        List.of(waiting.reason(), waiting.persons(), waiting.since()));
  }

  /** Everything is due at once, but the first so many reasons. */
  private static WaitingOn.Facts without(int gone, Optional<Instant> sentAt) {
    return new WaitingOn.Facts(
        at(0),
        List.of("eng"),
        Optional.of("last"),
        false,
        gone > 0 ? Optional.empty() : Optional.of(new WaitingOn.Since("ann", at(1))),
        sentAt,
        gone > 5 ? Optional.empty() : Optional.of(at(7)),
        gone > 1 ? Optional.empty() : Optional.of(at(2)),
        gone > 2 ? List.of() : List.of(new WaitingOn.Since("art", at(3))),
        gone > 3 ? Optional.empty() : Optional.of(at(4)),
        gone > 4 ? Optional.empty() : Optional.of(at(5)),
        gone > 6 ? Optional.empty() : Optional.of(at(6)),
        gone > 7 ? List.of() : List.of("boss"),
        gone > 8 ? List.of() : List.of(new WaitingOn.Since("art", at(10))),
        gone > 9 ? List.of() : List.of(new WaitingOn.Since("boss", at(11))));
  }

  @Test
  void beforeAnythingIsSentItWaitsForTheEngineer() {
    assertEquals(Reason.SEND, WaitingOn.of(without(5, Optional.empty())).orElseThrow().reason());
    WaitingOn first = WaitingOn.of(without(6, Optional.empty())).orElseThrow();
    assertEquals(Reason.FIRST_MIX, first.reason());
    assertEquals(at(0), first.since());
  }
}

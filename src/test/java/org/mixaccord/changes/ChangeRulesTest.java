package org.mixaccord.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.mixaccord.changes.Decision.Outcome;

/** Every move × every kind of person × with and without a reason, the refusals included. */
class ChangeRulesTest {
  /**
   * The moves there are. Lower case may do it, a star after it: only with a reason. e engineer, a
   * author, l last word. “done-private” is what only engineers know; to others it is “asked”.
   */
  private static final List<String[]> MOVES =
      List.of(
          new String[] {"unclear", "asked", "e a"},
          new String[] {"unclear", "withdrawn", "a l*"},
          new String[] {"asked", "done", "e"},
          new String[] {"asked", "left", "e*"},
          new String[] {"asked", "withdrawn", "a l*"},
          new String[] {"done-private", "asked", "e"},
          new String[] {"done-sent", "good", "a l"},
          new String[] {"left", "asked", "a* l*"},
          new String[] {"left-settled", "asked", "l*"});

  private static final List<String> FROM =
      List.of(
          "unclear",
          "asked",
          "done-private",
          "done-sent",
          "good",
          "left",
          "left-settled",
          "withdrawn",
          "followed");

  @Test
  void theTableIsKept() {
    List<String> wrong = new ArrayList<>();
    int cases = 0;
    for (String from : FROM) {
      for (ChangeState to : ChangeState.values()) {
        for (int who = 0; who < 8; who++) {
          Actor actor = new Actor((who & 1) != 0, (who & 2) != 0, (who & 4) != 0);
          for (boolean reasoned : new boolean[] {false, true}) {
            Outcome found = ChangeRules.move(facts(from), to, actor, reasoned).outcome();
            Outcome expected = expected(from, to, actor, reasoned);
            cases++;
            if (found != expected) {
              wrong.add(from + " " + to.wire() + " " + actor + " " + reasoned + ": " + found);
            }
          }
        }
      }
    }
    assertEquals(List.of(), wrong);
    assertEquals(9 * 7 * 8 * 2, cases);
  }

  private static ChangeFacts facts(String from) {
    return switch (from) {
      case "done-private" -> new ChangeFacts(ChangeState.DONE, false, false);
      case "done-sent" -> new ChangeFacts(ChangeState.DONE, true, false);
      case "left-settled" -> new ChangeFacts(ChangeState.LEFT, false, true);
      default -> ChangeFacts.of(ChangeState.of(from).orElseThrow());
    };
  }

  private static Outcome expected(String from, ChangeState to, Actor actor, boolean reasoned) {
    String seen = from.equals("done-private") && !actor.engineer() ? "asked" : from;
    Optional<String[]> row =
        MOVES.stream().filter(m -> m[0].equals(seen) && m[1].equals(to.wire())).findFirst();
    if (row.isEmpty()) {
      return Outcome.WRONG_STATE;
    }
    Outcome best = Outcome.NOT_YOURS;
    for (String who : row.get()[2].split(" ")) {
      boolean is =
          switch (who.charAt(0)) {
            case 'e' -> actor.engineer();
            case 'a' -> actor.author();
            default -> actor.lastWord();
          };
      if (is && (who.length() == 1 || reasoned)) {
        return Outcome.ALLOWED;
      }
      if (is) {
        best = Outcome.REASON_NEEDED;
      }
    }
    return best;
  }

  @Test
  void onlyWhatWasDoneAndSentCanBeJudgedAfterHearing() {
    Actor author = new Actor(false, true, false);
    for (String from : FROM) {
      Outcome expected = from.equals("done-sent") ? Outcome.ALLOWED : Outcome.WRONG_STATE;
      assertEquals(expected, ChangeRules.hear(facts(from), author).outcome(), from);
    }
    Actor engineer = new Actor(true, false, false);
    assertEquals(Outcome.NOT_YOURS, ChangeRules.hear(facts("done-sent"), engineer).outcome());
  }

  @Test
  void anAuthorRewordsUntilTheListIsClosedAndTheEngineerAlways() {
    Actor author = new Actor(false, true, false);
    Actor engineer = new Actor(true, false, false);
    Actor other = new Actor(false, false, true);
    ChangeFacts asked = ChangeFacts.of(ChangeState.ASKED);
    assertEquals(Outcome.ALLOWED, ChangeRules.edit(asked, author, false).outcome());
    assertEquals(Outcome.WRONG_STATE, ChangeRules.edit(asked, author, true).outcome());
    assertEquals(Outcome.ALLOWED, ChangeRules.edit(asked, engineer, true).outcome());
    assertEquals(Outcome.NOT_YOURS, ChangeRules.edit(asked, other, false).outcome());
    assertEquals(Outcome.WRONG_STATE, ChangeRules.edit(facts("good"), engineer, false).outcome());
  }

  @Test
  void onlyTheLastWordSettlesAndOnlyWhatContradicts() {
    Actor lastWord = new Actor(false, false, true);
    Actor engineer = new Actor(true, true, false);
    ChangeFacts asked = ChangeFacts.of(ChangeState.ASKED);
    assertEquals(Outcome.ALLOWED, ChangeRules.settle(asked, true, lastWord).outcome());
    assertEquals(Outcome.WRONG_STATE, ChangeRules.settle(asked, false, lastWord).outcome());
    assertEquals(Outcome.NOT_YOURS, ChangeRules.settle(asked, true, engineer).outcome());
    assertEquals(Outcome.WRONG_STATE, ChangeRules.settle(facts("left"), true, lastWord).outcome());
  }
}

package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.ChangeRules;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.songs.Bounce;

/** Moves changes from state to state where the rules allow it, and puts each move on the record. */
@ApplicationScoped
class ChangeMoves {
  /** Where a change is to go, and what is said with it. */
  record Move(
      ChangeState to,
      Optional<Bounce> doneIn,
      Optional<ChangeAnswer> answer,
      Optional<String> why) {
    static Move to(ChangeState state) {
      return new Move(state, Optional.empty(), Optional.empty(), Optional.empty());
    }
  }

  private final Sheet sheet;

  ChangeMoves(Sheet sheet) {
    this.sheet = sheet;
  }

  /** Moves one change, or ends the request with what the rules say against it. */
  void move(Access by, Change change, Move move) {
    if (move.answer().filter(a -> !a.fits(move.to())).isPresent()) {
      throw WireJson.invalid(
          "answer",
          "“" + move.answer().get().wire() + "” does not go with “" + move.to().wire() + "”.");
    }
    boolean reasoned =
        move.why().isPresent() || (move.to() == ChangeState.LEFT && move.answer().isPresent());
    Sheet.check(ChangeRules.move(change.facts(), move.to(), Sheet.actor(by, change), reasoned));
    apply(by, change, move);
  }

  private void apply(Access by, Change change, Move move) {
    Instant now = sheet.now();
    ChangeState from = change.state();
    Optional<Bounce> before = change.doneIn();
    String why = move.why().orElse(null);
    switch (move.to()) {
      case DONE ->
          change.becomeDone(
              move.doneIn().orElseThrow(), move.answer().orElse(ChangeAnswer.AS_ASKED), why, now);
      case GOOD -> change.heard(ChangeState.GOOD, now);
      default -> change.become(move.to(), move.answer().orElse(null), why, now);
    }
    if (from == ChangeState.UNCLEAR) {
      closeQuestions(by, change, now);
    }
    Happening row = Sheet.about(change, "change-" + move.to().wire(), words(by, change, from));
    sheet.tell(by, change.song(), hidden(row, change, from, before));
  }

  /** What happens to a private pass stays with the engineers until it is sent. */
  private static Happening hidden(
      Happening row, Change change, ChangeState from, Optional<Bounce> before) {
    Optional<Bounce> concerned = change.state() == ChangeState.DONE ? change.doneIn() : before;
    boolean privately =
        concerned.isPresent()
            && !concerned.get().sent()
            && (change.state() == ChangeState.DONE
                || (from == ChangeState.DONE && change.state() == ChangeState.ASKED));
    Happening about = concerned.isPresent() && privately ? row.about(concerned.get().id()) : row;
    return privately ? about.forEngineers() : about;
  }

  private static String words(Access by, Change change, ChangeState from) {
    String quote = Sheet.quote(change.text());
    String who = by.person().name();
    String why = change.reason().map(r -> ": " + r).orElse(".");
    return switch (change.state()) {
      case DONE -> quote + " is done in " + change.doneIn().orElseThrow().title() + ".";
      case GOOD -> who + " finds " + quote + " good.";
      case LEFT -> who + " left " + quote + why;
      case WITHDRAWN -> who + " withdrew " + quote + why;
      case ASKED ->
          from == ChangeState.UNCLEAR
              ? who + " takes " + quote + " as it was read."
              : who
                  + (from == ChangeState.DONE ? " put back on the list: " : " asks again: ")
                  + quote;
      default -> quote + " is " + change.state().wire() + ".";
    };
  }

  /** Nobody has to answer any more what only concerned changes that are clear or gone. */
  void closeQuestions(Access by, Change change, Instant now) {
    for (Question question : Question.openAbout(change)) {
      boolean waits =
          question.changes().stream()
              .map(id -> Change.<Change>findById(id))
              .anyMatch(c -> c.state() == ChangeState.UNCLEAR);
      if (!waits) {
        question.skip(by.person(), now);
      }
    }
  }

  /** The same move for every change of a list that asks for the same as one of them. */
  void moveRepeats(Access by, Change change, List<Change> repeats, Move move) {
    for (Change other : repeats) {
      boolean alike =
          !other.id().equals(change.id())
              && ChangeRules.move(other.facts(), move.to(), Sheet.actor(by, other), true).allowed();
      if (alike) {
        apply(by, other, move);
      }
    }
  }
}

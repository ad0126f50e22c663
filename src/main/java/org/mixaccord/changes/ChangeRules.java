package org.mixaccord.changes;

/**
 * Who may move a change from which state to which. What is not allowed here is refused: first when
 * nobody could do it in this state, then when this person may not.
 *
 * <p>Source: docs/review-rules.md, "States of a change". Constant cost.
 */
public final class ChangeRules {
  private ChangeRules() {}

  /**
   * Decides on a move. The person's own view counts: for everybody but engineers, a change done in
   * a private bounce is still {@code asked}.
   *
   * @param facts where the change stands
   * @param to the state wanted
   * @param actor what the person is to the change
   * @param reasoned whether a reason was given (for {@code left} an answer counts as one)
   */
  public static Decision move(ChangeFacts facts, ChangeState to, Actor actor, boolean reasoned) {
    ChangeState from = facts.shownTo(actor.engineer());
    return switch (to) {
      case ASKED -> ask(facts, from, actor, reasoned);
      case DONE -> byEngineer(from == ChangeState.ASKED, from, to, actor);
      case LEFT ->
          byEngineer(from == ChangeState.ASKED, from, to, actor).allowed() && !reasoned
              ? Decision.reasonNeeded(
                  "Say why it is left: tried, cannot, need files or new work, or in your words.")
              : byEngineer(from == ChangeState.ASKED, from, to, actor);
      case GOOD ->
          from == ChangeState.DONE && facts.doneInSent() ? forTheWish(actor) : refuse(from, to);
      case WITHDRAWN -> withdraw(from, actor, reasoned);
      case FOLLOWED ->
          Decision.wrongState("A change is followed by saying what is still wanted after hearing.");
      case UNCLEAR -> refuse(from, to);
    };
  }

  private static Decision ask(ChangeFacts facts, ChangeState from, Actor actor, boolean reasoned) {
    return switch (from) {
      case UNCLEAR ->
          actor.engineer() || actor.author()
              ? Decision.ALLOWED
              : Decision.notYours("Whoever wrote it, or the engineer, can say that it is clear.");
      case DONE ->
          facts.doneInSent()
              ? Decision.wrongState(
                  "The mix it was done in has been sent, so this can no longer be undone.")
              : actor.engineer()
                  ? Decision.ALLOWED
                  : Decision.notYours("Only the engineer works the list.");
      case LEFT -> askAgain(facts, actor, reasoned);
      default -> refuse(from, ChangeState.ASKED);
    };
  }

  private static Decision askAgain(ChangeFacts facts, Actor actor, boolean reasoned) {
    if (facts.settled() && !actor.lastWord()) {
      return Decision.notYours(
          "This was settled. Only who has the last word can take it up again.");
    }
    if (!actor.speaksForIt()) {
      return Decision.notYours("Whoever asked for it, or who has the last word, can ask again.");
    }
    return reasoned
        ? Decision.ALLOWED
        : Decision.reasonNeeded("Say in a few words why it is asked for again.");
  }

  private static Decision withdraw(ChangeState from, Actor actor, boolean reasoned) {
    if (!from.open()) {
      return refuse(from, ChangeState.WITHDRAWN);
    }
    if (actor.author()) {
      return Decision.ALLOWED;
    }
    if (!actor.lastWord()) {
      return Decision.notYours("Whoever asked for it, or who has the last word, can withdraw it.");
    }
    return reasoned
        ? Decision.ALLOWED
        : Decision.reasonNeeded("Say why you withdraw what somebody else asked for.");
  }

  /** Saying good, more, too much, halfway or put it back, after hearing. */
  public static Decision hear(ChangeFacts facts, Actor actor) {
    return facts.state() == ChangeState.DONE && facts.doneInSent()
        ? forTheWish(actor)
        : Decision.wrongState(
            "There is nothing to judge here: this is "
                + facts.shownTo(actor.engineer()).wire()
                + ", not done in a mix you were sent.");
  }

  /** Answering a question: its author or the last word. */
  public static Decision answer(boolean answered, Actor actor) {
    if (answered) {
      return Decision.wrongState("This question has been answered.");
    }
    return forTheWish(actor);
  }

  /** Settling a contradiction in favour of a change: the last word, whoever it is. */
  public static Decision settle(ChangeFacts facts, boolean contradicted, Actor actor) {
    if (!facts.stillWanted() || !contradicted) {
      return Decision.wrongState("Nothing contradicts this, so there is nothing to settle.");
    }
    return actor.lastWord()
        ? Decision.ALLOWED
        : Decision.notYours("Only who has the last word settles what contradicts.");
  }

  /**
   * Changing what a change says.
   *
   * @param listClosed whether the engineer has begun to work on its round
   */
  public static Decision edit(ChangeFacts facts, Actor actor, boolean listClosed) {
    ChangeState from = facts.shownTo(actor.engineer());
    if (!from.open()) {
      return Decision.wrongState(
          "What is " + from.wire() + " cannot be reworded. Ask for something new.");
    }
    if (actor.engineer()) {
      return Decision.ALLOWED;
    }
    if (!actor.author()) {
      return Decision.notYours("Only whoever asked for it, or the engineer, can reword it.");
    }
    return listClosed
        ? Decision.wrongState("The engineer is working on this list. Write a new note instead.")
        : Decision.ALLOWED;
  }

  private static Decision forTheWish(Actor actor) {
    return actor.speaksForIt()
        ? Decision.ALLOWED
        : Decision.notYours("That is for whoever asked for it, or who has the last word.");
  }

  private static Decision byEngineer(boolean fits, ChangeState from, ChangeState to, Actor actor) {
    if (!fits) {
      return refuse(from, to);
    }
    return actor.engineer()
        ? Decision.ALLOWED
        : Decision.notYours("Only the engineer works the list.");
  }

  private static Decision refuse(ChangeState from, ChangeState to) {
    return Decision.wrongState(
        "This change is " + from.wire() + "; it cannot become " + to.wire() + " from there.");
  }
}

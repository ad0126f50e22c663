package org.mixaccord.review;

import java.util.Collection;
import java.util.List;

/**
 * Whether somebody may say what they say to a bounce. Source: docs/review-rules.md, "Approval".
 * Linear in the open points.
 */
public final class ApprovalRules {
  private ApprovalRules() {}

  /** What can come of asking. */
  public enum Outcome {
    ALLOWED,
    NOT_YOURS,
    WRONG_STATE,
    HASH_MISSING,
    HASH_DIFFERS,
    OPEN_POINTS,
    REASON_NEEDED,
    ONCE_DONE_UNFIT
  }

  /**
   * What was decided.
   *
   * @param open the points that refuse it; empty unless it is refused for them
   */
  public record Ruling(Outcome outcome, List<OpenPoint> open) {
    static Ruling of(Outcome outcome) {
      return new Ruling(outcome, List.of());
    }
  }

  /**
   * What is asked.
   *
   * @param decision what the person says
   * @param pcmSha256 hash of the audio they mean; null when they did not say
   * @param despite open points they pass over, by code
   * @param reasoned whether a reason was given
   * @param waits whether it is to take effect only once changes are done
   */
  public record Request(
      ApprovalDecision decision,
      String pcmSha256,
      Collection<String> despite,
      boolean reasoned,
      boolean waits) {}

  /**
   * What the person and the bounce are.
   *
   * @param asked whether this person's approval is asked for on this bounce
   * @param anybodyAsked whether anybody's is
   * @param engineer whether the person is an engineer of the project
   * @param mayComment whether the person may say fine, not yet and stop
   * @param sent whether the bounce has been sent
   * @param pcmSha256 hash of its decoded audio; empty text before it is known
   * @param open its open points; those a waiting approval waits for left out
   */
  public record Facts(
      boolean asked,
      boolean anybodyAsked,
      boolean engineer,
      boolean mayComment,
      boolean sent,
      String pcmSha256,
      List<OpenPoint> open) {}

  /** Decides. Who may not at all is told so before anything about the bounce. */
  public static Ruling decide(Request request, Facts facts) {
    boolean mine =
        switch (request.decision()) {
          case APPROVE -> facts.asked();
          case FINISHED -> facts.engineer() && !facts.anybodyAsked();
          case FINE_BY_ME, NOT_YET, STOP -> facts.mayComment();
        };
    if (!mine) {
      return Ruling.of(Outcome.NOT_YOURS);
    }
    if (request.waits() && request.decision() != ApprovalDecision.APPROVE) {
      return Ruling.of(Outcome.ONCE_DONE_UNFIT);
    }
    if (request.pcmSha256() == null && request.decision().binds()) {
      return Ruling.of(Outcome.HASH_MISSING);
    }
    if (request.pcmSha256() != null
        && !facts.pcmSha256().isEmpty()
        && !request.pcmSha256().equalsIgnoreCase(facts.pcmSha256())) {
      return Ruling.of(Outcome.HASH_DIFFERS);
    }
    if (!request.decision().binds()) {
      return Ruling.of(facts.sent() ? Outcome.ALLOWED : Outcome.WRONG_STATE);
    }
    List<OpenPoint> refusing =
        facts.open().stream()
            .filter(p -> !p.passable() || !request.despite().contains(p.code()))
            .toList();
    if (!refusing.isEmpty()) {
      return new Ruling(Outcome.OPEN_POINTS, refusing);
    }
    return !facts.open().isEmpty() && !request.reasoned()
        ? new Ruling(Outcome.REASON_NEEDED, facts.open())
        : Ruling.of(Outcome.ALLOWED);
  }

  /**
   * Whether somebody may take a decision back.
   *
   * @param given the decision
   * @param own whether it is theirs
   * @param asked whether their own approval is asked for on that bounce
   * @param reasoned whether a reason was given
   */
  public static Outcome end(Given given, boolean own, boolean asked, boolean reasoned) {
    if (given.ended()) {
      return Outcome.WRONG_STATE;
    }
    if (own) {
      return Outcome.ALLOWED;
    }
    if (given.decision() != ApprovalDecision.STOP || !asked) {
      return Outcome.NOT_YOURS;
    }
    return reasoned ? Outcome.ALLOWED : Outcome.REASON_NEEDED;
  }
}

package org.mixaccord.review;

import java.time.Instant;
import java.util.List;
import java.util.Set;

/**
 * One decision somebody gave on a bounce, as it is on the record.
 *
 * @param id of the decision
 * @param person who gave it
 * @param decision what was said
 * @param bounce the bounce it was given on
 * @param pcmSha256 hash of the decoded audio it is bound to
 * @param at when
 * @param ended whether it was withdrawn or lifted
 * @param onceDone changes it waits for; empty for a decision that holds at once
 * @param carriedTo later bounces it holds for as well, found alike enough
 */
public record Given(
    String id,
    String person,
    ApprovalDecision decision,
    String bounce,
    String pcmSha256,
    Instant at,
    boolean ended,
    List<String> onceDone,
    Set<String> carriedTo) {
  /** Copies the collections in. */
  public Given {
    onceDone = List.copyOf(onceDone);
    carriedTo = Set.copyOf(carriedTo);
  }

  /** Whether it was given on, or holds for, a bounce; whether it is still in force is not asked. */
  boolean concerns(String bounceId, String hash) {
    return bounce.equals(bounceId) || carriedTo.contains(bounceId) || sameAudio(hash);
  }

  /** Identical audio keeps a binding decision, unless it only takes effect later. */
  private boolean sameAudio(String hash) {
    return decision.binds() && onceDone.isEmpty() && pcmSha256.equals(hash);
  }

  boolean waits() {
    return !onceDone.isEmpty();
  }
}

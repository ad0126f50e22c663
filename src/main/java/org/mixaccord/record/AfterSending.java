package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.ProjectPeople;
import org.mixaccord.songs.Bounce;

/** What the record has to do once a bounce was sent, and again once it was compared. */
@ApplicationScoped
public class AfterSending {
  private final History history;
  private final ApprovalEffects effects;

  AfterSending(History history, ApprovalEffects effects) {
    this.history = history;
    this.effects = effects;
  }

  /**
   * Tells everybody what was done in the bounce, and looks whether an approval holds for it. In the
   * transaction that sends it, after its own row of history.
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public void sent(Bounce bounce, Person by) {
    for (Change change : Change.doneIn(bounce)) {
      history.append(
          bounce.song(),
          by,
          Sheet.about(
                  change,
                  "change-done",
                  Sheet.quote(change.text()) + " is done in " + bounce.title() + ".")
              .about(bounce.id()));
    }
    effects.consider(bounce, by, ProjectPeople.of(bounce.song().project()));
  }

  /** A sent bounce has been compared with an earlier one: an approval may hold for it now. */
  @Transactional
  public void compared(String bounceId) {
    Bounce bounce = Bounce.findById(bounceId);
    if (bounce != null && bounce.sent()) {
      effects.consider(
          bounce,
          bounce.sentBy().orElse(bounce.uploader()),
          ProjectPeople.of(bounce.song().project()));
    }
  }
}

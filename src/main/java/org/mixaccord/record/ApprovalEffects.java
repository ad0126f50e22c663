package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.ProjectPeople;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.Place;
import org.mixaccord.compare.Difference;
import org.mixaccord.compare.Likeness;
import org.mixaccord.review.ApprovalBook;
import org.mixaccord.review.ApprovalDecision;
import org.mixaccord.review.CarryOver;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** What follows from a decision: changes become good, approvals hold for later bounces. */
@ApplicationScoped
class ApprovalEffects {
  private final History history;
  private final Sheet sheet;
  private final Evidence evidence;
  private final Places places;
  private final VerdictDesk verdicts;

  ApprovalEffects(
      History history, Sheet sheet, Evidence evidence, Places places, VerdictDesk verdicts) {
    this.history = history;
    this.sheet = sheet;
    this.evidence = evidence;
    this.places = places;
    this.verdicts = verdicts;
  }

  /** What a decision just taken brings about; returns the newest row of the history. */
  HistoryEntry after(Access by, Bounce bounce, Approval approval) {
    Person person = by.person();
    if (approval.decision() == ApprovalDecision.FINE_BY_ME) {
      good(bounce.song(), person, c -> c.asker().id().equals(person.id()) && !later(c, bounce));
    } else if (approval.decision().binds()) {
      approved(bounce, person, by.people());
    }
    return newest(bounce.song());
  }

  private static HistoryEntry newest(Song song) {
    return HistoryEntry.<HistoryEntry>find("song = ?1 order by seq desc", song.id()).firstResult();
  }

  private static boolean later(Change change, Bounce bounce) {
    return change
        .doneIn()
        .flatMap(Bounce::sentAt)
        .filter(at -> at.isAfter(bounce.sentAt().orElse(at)))
        .isPresent();
  }

  /** When the song is approved, everything that was done is good. */
  private void approved(Bounce bounce, Person by, ProjectPeople people) {
    ApprovalBook book = ApprovalBooks.of(bounce.song());
    Optional<ApprovalBooks.Approved> approved =
        ApprovalBooks.approvedBounce(bounce.song(), book, people);
    if (approved.isEmpty()) {
      return;
    }
    Bounce now = approved.get().bounce();
    history.append(
        bounce.song(),
        by,
        new Happening(
            "approval",
            approved.get().finishedOnly() ? "song-finished" : "song-approved",
            bounce.song().id(),
            bounce.song().title()
                + (approved.get().finishedOnly() ? " is finished as " : " is approved as ")
                + now.title()
                + ".",
            now.id(),
            null,
            now.id(),
            null,
            false));
    if (!approved.get().finishedOnly()) {
      good(bounce.song(), by, c -> true);
    }
  }

  private void good(Song song, Person by, Predicate<Change> which) {
    for (Change change : Change.of(song)) {
      if (change.facts().shownTo(false) == ChangeState.DONE && which.test(change)) {
        change.heard(ChangeState.GOOD, sheet.now());
        history.append(
            song, by, Sheet.about(change, "change-good", Sheet.quote(change.text()) + " is good."));
      }
    }
  }

  /** Looks whether earlier approvals hold for a bounce that was sent, as far as can be told yet. */
  void consider(Bounce newer, Person by, ProjectPeople people) {
    if (!newer.sent() || !newer.ready()) {
      return;
    }
    Map<String, Set<String>> carried = CarriedApproval.of(newer.song());
    ApprovalBook book = ApprovalBooks.of(newer.song());
    boolean any = false;
    for (Approval approval : Approval.of(newer.song())) {
      boolean eligible =
          !approval.ended()
              && approval.decision() == ApprovalDecision.APPROVE
              && !approval.bounce().id().equals(newer.id())
              && newer.sentAt().orElseThrow().isAfter(approval.at())
              && !carried.getOrDefault(approval.id(), Set.of()).contains(newer.id())
              && ApprovalBooks.inForce(book, approval);
      any |= eligible && carry(approval, newer, by);
    }
    if (any) {
      approved(newer, by, people);
    }
  }

  private boolean carry(Approval approval, Bounce newer, Person by) {
    boolean waits = !approval.onceDone().isEmpty();
    if (!waits && approval.pcmSha256().equals(ApprovalBooks.hash(newer))) {
      CarriedApproval.carry(approval, newer, Likeness.IDENTICAL.wire(), null, sheet.now());
      tell(approval, newer, by, Likeness.IDENTICAL.wire(), null);
      return true;
    }
    Optional<JsonNode> found = evidence.comparison(newer, approval.bounce()).map(WireJson::tree);
    if (found.isEmpty()) {
      return false;
    }
    String wire = found.get().path("likeness").asText();
    Optional<Likeness> likeness = likeness(wire);
    boolean holds =
        waits
            ? holdsBack(approval, newer, found.get()).isEmpty()
            : likeness.isPresent()
                && CarryOver.stays(
                    likeness.get(),
                    likeness(newer.song().project().approvalStays().wire()).orElseThrow());
    if (!holds) {
      return false;
    }
    JsonNode residual = found.get().path("whole").path("residualDb");
    Double residualDb = residual.isNumber() ? residual.doubleValue() : null;
    CarriedApproval.carry(approval, newer, wire, residualDb, sheet.now());
    tell(approval, newer, by, wire, residualDb);
    return true;
  }

  private static Optional<Likeness> likeness(String wire) {
    return Arrays.stream(Likeness.values()).filter(l -> l.wire().equals(wire)).findFirst();
  }

  private void tell(
      Approval approval, Bounce newer, Person by, String likeness, Double residualDb) {
    String residual =
        residualDb == null
            ? ""
            : String.format(Locale.ROOT, ", residual %.1f dB", residualDb).replace('-', '−');
    history.append(
        newer.song(),
        by,
        new Happening(
            "approval",
            "approval-stays",
            approval.id(),
            approval.person().name()
                + "’s approval holds for "
                + newer.title()
                + " too: "
                + likeness
                + residual
                + ". Heard "
                + approval.pcmSha256()
                + ", now "
                + ApprovalBooks.hash(newer)
                + ".",
            newer.id(),
            null,
            newer.id(),
            null,
            false));
  }

  private Optional<String> holdsBack(Approval approval, Bounce newer, JsonNode comparison) {
    List<CarryOver.Awaited> awaited = new ArrayList<>();
    for (String id : approval.onceDone()) {
      Change change = Change.findById(id);
      boolean done =
          (change.state() == ChangeState.DONE || change.state() == ChangeState.GOOD)
              && change.doneIn().filter(Bounce::sent).isPresent()
              && !later(change, newer);
      awaited.add(
          new CarryOver.Awaited(
              done,
              verdicts.judge(change, comparison.toString()).seen(),
              places.wishes(List.of(change)).get(0).place()));
    }
    List<CarryOver.Part> parts = new ArrayList<>();
    for (JsonNode section : comparison.path("sections")) {
      JsonNode from = section.path("otherFrom");
      JsonNode to = section.path("otherTo");
      parts.add(
          new CarryOver.Part(
              section.path("name").asText().toLowerCase(Locale.ROOT),
              from.isNumber() && to.isNumber()
                  ? Optional.of(new Place.Span(from.doubleValue(), to.doubleValue()))
                  : Optional.empty(),
              Arrays.stream(Difference.values())
                  .filter(d -> d.toString().equals(section.path("difference").asText()))
                  .findFirst()
                  .orElse(Difference.UNCERTAIN)));
    }
    boolean sameLength =
        comparison.path("onlyHere").isEmpty() && comparison.path("onlyThere").isEmpty();
    return CarryOver.holdsBack(awaited, parts, sameLength);
  }
}

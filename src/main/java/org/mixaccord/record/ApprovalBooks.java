package org.mixaccord.record;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.ProjectPeople;
import org.mixaccord.review.ApprovalBook;
import org.mixaccord.review.ApprovalDecision;
import org.mixaccord.review.Given;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** Opens the book of a song's decisions from the database. */
public final class ApprovalBooks {
  private ApprovalBooks() {}

  /** A bounce the song is approved by, and whether nobody but the engineer could say so. */
  public record Approved(Bounce bounce, boolean finishedOnly) {}

  /** Every decision on the song. */
  public static ApprovalBook of(Song song) {
    Map<String, Set<String>> carried = CarriedApproval.of(song);
    return new ApprovalBook(
        Approval.of(song).stream()
            .map(a -> a.given(carried.getOrDefault(a.id(), Set.of())))
            .toList());
  }

  /** Whether a decision holds, or waits, for the bounce it was given on. */
  static boolean inForce(ApprovalBook book, Approval approval) {
    return book.of(approval.bounce().id(), approval.pcmSha256()).stream()
        .filter(e -> e.given().id().equals(approval.id()))
        .anyMatch(
            e ->
                e.standing() == ApprovalBook.Standing.VALID
                    || e.standing() == ApprovalBook.Standing.PENDING);
  }

  /** The bounces approvals in force were given on: a later one is held against each of them. */
  public static List<Bounce> heardAndApproved(Song song) {
    ApprovalBook book = of(song);
    return Approval.of(song).stream()
        .filter(a -> a.decision() == ApprovalDecision.APPROVE && inForce(book, a))
        .map(Approval::bounce)
        .distinct()
        .toList();
  }

  /** Hash of a bounce's decoded audio; empty text before it is known. */
  static String hash(Bounce bounce) {
    return bounce.facts().map(AudioFacts::pcmSha256).orElse("");
  }

  /**
   * The newest sent bounce that the song is approved by, or finished with. A newer main that the
   * approval does not hold for asks again; whoever prefers the earlier one then says so anew.
   */
  public static Optional<Approved> approvedBounce(
      Song song, ApprovalBook book, ProjectPeople people) {
    Optional<Bounce> newest = Bounce.newestSentMain(song);
    return Bounce.of(song).stream()
        .filter(Bounce::sent)
        .sorted(Comparator.comparing((Bounce b) -> b.sentAt().orElseThrow()).reversed())
        .flatMap(
            bounce -> {
              List<String> asked =
                  people.approversOf(bounce.uploader().id()).stream()
                      .map(m -> m.person().id())
                      .toList();
              Instant since =
                  newest
                      .filter(main -> !main.id().equals(bounce.id()))
                      .flatMap(Bounce::sentAt)
                      .orElse(Instant.MIN);
              if (book.approves(bounce.id(), hash(bounce), asked, since)) {
                return java.util.stream.Stream.of(new Approved(bounce, false));
              }
              return book.finishes(bounce.id(), hash(bounce), asked, since)
                  ? java.util.stream.Stream.of(new Approved(bounce, true))
                  : java.util.stream.Stream.empty();
            })
        .findFirst();
  }

  /** Whose approval holds for a bounce, or who marked it finished. */
  public static List<Person> approvers(Song song, Bounce bounce) {
    ApprovalBook book = of(song);
    List<Given> given =
        new ArrayList<>(book.valid(ApprovalDecision.APPROVE, bounce.id(), hash(bounce)));
    if (given.isEmpty()) {
      given.addAll(book.valid(ApprovalDecision.FINISHED, bounce.id(), hash(bounce)));
    }
    return given.stream()
        .map(Given::person)
        .distinct()
        .map(id -> Person.<Person>findById(id))
        .toList();
  }
}

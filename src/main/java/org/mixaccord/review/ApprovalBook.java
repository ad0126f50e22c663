package org.mixaccord.review;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * All decisions of one song, and what follows from them. Nothing of it is stored: the page, the
 * lists and the rules read the same answers.
 */
public final class ApprovalBook {
  /** What a decision is worth for one bounce. */
  public enum Standing {
    VALID,
    /** Takes effect once the named changes are done. */
    PENDING,
    /** The same person has decided anew, or what it waited for has come. */
    LAPSED,
    /** Taken back, or lifted. */
    WITHDRAWN;

    /** Name on the wire. */
    public String wire() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** How one decision stands for one bounce. */
  public record Entry(Given given, Standing standing) {}

  private final List<Given> decisions;

  /**
   * Opens the book.
   *
   * @param decisions every decision ever given on the song, in any order
   */
  public ApprovalBook(Collection<Given> decisions) {
    this.decisions =
        decisions.stream()
            .sorted(Comparator.comparing(Given::at).thenComparing(Given::id))
            .toList();
  }

  /**
   * The decisions that concern a bounce, oldest first: those given on it, and the approvals of
   * earlier audio that hold for it too.
   *
   * @param bounce its id
   * @param pcmSha256 hash of its decoded audio; empty text before it is measured
   */
  public List<Entry> of(String bounce, String pcmSha256) {
    List<Entry> entries = new ArrayList<>();
    for (Given given : decisions) {
      if (given.concerns(bounce, pcmSha256)) {
        entries.add(new Entry(given, standing(given, bounce, pcmSha256)));
      }
    }
    return entries;
  }

  private Standing standing(Given given, String bounce, String pcmSha256) {
    if (given.ended()) {
      return Standing.WITHDRAWN;
    }
    if (given.waits() && !given.carriedTo().contains(bounce)) {
      boolean decidedAnew = decisions.stream().anyMatch(other -> replaces(other, given));
      return decidedAnew || !given.carriedTo().isEmpty() ? Standing.LAPSED : Standing.PENDING;
    }
    boolean decidedAnew =
        decisions.stream()
            .anyMatch(other -> replaces(other, given) && other.concerns(bounce, pcmSha256));
    return decidedAnew ? Standing.LAPSED : Standing.VALID;
  }

  /** A later decision takes the place of an earlier one of the same person; a stop only ends. */
  private static boolean replaces(Given later, Given earlier) {
    return !later.id().equals(earlier.id())
        && later.person().equals(earlier.person())
        && !later.at().isBefore(earlier.at())
        && !later.ended()
        && earlier.decision() != ApprovalDecision.STOP
        // “Fine by me” says less than an approval and takes nothing back.
        && !(later.decision() == ApprovalDecision.FINE_BY_ME && earlier.decision().binds());
  }

  /** Stops in force, oldest first: each holds for the whole song. */
  public List<Given> stops() {
    return decisions.stream()
        .filter(given -> given.decision() == ApprovalDecision.STOP && !given.ended())
        .toList();
  }

  /** The valid decisions of one kind on a bounce. */
  public List<Given> valid(ApprovalDecision decision, String bounce, String pcmSha256) {
    return of(bounce, pcmSha256).stream()
        .filter(entry -> entry.standing() == Standing.VALID)
        .map(Entry::given)
        .filter(given -> given.decision() == decision)
        .toList();
  }

  /**
   * Whether the song is approved by a bounce: everybody asked has approved it, nobody has said
   * stop.
   *
   * @param asked whose approval it needs; nobody left means not approved
   * @param since when a newer main was sent: what was said before that asks again. {@link
   *     Instant#MIN} for the newest itself
   */
  public boolean approves(
      String bounce, String pcmSha256, Collection<String> asked, Instant since) {
    List<Given> approvals = validSince(since, ApprovalDecision.APPROVE, bounce, pcmSha256);
    return !asked.isEmpty()
        && stops().isEmpty()
        && asked.stream()
            .allMatch(person -> approvals.stream().anyMatch(a -> a.person().equals(person)));
  }

  /**
   * Whether the engineer has marked a bounce finished, which counts only where nobody can approve.
   *
   * @param asked whose approval it would need
   * @param since as for {@link #approves}
   */
  public boolean finishes(
      String bounce, String pcmSha256, Collection<String> asked, Instant since) {
    return asked.isEmpty()
        && stops().isEmpty()
        && !validSince(since, ApprovalDecision.FINISHED, bounce, pcmSha256).isEmpty();
  }

  private List<Given> validSince(
      Instant since, ApprovalDecision decision, String bounce, String pcmSha256) {
    return valid(decision, bounce, pcmSha256).stream()
        .filter(given -> !given.at().isBefore(since))
        .toList();
  }

  /**
   * Who of those asked has not decided on a bounce yet: neither approved it, nor said not yet, nor
   * given an approval that waits for changes.
   */
  public List<String> undecided(String bounce, String pcmSha256, Collection<String> asked) {
    List<Entry> entries = of(bounce, pcmSha256);
    return asked.stream()
        .filter(
            person ->
                entries.stream()
                    .noneMatch(
                        entry ->
                            entry.given().person().equals(person)
                                && entry.given().decision() != ApprovalDecision.FINE_BY_ME
                                && (entry.standing() == Standing.VALID
                                    || entry.standing() == Standing.PENDING)))
        .toList();
  }
}

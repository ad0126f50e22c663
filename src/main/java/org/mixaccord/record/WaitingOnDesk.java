package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Role;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.Wishes;
import org.mixaccord.review.ApprovalBook;
import org.mixaccord.review.ApprovalDecision;
import org.mixaccord.review.WaitingOn;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.Song;

/** Says whom a song waits for, as far as the reader may know. */
@ApplicationScoped
public class WaitingOnDesk {
  /**
   * Whom a song waits for, in words.
   *
   * @param persons ids, the first the most likely
   * @param names the same people's names
   * @param code the reason's name, kebab case
   * @param reason the reason as a sentence
   * @param since when it arose
   */
  public record Waiting(
      List<String> persons, List<String> names, String code, String reason, Instant since) {
    /** Whether it is this person's turn. */
    public boolean on(String personId) {
      return persons.contains(personId);
    }
  }

  private final Places places;

  WaitingOnDesk(Places places) {
    this.places = places;
  }

  /** Whom the song waits for; empty when it is approved or nobody is there. */
  public Optional<Waiting> of(Song song, Access reader) {
    Optional<Bounce> newest = Bounce.newestSentMain(song);
    return WaitingOn.of(facts(song, newest, reader))
        .map(
            waiting ->
                new Waiting(
                    waiting.persons(),
                    waiting.persons().stream().map(id -> name(reader, id)).toList(),
                    waiting.reason().wire(),
                    words(waiting.reason(), newest, reader.project().artist()),
                    waiting.since()));
  }

  private WaitingOn.Facts facts(Song song, Optional<Bounce> newest, Access reader) {
    boolean engineer = reader.may(Act.WORK_LIST);
    ApprovalBook book = ApprovalBooks.of(song);
    List<Change> changes = Change.of(song);
    List<String> asked = newest.map(b -> approvers(reader, b)).orElse(List.of());
    boolean approved = ApprovalBooks.approvedBounce(song, book, reader.people()).isPresent();
    List<Change> work =
        changes.stream()
            .filter(c -> c.facts().shownTo(engineer) == ChangeState.ASKED)
            .filter(c -> !stillGathered(c.note(), reader))
            .toList();
    return new WaitingOn.Facts(
        song.createdAt(),
        withRole(reader, Role.ENGINEER),
        reader.people().lastWord().map(m -> m.person().id()),
        approved,
        book.stops().stream()
            .findFirst()
            .map(stop -> new WaitingOn.Since(stop.person(), stop.at())),
        newest.flatMap(Bounce::sentAt),
        engineer ? readyToSend(song, newest) : Optional.empty(),
        contradictedSince(changes),
        openQuestions(song, reader),
        reader.project().gatherNotes()
            ? Note.gathered(song).stream().map(Note::at).findFirst()
            : Optional.empty(),
        work.stream().map(Change::movedAt).min(Instant::compareTo),
        newest.isPresent() ? song.roundClosedAt() : Optional.empty(),
        newest.map(b -> book.undecided(b.id(), ApprovalBooks.hash(b), asked)).orElse(List.of()),
        unheard(changes, reader),
        newest.map(b -> notYet(book, b)).orElse(List.of()));
  }

  private static List<String> approvers(Access reader, Bounce bounce) {
    return reader.people().approversOf(bounce.uploader().id()).stream()
        .map(m -> m.person().id())
        .toList();
  }

  private static List<String> withRole(Access reader, Role role) {
    return reader.people().members().stream()
        .filter(m -> m.role() == role)
        .map(m -> m.person().id())
        .toList();
  }

  private static boolean stillGathered(Note note, Access reader) {
    return reader.project().gatherNotes() && !note.handedOver();
  }

  /** A private main newer than everything sent, measured and waiting to be sent. */
  private static Optional<Instant> readyToSend(Song song, Optional<Bounce> newest) {
    return Bounce.of(song).stream()
        .filter(b -> b.kind() == BounceKind.MAIN && b.ready() && !b.sent())
        .filter(b -> newest.map(n -> b.number() > n.number()).orElse(true))
        .map(Bounce::uploadedAt)
        .findFirst();
  }

  private Optional<Instant> contradictedSince(List<Change> changes) {
    List<Change> wanted = changes.stream().filter(c -> c.facts().stillWanted()).toList();
    Map<String, List<String>> found = Wishes.contradictions(places.wishes(wanted));
    return wanted.stream()
        .filter(c -> found.containsKey(c.id()))
        .map(Change::askedAt)
        .max(Instant::compareTo);
  }

  private static List<WaitingOn.Since> openQuestions(Song song, Access reader) {
    List<WaitingOn.Since> open = new ArrayList<>();
    for (Question question : Question.of(song)) {
      if (!question.answered()) {
        answerer(question.note(), reader)
            .ifPresent(id -> open.add(new WaitingOn.Since(id, question.askedAt())));
      }
    }
    return open;
  }

  /** A note's author; who left is stood in for by the last word. */
  static Optional<String> answerer(Note note, Access reader) {
    String author = note.author().id();
    return reader.people().ofPerson(author).isPresent()
        ? Optional.of(author)
        : reader.people().lastWord().map(m -> m.person().id());
  }

  private static List<WaitingOn.Since> unheard(Collection<Change> changes, Access reader) {
    return changes.stream()
        .filter(c -> c.facts().shownTo(false) == ChangeState.DONE)
        .filter(c -> reader.people().ofPerson(c.asker().id()).isPresent())
        .map(
            c ->
                new WaitingOn.Since(
                    c.asker().id(), c.doneIn().flatMap(Bounce::sentAt).orElse(c.movedAt())))
        .toList();
  }

  private static List<WaitingOn.Since> notYet(ApprovalBook book, Bounce bounce) {
    return book.valid(ApprovalDecision.NOT_YET, bounce.id(), ApprovalBooks.hash(bounce)).stream()
        .map(given -> new WaitingOn.Since(given.person(), given.at()))
        .toList();
  }

  private static String name(Access reader, String person) {
    return reader
        .people()
        .ofPerson(person)
        .map(Member::person)
        .or(() -> org.mixaccord.accounts.Person.findByIdOptional(person))
        .map(org.mixaccord.accounts.Person::name)
        .orElse("");
  }

  private static String words(WaitingOn.Reason reason, Optional<Bounce> newest, String artist) {
    String mix = newest.map(Bounce::title).orElse("the mix");
    return switch (reason) {
      case STOP -> "has said stop; nothing goes on until that is lifted";
      case FIRST_MIX -> "to send the first mix";
      case SETTLE -> "to settle wishes that contradict each other";
      case ANSWER -> "to answer a question about a note";
      case SEND_NOTES -> "to hand over the notes of " + artist;
      case SEND -> "to send the next mix";
      case WORK -> "to work on the list";
      case APPROVE -> "to decide on " + mix;
      case HEAR -> "to hear what was done in " + mix;
      case NOT_YET -> "to take up a “not yet” on " + mix;
      case FINISH -> "to say that it is finished";
    };
  }
}

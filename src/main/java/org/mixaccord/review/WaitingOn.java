package org.mixaccord.review;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Whom a song waits for: people, never a machine; one reason; since when.
 *
 * @param persons ids of the people, the first the most likely
 * @param reason why
 * @param since when the reason arose
 */
public record WaitingOn(List<String> persons, Reason reason, Instant since) {
  /** Why a song waits, in the order in which one reason goes before another. */
  public enum Reason {
    /** A stop has to be lifted. */
    STOP,
    /** Nothing has been sent. */
    FIRST_MIX,
    /** Wishes contradict each other. */
    SETTLE,
    /** A question is open. */
    ANSWER,
    /** The band's notes have not been handed over. */
    SEND_NOTES,
    /** Everything asked is done in a mix that has not been sent. */
    SEND,
    /** Something is still asked for. */
    WORK,
    /** Approval is asked for. */
    APPROVE,
    /** What was done has not been heard by those who asked for it. */
    HEAR,
    /** Somebody said “not yet” and nothing else is on the list. */
    NOT_YET,
    /** Nobody else is there: the engineer says when it is finished. */
    FINISH;

    /** Name on the wire. */
    public String wire() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** Copies the list in. */
  public WaitingOn {
    persons = List.copyOf(persons);
  }

  /** A person and since when something lies with them. */
  public record Since(String person, Instant at) {}

  /**
   * What has to be known of a song.
   *
   * @param createdAt when the song was made
   * @param engineers ids of the engineers, in the order they joined
   * @param lastWord who has the last word, if anybody
   * @param approved approved or finished: nothing is waited for
   * @param stop the oldest stop in force
   * @param sentAt when the newest main was sent; empty when none was
   * @param readyToSend since when a newer main lies ready and private, as far as the reader may
   *     know
   * @param contradictedSince since when wishes contradict each other
   * @param asked open questions, oldest first
   * @param gatheredSince since when notes wait to be handed over by the band
   * @param workSince since when something is asked for that is not done
   * @param workingSince since when the engineer is on the list of the newest mix sent
   * @param undecided approvers who have not decided on the newest mix sent, and the others asked
   * @param unheard who asked for something that was done and sent, and has not said how it is
   * @param notYet who said “not yet” to the newest mix sent
   */
  public record Facts(
      Instant createdAt,
      List<String> engineers,
      Optional<String> lastWord,
      boolean approved,
      Optional<Since> stop,
      Optional<Instant> sentAt,
      Optional<Instant> readyToSend,
      Optional<Instant> contradictedSince,
      List<Since> asked,
      Optional<Instant> gatheredSince,
      Optional<Instant> workSince,
      Optional<Instant> workingSince,
      List<String> undecided,
      List<Since> unheard,
      List<Since> notYet) {
    /** Copies the lists in. */
    public Facts {
      engineers = List.copyOf(engineers);
      asked = List.copyOf(asked);
      undecided = List.copyOf(undecided);
      unheard = List.copyOf(unheard);
      notYet = List.copyOf(notYet);
    }
  }

  /**
   * Decides whom a song waits for.
   *
   * @return empty when it is approved, or when nobody is there who could do what is due
   */
  public static Optional<WaitingOn> of(Facts facts) {
    if (facts.approved()) {
      return Optional.empty();
    }
    if (facts.stop().isPresent()) {
      return on(Reason.STOP, List.of(facts.stop().get()));
    }
    if (facts.sentAt().isEmpty()) {
      return facts.readyToSend().isPresent()
          ? on(Reason.SEND, facts.engineers(), facts.readyToSend().get())
          : on(Reason.FIRST_MIX, facts.engineers(), facts.createdAt());
    }
    List<String> lastWord = facts.lastWord().map(List::of).orElse(List.of());
    if (facts.contradictedSince().isPresent()) {
      return on(Reason.SETTLE, lastWord, facts.contradictedSince().get());
    }
    if (!facts.asked().isEmpty()) {
      return on(Reason.ANSWER, facts.asked());
    }
    if (facts.gatheredSince().isPresent()) {
      return on(Reason.SEND_NOTES, lastWord, facts.gatheredSince().get());
    }
    if (facts.workSince().isPresent()) {
      return on(
          Reason.WORK, facts.engineers(), facts.workingSince().orElse(facts.workSince().get()));
    }
    if (facts.readyToSend().isPresent()) {
      return on(Reason.SEND, facts.engineers(), facts.readyToSend().get());
    }
    if (facts.workingSince().isPresent()) {
      return on(Reason.WORK, facts.engineers(), facts.workingSince().get());
    }
    return afterTheList(facts);
  }

  private static Optional<WaitingOn> afterTheList(Facts facts) {
    if (!facts.undecided().isEmpty()) {
      return on(Reason.APPROVE, facts.undecided(), facts.sentAt().orElseThrow());
    }
    if (!facts.unheard().isEmpty()) {
      return on(Reason.HEAR, facts.unheard());
    }
    if (!facts.notYet().isEmpty()) {
      return on(Reason.NOT_YET, facts.engineers(), facts.notYet().get(0).at());
    }
    return on(Reason.FINISH, facts.engineers(), facts.sentAt().orElseThrow());
  }

  private static Optional<WaitingOn> on(Reason reason, List<Since> people) {
    return on(reason, people.stream().map(Since::person).distinct().toList(), people.get(0).at());
  }

  private static Optional<WaitingOn> on(Reason reason, List<String> persons, Instant since) {
    return persons.isEmpty()
        ? Optional.empty()
        : Optional.of(new WaitingOn(persons, reason, since));
  }
}

package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.time.Clock;
import java.time.Instant;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.changes.Actor;
import org.mixaccord.changes.Decision;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.SongDoor;

/**
 * Opens what is written about a song: one writer at a time, refusals as problems, rows of history.
 */
@ApplicationScoped
class Sheet {
  private static final int QUOTED_CHARS = 80;

  private final SongDoor door;
  private final EntityManager entities;
  private final History history;
  private final Clock clock;

  Sheet(SongDoor door, EntityManager entities, History history, Clock clock) {
    this.door = door;
    this.entities = entities;
    this.history = history;
    this.clock = clock;
  }

  /** A song to read about. */
  SongDoor.ToSong read(String songId) {
    return door.song(songId);
  }

  /** A song to write about; others who want to write wait until this transaction ends. */
  SongDoor.ToSong write(String songId) {
    SongDoor.ToSong in = door.song(songId);
    lock(in.song());
    return in;
  }

  void lock(Song song) {
    entities.refresh(song, LockModeType.PESSIMISTIC_WRITE);
  }

  /** A change whose note the caller may see, locked for writing. */
  ToChange change(String changeId) {
    Change change = Change.<Change>findByIdOptional(changeId).orElseThrow(Doorkeeper::notFound);
    SongDoor.ToSong in = door.song(change.song().id());
    in.access().require(Act.SEE_LIST);
    if (!change.note().maySee(in.access())) {
      throw Doorkeeper.notFound();
    }
    return new ToChange(in.access(), in.song(), change);
  }

  /** The same, and nobody else writes meanwhile. */
  ToChange changeToWrite(String changeId) {
    ToChange to = change(changeId);
    lock(to.song());
    entities.refresh(to.change());
    return to;
  }

  /** A change and the caller's access to its project. */
  record ToChange(Access access, Song song, Change change) {}

  /** What the caller is to a note and what was drawn from it. */
  static Actor actor(Access access, Note note, String owner) {
    boolean left = access.people().ofPerson(owner).isEmpty();
    boolean own = owner.equals(access.person().id()) || (left && access.hasLastWord());
    return new Actor(access.may(Act.WORK_LIST), own, access.hasLastWord());
  }

  static Actor actor(Access access, Change change) {
    return actor(access, change.note(), change.asker().id());
  }

  /** Ends the request unless it was allowed. */
  static void check(Decision decision) {
    Problem problem =
        switch (decision.outcome()) {
          case ALLOWED -> null;
          case NOT_YOURS -> Problem.NOT_ALLOWED;
          case WRONG_STATE -> Problem.WRONG_STATE;
          case REASON_NEEDED -> Problem.INVALID;
        };
    if (problem != null) {
      throw new ProblemException(problem, decision.reason());
    }
  }

  HistoryEntry tell(Access by, Song song, Happening happening) {
    return history.append(song, by.person(), happening);
  }

  /** A row about a change, for whoever may see its note. */
  static Happening about(Change change, String act, String detail) {
    return Happening.open("change", act, change.id(), detail)
        .onChange(change.id())
        .behindNote(change.note().id());
  }

  /** The words of a change, short enough for a line. */
  static String quote(String text) {
    String line = text.replaceAll("\\s+", " ").strip();
    if (line.length() > QUOTED_CHARS) {
      int cut = QUOTED_CHARS - 1;
      cut -= Character.isHighSurrogate(line.charAt(cut - 1)) ? 1 : 0;
      line = line.substring(0, cut) + "…";
    }
    return "“" + line + "”";
  }

  Instant now() {
    return clock.instant();
  }
}

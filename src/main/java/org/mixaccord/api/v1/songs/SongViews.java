package org.mixaccord.api.v1.songs;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.api.v1.board.BoardResource;
import org.mixaccord.api.v1.projects.You;
import org.mixaccord.record.Note;
import org.mixaccord.record.WaitingOnDesk;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.TempoMapRecord;
import org.mixaccord.songs.UnusableFiles;

/** Songs as one of their people sees them. */
@ApplicationScoped
public class SongViews {
  /** The newest main the caller may hear. */
  public record Newest(String bounce, String label, int number, boolean sent) {}

  /**
   * A song.
   *
   * @param unusable how many files of it could not be used and were not brought anew
   * @param writing how many people have notes that the band has not handed over yet
   */
  public record SongView(
      String id,
      String project,
      String projectTitle,
      String artist,
      String title,
      Double tempoBpm,
      Integer beatsPerBar,
      Double firstBarSeconds,
      boolean tempoMap,
      LocalDate due,
      Newest newest,
      int unusable,
      int round,
      String roundState,
      Integer includedRounds,
      BoardResource.WaitingView waitingOn,
      boolean gatherNotes,
      int writing,
      boolean metersOpen,
      You you,
      List<String> may) {}

  private final WaitingOnDesk waitingOn;

  SongViews(WaitingOnDesk waitingOn) {
    this.waitingOn = waitingOn;
  }

  /** A song with what its caller may know of it. */
  public SongView of(Access access, Song song) {
    Optional<Bounce> newest = Bounce.newestMain(song, access);
    return new SongView(
        song.id(),
        access.project().id(),
        access.project().title(),
        access.project().artist(),
        song.title(),
        song.tempoBpm().isPresent() ? song.tempoBpm().getAsDouble() : null,
        song.beatsPerBar().isPresent() ? song.beatsPerBar().getAsInt() : null,
        song.firstBarSeconds().isPresent() ? song.firstBarSeconds().getAsDouble() : null,
        TempoMapRecord.of(song).isPresent(),
        song.due().orElse(null),
        newest.map(b -> new Newest(b.id(), b.title(), b.number(), b.sent())).orElse(null),
        UnusableFiles.count(song, access),
        song.roundForNewNotes(),
        song.roundClosed() ? "closed" : "open",
        access.project().spec().includedRounds(),
        waitingOn.of(song, access).map(BoardResource.WaitingView::of).orElse(null),
        access.project().gatherNotes(),
        access.may(Act.SEE_LIST) ? Note.writing(song) : 0,
        access.project().metersOpen(),
        You.of(access),
        You.may(access));
  }
}

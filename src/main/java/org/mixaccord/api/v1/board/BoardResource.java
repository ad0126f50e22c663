package org.mixaccord.api.v1.board;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Person;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.record.ApprovalBooks;
import org.mixaccord.record.MovedSinceHeard;
import org.mixaccord.record.WaitingOnDesk;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Hearing;
import org.mixaccord.songs.Song;

/** One row a song, over all the caller's projects; what waits for them comes first. */
@Path("/api/v1/me/board")
public class BoardResource {
  /** The newest main the caller may hear. */
  public record Latest(String bounce, String label) {}

  /** Whom a song waits for. */
  public record WaitingView(
      String person,
      String name,
      List<String> persons,
      List<String> names,
      String code,
      String reason,
      Instant since) {
    /** As the song and the board show it. */
    public static WaitingView of(WaitingOnDesk.Waiting waiting) {
      return new WaitingView(
          waiting.persons().get(0),
          waiting.names().get(0),
          waiting.persons(),
          waiting.names(),
          waiting.code(),
          waiting.reason(),
          waiting.since());
    }
  }

  /** A song on the board. */
  public record Row(
      String project,
      String projectTitle,
      String artist,
      String song,
      String title,
      Latest latest,
      WaitingView waitingOn,
      boolean waitsForMe,
      boolean changedSinceHeard,
      List<MovedSinceHeard.Stretch> moved,
      boolean approved,
      boolean finished,
      List<String> approvedBy,
      int round,
      Integer includedRounds,
      LocalDate due) {}

  private final Caller caller;
  private final Doorkeeper doorkeeper;
  private final WaitingOnDesk waitingOn;
  private final MovedSinceHeard moved;

  BoardResource(
      Caller caller, Doorkeeper doorkeeper, WaitingOnDesk waitingOn, MovedSinceHeard moved) {
    this.caller = caller;
    this.doorkeeper = doorkeeper;
    this.waitingOn = waitingOn;
    this.moved = moved;
  }

  @GET
  @Transactional
  public Response board(@BeanParam Paging paging) {
    List<Row> rows = new ArrayList<>();
    for (Member member : Member.of(caller.required())) {
      Access access = doorkeeper.project(member.project().id());
      Song.of(access.project()).forEach(song -> rows.add(row(song, access)));
    }
    rows.sort(
        Comparator.comparing((Row row) -> !row.waitsForMe())
            .thenComparing(row -> row.waitingOn() == null)
            .thenComparing(row -> row.waitingOn() == null ? Instant.MAX : row.waitingOn().since()));
    return paging.page(rows);
  }

  private Row row(Song song, Access access) {
    String me = access.person().id();
    Optional<WaitingOnDesk.Waiting> waiting = waitingOn.of(song, access);
    Optional<ApprovalBooks.Approved> approved =
        ApprovalBooks.approvedBounce(song, ApprovalBooks.of(song), access.people());
    return new Row(
        access.project().id(),
        access.project().title(),
        access.project().artist(),
        song.id(),
        song.title(),
        Bounce.newestMain(song, access).map(b -> new Latest(b.id(), b.title())).orElse(null),
        waiting.map(WaitingView::of).orElse(null),
        waiting.filter(w -> w.on(me)).isPresent(),
        changedSinceHeard(song, me),
        moved.of(song, me).orElse(null),
        approved.filter(a -> !a.finishedOnly()).isPresent(),
        approved.filter(ApprovalBooks.Approved::finishedOnly).isPresent(),
        approved.map(a -> ApprovalBooks.approvers(song, a.bounce())).orElse(List.of()).stream()
            .map(Person::name)
            .toList(),
        song.roundForNewNotes(),
        access.project().spec().includedRounds(),
        song.due().orElse(null));
  }

  /** Whether the newest sent main sounds different from the last one this person heard. */
  private static boolean changedSinceHeard(Song song, String me) {
    Optional<Bounce> newest = Bounce.newestSentMain(song);
    if (newest.isEmpty() || newest.get().uploader().id().equals(me)) {
      return false;
    }
    Optional<Bounce> heard = Hearing.lastMainHeard(me, song);
    return heard
        .map(h -> !hash(h).equals(hash(newest.get())) && !h.id().equals(newest.get().id()))
        .orElse(true);
  }

  private static Optional<String> hash(Bounce bounce) {
    return bounce.facts().map(AudioFacts::pcmSha256);
  }
}

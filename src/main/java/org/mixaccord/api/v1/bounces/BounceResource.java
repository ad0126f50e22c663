package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.Nullable;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.InputStream;
import java.time.Instant;
import java.util.OptionalLong;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Texts;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.jobs.Uploading;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.ApprovalBooks;
import org.mixaccord.record.Sending;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.Hearing;
import org.mixaccord.songs.SongDoor;

/** Bounces: uploading, listing, sending. */
@Path("/api/v1")
public class BounceResource {
  /** A bounce just received. */
  public record Received(String id, int number, String state) {}

  /** How a bounce is sent. */
  public record SendingBody(String label, String message) {}

  /** A bounce just sent. */
  public record Sent(String label, int round, Instant at) {}

  /** Whether the caller has heard a bounce. */
  public record Heard(boolean heard, Instant at, String quality) {}

  private final SongDoor door;
  private final Uploading uploading;
  private final Sending sending;
  private final Comparing comparing;

  BounceResource(SongDoor door, Uploading uploading, Sending sending, Comparing comparing) {
    this.door = door;
    this.uploading = uploading;
    this.sending = sending;
    this.comparing = comparing;
  }

  @POST
  @Path("/songs/{s}/bounces")
  @Consumes(MediaType.WILDCARD)
  @Blocking
  public Response upload(
      @PathParam("s") String song,
      @QueryParam("filename") String fileName,
      @QueryParam("kind") @DefaultValue("main") String kindName,
      @QueryParam("of") String of,
      @QueryParam("label") String label,
      @HeaderParam("Content-Length") Long length,
      InputStream body) {
    BounceKind kind = BounceKind.of(kindName);
    Uploading.Wanted wanted =
        new Uploading.Wanted(song, kind, of, Texts.lineOrNull("label", label, Bounce.MOST_LABEL));
    Uploading.Sender sender =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  Access access = door.song(song).access();
                  access.require(kind.fromAnyone() ? Act.UPLOAD_ROUGH : Act.UPLOAD_MAIN);
                  if (of != null) {
                    checkMain(door, song, of);
                  }
                  return sender(access, fileName, length);
                });
    Bounce bounce = uploading.bounce(body, sender, wanted);
    return Response.status(201)
        .entity(new Received(bounce.id(), bounce.number(), bounce.state().wire()))
        .build();
  }

  static Uploading.Sender sender(Access access, String fileName, Long length) {
    String name = fileName == null || fileName.isBlank() ? "unnamed" : fileName;
    return new Uploading.Sender(
        access.person(),
        access.member().role(),
        Texts.line("filename", name, 255),
        length == null ? OptionalLong.empty() : OptionalLong.of(length));
  }

  static void checkMain(SongDoor door, String song, String of) {
    Bounce main = door.bounce(of).bounce();
    if (!main.song().id().equals(song) || main.kind() != BounceKind.MAIN) {
      throw new ProblemException(Problem.INVALID, "“of” has to name a main mix of the same song.");
    }
  }

  @GET
  @Path("/songs/{s}/bounces")
  @Transactional
  public Response list(
      @PathParam("s") String song, @QueryParam("kind") String kind, @BeanParam Paging paging) {
    SongDoor.ToSong to = door.song(song);
    BounceKind only = kind == null ? null : BounceKind.of(kind);
    return paging.page(
        Bounce.of(to.song()).stream()
            .filter(b -> only == null || b.kind() == only)
            .filter(b -> b.mayBeHeardBy(to.access()))
            .map(b -> BounceView.of(b, to.access()))
            .toList());
  }

  @GET
  @Path("/bounces/{b}")
  @Transactional
  public BounceView get(@PathParam("b") String id) {
    SongDoor.ToBounce to = door.bounce(id);
    return BounceView.alone(to.bounce(), to.access());
  }

  @POST
  @Path("/bounces/{b}/sending")
  @Transactional
  public Sent send(@PathParam("b") String id, @Nullable SendingBody body) {
    SongDoor.ToBounce to = door.bounce(id);
    to.access().require(Act.SEND);
    Bounce bounce = to.bounce();
    // What was heard and approved before is compared first, so that approvals can be looked at.
    Bounce.newestSentMain(bounce.song()).ifPresent(before -> askIfComparable(bounce, before));
    ApprovalBooks.heardAndApproved(bounce.song()).forEach(b -> askIfComparable(bounce, b));
    sending.send(
        bounce,
        to.access().person(),
        body == null ? null : body.label(),
        body == null ? null : body.message());
    return new Sent(
        bounce.label().orElseThrow(), bounce.round().orElseThrow(), bounce.sentAt().orElseThrow());
  }

  private void askIfComparable(Bounce bounce, Bounce other) {
    if (bounce.ready()
        && other.ready()
        && !other.id().equals(bounce.id())
        && Comparing.comparable(bounce, other)) {
      comparing.ask(bounce, other);
    }
  }

  @GET
  @Path("/bounces/{b}/hearing")
  @Transactional
  public Heard hearing(@PathParam("b") String id) {
    SongDoor.ToBounce to = door.bounce(id);
    return Hearing.of(to.access().person().id(), to.bounce().id())
        .map(h -> new Heard(true, h.lastAt(), h.quality()))
        .orElse(new Heard(false, null, null));
  }
}

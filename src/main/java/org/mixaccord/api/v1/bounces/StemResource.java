package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.InputStream;
import java.time.Clock;
import java.util.List;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.jobs.Uploading;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.SongDoor;
import org.mixaccord.songs.Stem;

/** Part files of a bounce. */
@Path("/api/v1")
public class StemResource {
  /** A part just received. */
  public record Received(String id, String element, String bounce, String state) {}

  private record Target(Uploading.Sender sender, String bounce) {}

  private final SongDoor door;
  private final Uploading uploading;
  private final Comparing comparing;
  private final Clock clock;

  StemResource(SongDoor door, Uploading uploading, Comparing comparing, Clock clock) {
    this.door = door;
    this.uploading = uploading;
    this.comparing = comparing;
    this.clock = clock;
  }

  @POST
  @Path("/songs/{s}/stems")
  @Consumes(MediaType.WILDCARD)
  @Blocking
  public Response upload(
      @PathParam("s") String song,
      @QueryParam("bounce") String bounceId,
      @QueryParam("element") String element,
      @QueryParam("filename") String fileName,
      @HeaderParam("Content-Length") Long length,
      InputStream body) {
    Target target =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  SongDoor.ToSong to = door.song(song);
                  to.access().require(Act.UPLOAD_STEMS);
                  Stem.element(element);
                  return new Target(
                      BounceResource.sender(to.access(), fileName, length),
                      bounce(to, bounceId).id());
                });
    Stem stem = uploading.stem(body, target.sender(), target.bounce(), element);
    return Response.status(201)
        .entity(new Received(stem.id(), stem.element(), target.bounce(), stem.state().wire()))
        .build();
  }

  @GET
  @Path("/songs/{s}/stems")
  @Transactional
  public Response list(
      @PathParam("s") String song,
      @QueryParam("bounce") String bounceId,
      @BeanParam Paging paging) {
    SongDoor.ToSong to = door.song(song);
    to.access().require(Act.UPLOAD_STEMS);
    List<Bounce> mixes =
        Bounce.of(to.song()).stream()
            .filter(b -> b.kind() == BounceKind.MAIN && b.mayBeHeardBy(to.access()))
            .toList();
    List<Stem> stems = Stem.of(bounce(to, bounceId));
    return paging.page(stems.stream().map(s -> StemView.of(s, stems, mixes)).toList());
  }

  private Bounce bounce(SongDoor.ToSong to, String bounceId) {
    if (bounceId == null) {
      return Bounce.newestMain(to.song(), to.access())
          .orElseThrow(
              () ->
                  new ProblemException(
                      Problem.NO_BOUNCE, "Upload a mix first; a part belongs to a mix."));
    }
    Bounce bounce = door.bounce(bounceId).bounce();
    if (!bounce.song().id().equals(to.song().id())) {
      throw Doorkeeper.notFound();
    }
    return bounce;
  }

  @DELETE
  @Path("/stems/{id}")
  @Transactional
  public void drop(@PathParam("id") String id) {
    SongDoor.ToStem to = door.stem(id);
    to.access().require(Act.UPLOAD_STEMS);
    if (!to.access().may(Act.HEAR_PRIVATE)
        && !to.stem().uploader().id().equals(to.access().person().id())) {
      throw new ProblemException(
          Problem.NOT_ALLOWED, "Only an engineer takes away a part that somebody else uploaded.");
    }
    to.stem().replace(clock.instant());
    comparing.askAgain(to.stem().bounce());
  }
}

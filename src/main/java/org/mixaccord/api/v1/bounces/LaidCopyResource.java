package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.util.List;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.align.TimeMap;
import org.mixaccord.api.v1.FilesOut;
import org.mixaccord.intake.ListeningManifest;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.jobs.LaidCopies;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.SongDoor;

/** A bounce on another one's time line, where the two differ in rate or drift. */
@Path("/api/v1")
public class LaidCopyResource {
  /** How the copy is cut; the fields mean what they mean for a listening copy. */
  public record LaidCopy(
      String state,
      int sampleRate,
      int channels,
      long frames,
      boolean exact,
      int segmentsReady,
      List<AudioResource.SegmentView> segments) {}

  private record Pair(Bounce moved, Bounce onto, TimeMap map) {}

  private final SongDoor door;
  private final Comparing comparing;
  private final LaidCopies copies;

  LaidCopyResource(SongDoor door, Comparing comparing, LaidCopies copies) {
    this.door = door;
    this.comparing = comparing;
    this.copies = copies;
  }

  @GET
  @Path("/bounces/{b}/laid-copy")
  @Blocking
  public LaidCopy copy(@PathParam("b") String id, @QueryParam("onto") String onto) {
    Pair pair = pair(id, onto);
    ListeningManifest manifest = LaidCopies.manifest(pair.moved(), pair.onto());
    return new LaidCopy(
        "ready",
        manifest.sampleRate(),
        manifest.channels(),
        manifest.frames(),
        manifest.isExact(),
        manifest.segments(),
        AudioResource.SegmentView.of(manifest));
  }

  /** Not counted as heard: what is approved is the mix itself, not a copy on another clock. */
  @GET
  @Path("/bounces/{b}/laid-copy/segments/{index}")
  @Blocking
  public Response segment(
      @PathParam("b") String id,
      @PathParam("index") int index,
      @QueryParam("onto") String onto,
      @Context HttpHeaders headers)
      throws IOException {
    Pair pair = pair(id, onto);
    ListeningManifest manifest = LaidCopies.manifest(pair.moved(), pair.onto());
    if (index < 0 || index >= manifest.segments()) {
      throw new ProblemException(Problem.NOT_FOUND, "The mix has no such piece.");
    }
    java.nio.file.Path file = copies.segment(pair.moved(), pair.onto(), pair.map(), index);
    String etag =
        pair.moved().facts().orElseThrow().pcmSha256()
            + "-on-"
            + file.getParent().getFileName()
            + "-"
            + index;
    return FilesOut.file(file, etag, FilesOut.Asked.by(headers), FilesOut.Served.UNCOUNTED)
        .type(manifest.mediaType())
        .header(HttpHeaders.CACHE_CONTROL, "private, no-cache")
        .build();
  }

  private Pair pair(String id, String ontoId) {
    Pair pair =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  Bounce moved = door.bounce(id).bounce();
                  if (ontoId == null) {
                    throw new ProblemException(
                        Problem.INVALID, "“onto” names the mix whose time line it is.");
                  }
                  Bounce onto = door.bounce(ontoId).bounce();
                  if (!moved.song().id().equals(onto.song().id())) {
                    throw Doorkeeper.notFound();
                  }
                  Comparing.requireComparable(onto, moved);
                  return new Pair(moved, onto, comparing.timeMap(onto, moved).orElse(null));
                });
    if (pair.map() == null) {
      QuarkusTransaction.requiringNew()
          .run(
              () ->
                  comparing.ask(
                      Bounce.findById(pair.onto().id()), Bounce.findById(pair.moved().id())));
      throw new ProblemException(
              Problem.BUSY, "The two are still being laid against each other. Try again shortly.")
          .with("retryAfterSeconds", 1);
    }
    return pair;
  }
}

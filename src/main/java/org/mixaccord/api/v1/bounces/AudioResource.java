package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.mixaccord.accounts.Act;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.intake.ListeningManifest;
import org.mixaccord.jobs.MakeListeningCopy;
import org.mixaccord.jobs.Samples;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Hearing;
import org.mixaccord.songs.SongDoor;

/** The sound itself: the file as uploaded, and the copy to listen to. */
@Path("/api/v1")
public class AudioResource {
  private static final int RETRY_SECONDS = 1;

  /** How the listening copy is cut. */
  public record Listening(
      String state,
      double progress,
      int sampleRate,
      int channels,
      long frames,
      String quality,
      boolean exact,
      List<SegmentView> segments) {}

  /** One segment. */
  public record SegmentView(int index, long fromFrame, long frames) {}

  private final SongDoor door;
  private final Samples samples;
  private final MakeListeningCopy copies;
  private final Clock clock;

  AudioResource(SongDoor door, Samples samples, MakeListeningCopy copies, Clock clock) {
    this.door = door;
    this.samples = samples;
    this.copies = copies;
    this.clock = clock;
  }

  @GET
  @Path("/bounces/{b}/audio")
  @Blocking
  public Response audio(
      @PathParam("b") String id,
      @HeaderParam("Range") String range,
      @HeaderParam("If-Range") String ifRange)
      throws IOException {
    Bounce bounce =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  SongDoor.ToBounce to = door.bounce(id);
                  boolean own = to.bounce().uploader().id().equals(to.access().person().id());
                  if (!own) {
                    to.access().require(Act.DOWNLOAD);
                  }
                  return to.bounce();
                });
    return FilesOut.file(samples.bytes(bounce.sha256()), bounce.sha256(), range, ifRange)
        .type(MediaType.APPLICATION_OCTET_STREAM)
        .header(HttpHeaders.CONTENT_DISPOSITION, Attachment.named(bounce.fileName()))
        .header("Content-Security-Policy", "sandbox; default-src 'none'")
        .header(HttpHeaders.CACHE_CONTROL, "private, no-cache")
        .build();
  }

  @GET
  @Path("/bounces/{b}/listening")
  @Blocking
  public Listening listening(@PathParam("b") String id) {
    Bounce bounce = QuarkusTransaction.requiringNew().call(() -> audible(id));
    AudioFacts facts = bounce.facts().orElseThrow();
    ListeningManifest manifest = copies.manifest(facts);
    double progress = copies.progress(bounce);
    return new Listening(
        copies.whole(bounce).isPresent() ? "ready" : "preparing",
        progress,
        manifest.sampleRate(),
        manifest.channels(),
        manifest.frames(),
        "full",
        manifest.isExact(),
        IntStream.range(0, manifest.segments())
            .mapToObj(
                i -> {
                  FrameRange frames = manifest.segment(i);
                  return new SegmentView(i, frames.from(), frames.frames());
                })
            .toList());
  }

  @GET
  @Path("/bounces/{b}/listening/segments/{index}")
  @Blocking
  public Response segment(
      @PathParam("b") String id,
      @PathParam("index") int index,
      @HeaderParam("Range") String range,
      @HeaderParam("If-Range") String ifRange)
      throws IOException {
    Bounce bounce = heard(id);
    ListeningManifest manifest = copies.manifest(bounce.facts().orElseThrow());
    if (index < 0 || index >= manifest.segments()) {
      throw new ProblemException(Problem.NOT_FOUND, "The mix has no such piece.");
    }
    String etag = bounce.facts().orElseThrow().pcmSha256() + "-" + index;
    return served(copies.segment(bounce, index), manifest, etag, range, ifRange);
  }

  @GET
  @Path("/bounces/{b}/listening/whole")
  @Blocking
  public Response whole(
      @PathParam("b") String id,
      @HeaderParam("Range") String range,
      @HeaderParam("If-Range") String ifRange)
      throws IOException {
    Bounce bounce = heard(id);
    AudioFacts facts = bounce.facts().orElseThrow();
    return served(copies.whole(bounce), copies.manifest(facts), facts.pcmSha256(), range, ifRange);
  }

  private static Response served(
      Optional<java.nio.file.Path> file,
      ListeningManifest manifest,
      String etag,
      String range,
      String ifRange)
      throws IOException {
    if (file.isEmpty()) {
      throw new ProblemException(
              Problem.BUSY, "The copy for listening is being made. It plays in a moment.")
          .with("retryAfterSeconds", RETRY_SECONDS);
    }
    return FilesOut.file(file.get(), etag, range, ifRange)
        .type(manifest.mediaType())
        .header(HttpHeaders.CACHE_CONTROL, "private, max-age=3600")
        .build();
  }

  private Bounce heard(String id) {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              Bounce bounce = audible(id);
              Hearing.heard(
                  door.bounce(id).access().person(), bounce, Hearing.LOSSLESS, clock.instant());
              return bounce;
            });
  }

  private Bounce audible(String id) {
    Bounce bounce = door.bounce(id).bounce();
    if (bounce.facts().isEmpty() || !bounce.ready()) {
      throw new ProblemException(
          Problem.NOT_MEASURED, "This mix is still being measured, or could not be read.");
    }
    return bounce;
  }
}

package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.nio.file.Files;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Person;
import org.mixaccord.api.v1.Attachment;
import org.mixaccord.api.v1.FilesOut;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.intake.LightCopy;
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

  /** Sound that has to be on its way before a mix counts as heard: beginning is not hearing. */
  private static final double HEARD_SECONDS = 5;

  /** What one answer has to hold of it, so that looking at a file's end does not count. */
  private static final double ANSWER_SECONDS = 1;

  /**
   * How the listening copy is cut and how much of it is there.
   *
   * @param state {@code ready} once the whole copy is there
   * @param segmentsReady how many segments are there, counted from the first without a gap
   * @param wholeBytes length of the whole copy, null until it is there
   * @param light the small lossy copy; null where there is none of such audio
   * @param problem why the copy could not be made when it was tried last, or null
   */
  public record Listening(
      String state,
      double progress,
      int sampleRate,
      int channels,
      long frames,
      String quality,
      boolean exact,
      int segmentsReady,
      Long wholeBytes,
      LightView light,
      String problem,
      List<SegmentView> segments) {}

  /** One segment. */
  public record SegmentView(int index, long fromFrame, long frames) {
    static List<SegmentView> of(ListeningManifest manifest) {
      return IntStream.range(0, manifest.segments())
          .mapToObj(
              i -> {
                FrameRange frames = manifest.segment(i);
                return new SegmentView(i, frames.from(), frames.frames());
              })
          .toList();
    }
  }

  /**
   * The small lossy copy.
   *
   * @param type media type with the coding
   * @param bytes length, null until it is there
   * @param indexBytes length of what stands in front of the sound, null until it is there
   * @param gainDb by how much all of it was changed, 0 or less, null until it is there
   */
  public record LightView(boolean ready, String type, Long bytes, Long indexBytes, Double gainDb) {
    static LightView of(Optional<LightCopy> copy) throws IOException {
      String type = LightCopy.MEDIA_TYPE + "; codecs=\"mp4a.40.2\"";
      if (copy.isEmpty()) {
        return new LightView(false, type, null, null, null);
      }
      LightCopy there = copy.get();
      return new LightView(
          true, type, Files.size(there.file()), there.indexBytes(), there.gainDb());
    }
  }

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
  public Response audio(@PathParam("b") String id, @Context HttpHeaders headers)
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
    return FilesOut.file(
            samples.bytes(bounce.sha256()),
            bounce.sha256(),
            FilesOut.Asked.by(headers),
            FilesOut.Served.UNCOUNTED)
        .type(MediaType.APPLICATION_OCTET_STREAM)
        .header(HttpHeaders.CONTENT_DISPOSITION, Attachment.named(bounce.fileName()))
        .header("Content-Security-Policy", "sandbox; default-src 'none'")
        .header(HttpHeaders.CACHE_CONTROL, "private, no-cache")
        .build();
  }

  @GET
  @Path("/bounces/{b}/listening")
  @Blocking
  public Listening listening(@PathParam("b") String id) throws IOException {
    Bounce bounce = audible(id).bounce();
    ListeningManifest manifest = copies.manifest(bounce.facts().orElseThrow());
    MakeListeningCopy.State there = copies.state(bounce);
    return new Listening(
        there.whole().isPresent() ? "ready" : "preparing",
        there.progress(),
        manifest.sampleRate(),
        manifest.channels(),
        manifest.frames(),
        "full",
        manifest.isExact(),
        there.segments(),
        there.whole().isPresent() ? Files.size(there.whole().get()) : null,
        there.hasLight() ? LightView.of(there.light()) : null,
        there
            .problem()
            .map(why -> "The copy for listening could not be made yet. It is tried again.")
            .orElse(null),
        SegmentView.of(manifest));
  }

  @GET
  @Path("/bounces/{b}/listening/segments/{index}")
  @Blocking
  public Response segment(
      @PathParam("b") String id, @PathParam("index") int index, @Context HttpHeaders headers)
      throws IOException {
    Audible audible = audible(id);
    AudioFacts facts = audible.bounce().facts().orElseThrow();
    ListeningManifest manifest = copies.manifest(facts);
    if (index < 0 || index >= manifest.segments()) {
      throw new ProblemException(Problem.NOT_FOUND, "The mix has no such piece.");
    }
    double seconds = manifest.segment(index).frames() / (double) manifest.sampleRate();
    java.nio.file.Path file = orBusy(copies.segment(audible.bounce(), index));
    FilesOut.Served served = counted(audible, Hearing.LOSSLESS, Files.size(file), 0, seconds);
    return sound(file, manifest.mediaType(), facts.pcmSha256() + "-" + index, headers, served);
  }

  @GET
  @Path("/bounces/{b}/listening/whole")
  @Blocking
  public Response whole(@PathParam("b") String id, @Context HttpHeaders headers)
      throws IOException {
    Audible audible = audible(id);
    AudioFacts facts = audible.bounce().facts().orElseThrow();
    java.nio.file.Path file = orBusy(copies.whole(audible.bounce()));
    FilesOut.Served served =
        counted(audible, Hearing.LOSSLESS, Files.size(file), 0, facts.seconds());
    String type = copies.manifest(facts).mediaType();
    return sound(file, type, facts.pcmSha256(), headers, served);
  }

  @GET
  @Path("/bounces/{b}/listening/light")
  @Blocking
  public Response light(@PathParam("b") String id, @Context HttpHeaders headers)
      throws IOException {
    Audible audible = audible(id);
    AudioFacts facts = audible.bounce().facts().orElseThrow();
    if (!copies.state(audible.bounce()).hasLight()) {
      throw new ProblemException(Problem.NOT_FOUND, "There is no light copy of this mix.");
    }
    LightCopy light = orBusy(copies.light(audible.bounce()));
    FilesOut.Served served =
        counted(
            audible, Hearing.LIGHT, Files.size(light.file()), light.indexBytes(), facts.seconds());
    String etag = facts.pcmSha256() + "-" + light.file().getFileName();
    return sound(light.file(), LightCopy.MEDIA_TYPE, etag, headers, served);
  }

  /** A listener and what they may hear. */
  private record Audible(Bounce bounce, Person person) {}

  private Audible audible(String id) {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              SongDoor.ToBounce to = door.bounce(id);
              Bounce bounce = to.bounce();
              if (bounce.facts().isEmpty() || !bounce.ready()) {
                throw new ProblemException(
                    Problem.NOT_MEASURED,
                    "This mix is still being measured, or could not be read.");
              }
              return new Audible(bounce, to.access().person());
            });
  }

  private static <T> T orBusy(Optional<T> made) {
    return made.orElseThrow(
        () ->
            new ProblemException(
                    Problem.BUSY, "The copy for listening is being made. It plays in a moment.")
                .with("retryAfterSeconds", RETRY_SECONDS));
  }

  /** Asked anew each time, since the right to hear may have ended; sent anew only if it differs. */
  private static Response sound(
      java.nio.file.Path file,
      String type,
      String etag,
      HttpHeaders headers,
      FilesOut.Served served)
      throws IOException {
    return FilesOut.file(file, etag, FilesOut.Asked.by(headers), served)
        .type(type)
        .header(HttpHeaders.CACHE_CONTROL, "private, no-cache")
        .build();
  }

  /**
   * Notes that somebody heard the mix, once enough of it is on its way.
   *
   * @param soundAt first byte of the file that is sound
   * @param seconds length of the sound in the file
   */
  private FilesOut.Served counted(
      Audible audible, String quality, long bytes, long soundAt, double seconds) {
    double perSecond = (bytes - soundAt) / seconds;
    return new FilesOut.Served(
        Math.round(ANSWER_SECONDS * perSecond),
        soundAt + Math.round(HEARD_SECONDS * perSecond),
        () ->
            QuarkusTransaction.requiringNew()
                .run(
                    () ->
                        Hearing.heard(
                            audible.person(), audible.bounce(), quality, clock.instant())));
  }
}

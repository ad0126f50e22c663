package org.mixaccord.jobs;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.List;
import java.util.OptionalLong;
import org.mixaccord.audio.container.FileMarker;
import org.mixaccord.intake.Decoder;
import org.mixaccord.songs.Bounce;

/**
 * The places marked inside a bounce's file. They are read when it is decoded and kept with it; for
 * a bounce from before markers were read, when they are first asked for.
 */
@ApplicationScoped
public class BounceMarkers {
  private final Samples samples;
  private final ObjectMapper json;

  BounceMarkers(Samples samples, ObjectMapper json) {
    this.samples = samples;
    this.json = json;
  }

  /** A marker as it is kept. */
  private record Kept(long frame, Long end, String label) {}

  /** The markers of a decoded bounce that lie inside its sound, in order of time. */
  public List<FileMarker> of(Bounce bounce) throws IOException {
    String kept = bounce.markers().orElse(null);
    if (kept == null) {
      kept = read(bounce.sha256());
      String found = kept;
      QuarkusTransaction.requiringNew().run(() -> Bounce.markedLater(bounce.id(), found));
    }
    long frames = bounce.facts().orElseThrow().frames();
    return json.readValue(kept, new TypeReference<List<Kept>>() {}).stream()
        .filter(m -> m.frame < frames)
        .map(m -> new FileMarker(m.frame, end(m, frames), m.label))
        .toList();
  }

  private static OptionalLong end(Kept marker, long frames) {
    return marker.end == null
        ? OptionalLong.empty()
        : OptionalLong.of(Math.min(frames, marker.end));
  }

  /** What is marked inside an uploaded file, in the form it is kept in. */
  String read(String sha256) throws IOException {
    List<Kept> found =
        Decoder.markers(samples.bytes(sha256)).stream()
            .map(
                m ->
                    new Kept(
                        m.frame(),
                        m.endFrame().isPresent() ? m.endFrame().getAsLong() : null,
                        m.label()))
            .toList();
    try {
      return json.writeValueAsString(found);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("markers cannot be written", e);
    }
  }
}

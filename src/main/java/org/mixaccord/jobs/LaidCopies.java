package org.mixaccord.jobs;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.mixaccord.align.Retimed;
import org.mixaccord.align.TimeMap;
import org.mixaccord.audio.Stretch;
import org.mixaccord.intake.FloatWav;
import org.mixaccord.intake.ListeningManifest;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/**
 * A bounce laid onto another one's time line, at that one's rate and length, for listening to two
 * that differ in rate or whose clocks drift. Rendered piece by piece when first asked for, kept
 * under the hashes of both, and rendered again when missing.
 */
@ApplicationScoped
public class LaidCopies {
  private static final int SEGMENT_FRAMES = 1 << 18;

  /** Changes whenever the same two bounces would come out otherwise. */
  private static final int METHOD = 1;

  private final Samples samples;
  private final DerivedFiles derived;

  LaidCopies(Samples samples, DerivedFiles derived) {
    this.samples = samples;
    this.derived = derived;
  }

  /** How the copy of one bounce on another's time line is cut. */
  public static ListeningManifest manifest(Bounce moved, Bounce onto) {
    AudioFacts line = onto.facts().orElseThrow();
    int channels = moved.facts().orElseThrow().channels();
    return new ListeningManifest(
        line.sampleRate(), channels, line.frames(), SEGMENT_FRAMES, false, false);
  }

  /**
   * One piece, rendered now if it is not there; outside a transaction.
   *
   * @param map from {@code onto} to {@code moved}
   */
  public Path segment(Bounce moved, Bounce onto, TimeMap map, int index) throws IOException {
    Path wanted = folder(moved, onto).resolve(index + ".wav");
    if (Files.exists(wanted)) {
      return wanted;
    }
    ListeningManifest manifest = manifest(moved, onto);
    try (PcmFile pcm = samples.open(moved)) {
      Retimed laid = new Retimed(pcm, map, manifest.sampleRate(), manifest.frames());
      FloatWav.make("laid", new Stretch(laid, manifest.segment(index)), derived, wanted);
    }
    return wanted;
  }

  private Path folder(Bounce moved, Bounce onto) {
    String method = Comparing.METHOD + "." + METHOD;
    return derived.laid(pcm(moved)).resolve(pcm(onto).hex() + "-" + method);
  }

  private static Sha256 pcm(Bounce bounce) {
    return new Sha256(bounce.facts().orElseThrow().pcmSha256());
  }
}

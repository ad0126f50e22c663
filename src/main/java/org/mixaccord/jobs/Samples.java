package org.mixaccord.jobs;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.DoubleConsumer;
import org.mixaccord.intake.DecodeResult;
import org.mixaccord.intake.DecodedFile;
import org.mixaccord.intake.Decoder;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.intake.SampleFormat;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Stem;
import org.mixaccord.storage.AudioStore;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/**
 * Opens what has been made from uploaded files: decoded samples and measure tracks. Both may be
 * removed at any time and are made again from the bytes when they are missing.
 */
@ApplicationScoped
public class Samples {
  private final AudioStore store;
  private final DerivedFiles derived;
  private final Decoder decoder;
  private final RecentTracks recent = new RecentTracks();

  Samples(AudioStore store, DerivedFiles derived, Decoder decoder) {
    this.store = store;
    this.derived = derived;
    this.decoder = decoder;
  }

  /** Decodes an uploaded file and keeps its samples. */
  public DecodeResult decode(String sha256, String fileName) throws IOException {
    return decoder.decode(bytes(sha256), fileName);
  }

  /** Decodes a file that is not in the store, and may never be. */
  DecodeResult decode(Path file, String fileName) throws IOException {
    return decoder.decode(file, fileName);
  }

  /** The bytes as they were uploaded. */
  public Path bytes(String sha256) throws IOException {
    return store
        .find(new Sha256(sha256))
        .orElseThrow(() -> new IOException("the bytes of " + sha256 + " are not in the store"));
  }

  /** The decoded samples of a bounce; to be closed. */
  public PcmFile open(Bounce bounce) throws IOException {
    AudioFacts facts = bounce.facts().orElseThrow();
    return open(
        new Wanted(
            bounce.sha256(),
            bounce.fileName(),
            facts.pcmSha256(),
            facts.sampleFormat(),
            facts.sampleRate(),
            facts.channels()));
  }

  /** The decoded samples of a part; to be closed. */
  public PcmFile open(Stem stem) throws IOException {
    return open(
        new Wanted(
            stem.sha256(),
            stem.fileName(),
            stem.pcmSha256(),
            stem.sampleFormat(),
            stem.sampleRate(),
            stem.channels()));
  }

  private record Wanted(
      String sha256, String fileName, String pcmSha256, String format, int rate, int channels) {}

  private PcmFile open(Wanted wanted) throws IOException {
    Path pcm = derived.pcm(new Sha256(wanted.pcmSha256()), wanted.format());
    if (!Files.exists(pcm)) {
      decode(wanted.sha256(), wanted.fileName());
    }
    if (!Files.exists(pcm)) {
      throw new IOException("decoding again gave other samples than " + wanted.pcmSha256());
    }
    SampleFormat format = SampleFormat.valueOf(wanted.format().toUpperCase(Locale.ROOT));
    return PcmFile.open(pcm, format, wanted.rate(), wanted.channels());
  }

  /** The measure track of a bounce, measured now when there is none of the present version. */
  public MeasureTrack track(Bounce bounce) throws IOException {
    return track(bounce, share -> {});
  }

  /** Whether a bounce was measured, but not by the present version of the measuring. */
  boolean hasOnlyOlderTrack(Bounce bounce) throws IOException {
    Sha256 pcm = pcmSha256(bounce);
    return !Files.exists(derived.track(pcm, MeasureTrack.VERSION))
        && derived.hasTrackBut(pcm, MeasureTrack.VERSION);
  }

  /** Removes what earlier versions of the measuring wrote of a bounce. */
  void dropOlderTracks(Bounce bounce) throws IOException {
    derived.removeTracksBut(pcmSha256(bounce), MeasureTrack.VERSION);
  }

  private static Sha256 pcmSha256(Bounce bounce) {
    return new Sha256(bounce.facts().orElseThrow().pcmSha256());
  }

  MeasureTrack track(Bounce bounce, DoubleConsumer progress) throws IOException {
    Path kept = derived.track(pcmSha256(bounce), MeasureTrack.VERSION);
    if (Files.exists(kept)) {
      Optional<MeasureTrack> known = recent.find(kept);
      if (known.isPresent()) {
        return known.get();
      }
      try (InputStream in = new BufferedInputStream(Files.newInputStream(kept))) {
        MeasureTrack read = MeasureTrack.read(in);
        recent.keep(kept, read);
        return read;
      }
    }
    MeasureTrack track;
    try (PcmFile pcm = open(bounce)) {
      track = MeasureTrack.measure(pcm.asStored(), progress);
    }
    derived.make(
        "track",
        bytes(track),
        kept,
        unfinished -> {
          try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(unfinished))) {
            track.write(out);
          }
        });
    return track;
  }

  /** Written twice, the first time only to be counted: a few milliseconds for a song. */
  private static long bytes(MeasureTrack track) throws IOException {
    long[] count = new long[1];
    OutputStream counting =
        new OutputStream() {
          @Override
          public void write(int value) {
            count[0]++;
          }

          @Override
          public void write(byte[] values, int from, int length) {
            count[0] += length;
          }
        };
    try (OutputStream out = new BufferedOutputStream(counting)) {
      track.write(out);
    }
    return count[0];
  }

  /** The facts of a bounce in the form listening copies are made from. */
  static DecodedFile decodedFile(AudioFacts facts) {
    return new DecodedFile(
        facts.container(),
        facts.codec(),
        facts.sampleRate(),
        optional(facts.bitDepth()),
        optional(facts.significantBits()),
        facts.channels(),
        facts.frames(),
        facts.lossy(),
        new Sha256(facts.pcmSha256()),
        SampleFormat.valueOf(facts.sampleFormat().toUpperCase(Locale.ROOT)),
        "",
        List.of());
  }

  private static OptionalInt optional(Integer value) {
    return value == null ? OptionalInt.empty() : OptionalInt.of(value);
  }
}

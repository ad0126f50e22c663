package org.mixaccord.intake;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleConsumer;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.audio.Stretch;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/**
 * Copies of decoded audio that a browser can play without losing a sample: segments cut by frame
 * count for switching and looping, then one whole file for plain listening. Beside them a small
 * lossy one for slow lines, see {@link LightCopy}.
 *
 * <p>FLAC for integers of up to 24 bits, 32-bit float WAV otherwise, since FLAC would clip what
 * goes over full scale. Segments appear one by one, the first first, each whole or not at all;
 * making a copy again goes on where it was broken off.
 */
public final class ListeningCopy {
  private static final int SEGMENT_FRAMES = 1 << 18;
  private static final int FLAC_BITS = 24;
  private static final int FLAC_CHANNELS = 8;
  private static final int FLAC_HEAD_BYTES = 1024;
  private static final String KIND = "listening";

  /** Segments that are made before the light copy: listening in full quality begins with them. */
  private static final int FIRST_SEGMENTS = 4;

  /** Of all work, making the segments is this share; the rest is the whole copy. */
  private static final double SEGMENTS_SHARE = 0.6;

  private final Ffmpeg ffmpeg;
  private final Decoder decoder;
  private final DerivedFiles derived;

  /** Makes copies of what this decoder has decoded. */
  public ListeningCopy(Ffmpeg ffmpeg, Decoder decoder, DerivedFiles derived) {
    this.ffmpeg = ffmpeg;
    this.decoder = decoder;
    this.derived = derived;
  }

  /** How the copy of a file is, or will be, cut; needs nothing but the facts. */
  public static ListeningManifest manifest(DecodedFile file) {
    boolean integers = file.sampleFormat() == SampleFormat.S32;
    int bits = file.significantBits().orElse(integers && file.lossy() ? 16 : 1);
    boolean isFlac = integers && bits <= FLAC_BITS && file.channels() <= FLAC_CHANNELS;
    boolean isExact =
        isFlac || file.sampleFormat() == SampleFormat.F32 || (integers && bits <= FLAC_BITS);
    return new ListeningManifest(
        file.sampleRate(), file.channels(), file.frames(), SEGMENT_FRAMES, isFlac, isExact);
  }

  /**
   * Makes what is missing of the copy of a file.
   *
   * @param progress told the share that is done, 0 to 1
   */
  public void make(DecodedFile file, DoubleConsumer progress) throws IOException {
    ListeningManifest manifest = manifest(file);
    List<Piece> pieces = new ArrayList<>();
    for (int i = 0; i < manifest.segments(); i++) {
      Path target = place(file.pcmSha256(), segmentName(manifest, i));
      double share = SEGMENTS_SHARE * (i + 1) / manifest.segments();
      pieces.add(new Piece(manifest.segment(i), target, share));
    }
    Path whole = place(file.pcmSha256(), wholeName(manifest));
    pieces.add(new Piece(new FrameRange(0, file.frames()), whole, 1));
    int first = Math.min(FIRST_SEGMENTS, manifest.segments());
    makeMissing(file, pieces.subList(0, first), progress);
    if (light(file).isEmpty() && hasLight(file)) {
      LightCopy.make(file, ffmpeg, derived);
    }
    makeMissing(file, pieces.subList(first, pieces.size()), progress);
    progress.accept(1);
  }

  private void makeMissing(DecodedFile file, List<Piece> pieces, DoubleConsumer progress)
      throws IOException {
    List<Piece> missing = pieces.stream().filter(piece -> !Files.exists(piece.target())).toList();
    if (manifest(file).isFlac()) {
      flac(file, missing, progress);
      return;
    }
    try (PcmFile pcm = decoder.open(file)) {
      for (Piece piece : missing) {
        FloatWav.make(KIND, new Stretch(pcm, piece.range()), derived, piece.target());
        progress.accept(piece.share());
      }
    }
  }

  /** A file to be made; {@code share} of all is done with it. */
  private record Piece(FrameRange range, Path target, double share) {}

  /** One segment, if it has been made. */
  public Optional<Path> segment(DecodedFile file, int index) {
    ListeningManifest manifest = manifest(file);
    if (index < 0 || index >= manifest.segments()) {
      return Optional.empty();
    }
    return there(place(file.pcmSha256(), segmentName(manifest, index)));
  }

  /** The whole copy, if it has been made; it is made last. */
  public Optional<Path> whole(DecodedFile file) {
    return there(place(file.pcmSha256(), wholeName(manifest(file))));
  }

  /** How many segments are there, counted from the first one without a gap. */
  public int segmentsThere(DecodedFile file) {
    int there = 0;
    while (segment(file, there).isPresent()) {
      there++;
    }
    return there;
  }

  /** The small lossy copy, if it has been made. */
  public Optional<LightCopy> light(DecodedFile file) {
    return LightCopy.in(derived.listening(file.pcmSha256()));
  }

  /** Whether the small copy is there or will be. */
  public boolean hasLight(DecodedFile file) {
    return LightCopy.isPossible(file) && !LightCopy.isGivenUp(derived.listening(file.pcmSha256()));
  }

  private static Optional<Path> there(Path path) {
    return Optional.of(path).filter(Files::isRegularFile);
  }

  private Path place(Sha256 pcmSha256, String name) {
    return derived.listening(pcmSha256).resolve(name);
  }

  private static String segmentName(ListeningManifest manifest, int index) {
    return index + "." + manifest.extension();
  }

  private static String wholeName(ListeningManifest manifest) {
    return "whole." + manifest.extension();
  }

  /** FLAC may keep samples as they are, under a head of some hundred bytes. */
  private static long mostBytes(DecodedFile file, Piece piece) {
    return FLAC_HEAD_BYTES + piece.range().frames() * Integer.BYTES * file.channels();
  }

  private void flac(DecodedFile file, List<Piece> missing, DoubleConsumer progress)
      throws IOException {
    if (missing.isEmpty()) {
      return;
    }
    Child.End end;
    try {
      end =
          ffmpeg.encodeFlac(
              derived.pcm(file.pcmSha256(), file.sampleFormat().wireName()),
              file.sampleRate(),
              file.channels(),
              file.significantBits().orElse(file.lossy() ? 16 : 1),
              missing.stream().map(Piece::range).toList(),
              out -> {
                DataInputStream encoded = new DataInputStream(new BufferedInputStream(out));
                for (Piece piece : missing) {
                  derived.make(
                      KIND,
                      mostBytes(file, piece),
                      piece.target(),
                      finished -> FlacFile.write(encoded, finished));
                  progress.accept(piece.share());
                }
              });
    } catch (EOFException early) {
      throw new IOException("a listening copy could not be encoded: its process ended", early);
    }
    if (end.code() != 0) {
      throw new IOException("a listening copy could not be encoded: " + end.said());
    }
  }
}

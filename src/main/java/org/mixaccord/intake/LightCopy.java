package org.mixaccord.intake;

import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Sha256;

/**
 * The lossy copy for slow lines: AAC-LC in MP4 with the index in front, mono or stereo, {@value
 * #BITS_PER_SECOND} bits per second for each of the two sides. An edit list leaves out the coder's
 * run-up, so an instant of the copy is the same instant of the mix.
 *
 * <p>Where peaks would come within 1 dB of full scale the whole copy is lowered, and says by how
 * much. More than two channels are folded down to stereo.
 *
 * @param gainDb what was applied to all samples; 0 or less
 * @param indexBytes length of what stands in front of the coded sound
 */
public record LightCopy(Path file, double gainDb, long indexBytes) {
  /** Media type with the codec, as browsers are asked. */
  public static final String MEDIA_TYPE = "audio/mp4";

  /** For each of the coded channels. */
  static final int BITS_PER_SECOND = 48_000;

  private static final int MOST_CHANNELS = 8;

  /** What is known of a copy stands in its name, so that copy and facts appear in one step. */
  private static final Pattern NAME = Pattern.compile("light1_(\\d+)_(\\d+)\\.m4a");

  private static final String NONE = "light1.none";

  /** Whether there is a light copy of such a file: folding takes at most eight channels. */
  static boolean isPossible(DecodedFile file) {
    return file.channels() <= MOST_CHANNELS;
  }

  /** The copy in a folder of listening copies, if it has been made. */
  static Optional<LightCopy> in(Path folder) {
    if (!Files.isDirectory(folder)) {
      return Optional.empty();
    }
    try (DirectoryStream<Path> found = Files.newDirectoryStream(folder, "light1_*.m4a")) {
      for (Path file : found) {
        Matcher name = NAME.matcher(file.getFileName().toString());
        if (name.matches()) {
          double gainDb = -Integer.parseInt(name.group(1)) / 100.0;
          return Optional.of(new LightCopy(file, gainDb, Long.parseLong(name.group(2))));
        }
      }
      return Optional.empty();
    } catch (IOException e) {
      // The folder has just been emptied.
      return Optional.empty();
    }
  }

  /** Whether making one was tried and did not succeed; emptying the folder tries again. */
  static boolean isGivenUp(Path folder) {
    return Files.exists(folder.resolve(NONE));
  }

  /** Makes the copy and puts it in its place; where the coder can't, that is remembered. */
  static void make(DecodedFile file, Ffmpeg ffmpeg, DerivedFiles derived) throws IOException {
    Sha256 pcm = file.pcmSha256();
    Path folder = derived.listening(pcm);
    Path finished = derived.unfinished("light");
    String[] name = {NONE};
    try {
      Child.End end =
          ffmpeg.encodeLight(
              derived.pcm(pcm, file.sampleFormat().wireName()),
              file,
              BITS_PER_SECOND,
              out -> name[0] = received(out, finished));
      if (end.code() != 0) {
        name[0] = NONE;
        Files.write(finished, end.said().getBytes(StandardCharsets.UTF_8));
      }
      derived.publish(finished, folder.resolve(name[0]));
    } finally {
      Files.deleteIfExists(finished);
    }
  }

  /** Writes what the child sends; the name it gets, or the one for none if it ended early. */
  private static String received(InputStream out, Path to) throws IOException {
    DataInputStream in = new DataInputStream(out);
    byte[] head = in.readNBytes(Double.BYTES + Integer.BYTES);
    if (head.length < Double.BYTES + Integer.BYTES) {
      return NONE;
    }
    ByteBuffer facts = ByteBuffer.wrap(head);
    long loweredHundredths = Math.round(-100 * facts.getDouble());
    int indexBytes = facts.getInt();
    try (OutputStream file = Files.newOutputStream(to)) {
      in.transferTo(file);
    }
    return String.format(Locale.ROOT, "light1_%d_%d.m4a", loweredHundredths, indexBytes);
  }
}

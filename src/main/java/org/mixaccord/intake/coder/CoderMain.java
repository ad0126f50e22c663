package org.mixaccord.intake.coder;

import java.io.BufferedOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import org.bytedeco.ffmpeg.global.avutil;

/**
 * Entry of the child process. The first word says whether the server is going to take away the
 * right to open files ({@code locked}) or cannot ({@code open}); then follows the command:
 *
 * <ul>
 *   <li>{@code version} says which FFmpeg this is;
 *   <li>{@code decode <demuxer> <codecs> <first byte> <trim|keep>} writes facts, an empty line and
 *       raw samples, without or with the run-up and the padding of block codings;
 *   <li>{@code flac <rate> <channels> <bits> <from>-<to> …} writes those ranges of the raw samples
 *       on standard input as FLAC, see {@link FlacWriter};
 *   <li>{@code light <rate> <channels> <format> <frames> <bits per second>} writes all of them as
 *       one small lossy file, see {@link LightWriter}.
 * </ul>
 *
 * What goes wrong is said on standard error. The end is 0 if all went well, 1 if not.
 */
public final class CoderMain {
  /** First word where the right to open files is going to be taken away. */
  public static final String LOCKED = "locked";

  /** First word where it is not. */
  public static final String OPEN = "open";

  private CoderMain() {}

  /** Runs one command. */
  public static void main(String[] words) {
    int code = 1;
    try {
      OutputStream out =
          new BufferedOutputStream(new FileOutputStream(FileDescriptor.out), 1 << 16);
      // What matters is reported by those who call; the libraries also grumble at pictures and
      // tags.
      avutil.av_log_set_level(avutil.AV_LOG_QUIET);
      FfmpegCall.loadAll();
      if (words[0].equals(LOCKED)) {
        Lock.await(out);
      }
      run(List.of(words).subList(1, words.length), out);
      out.flush();
      code = 0;
    } catch (IOException | LinkageError e) {
      System.err.println(e.getMessage());
    }
    // Nothing is closed, since a standard stream cannot be closed without opening another file, and
    // no wait for helper threads of the libraries: nothing is left to do.
    Runtime.getRuntime().halt(code);
  }

  private static void run(List<String> words, OutputStream out) throws IOException {
    switch (words.get(0)) {
      case "version" -> out.write(FfmpegCall.version().getBytes(StandardCharsets.US_ASCII));
      case "decode" ->
          SoundReader.decode(
              words.get(1), words.get(2), Long.parseLong(words.get(3)), words.get(4), out);
      case "flac" -> {
        int[] numbers = words.subList(1, 4).stream().mapToInt(Integer::parseInt).toArray();
        long[][] ranges =
            words.subList(4, words.size()).stream()
                .map(range -> Arrays.stream(range.split("-")).mapToLong(Long::parseLong).toArray())
                .toArray(long[][]::new);
        new FlacWriter(numbers[0], numbers[1], numbers[2]).write(ranges, out);
      }
      case "light" ->
          new LightWriter(
                  Integer.parseInt(words.get(1)),
                  Integer.parseInt(words.get(2)),
                  words.get(3),
                  Long.parseLong(words.get(4)),
                  Integer.parseInt(words.get(5)))
              .write(out);
      default -> throw new IOException("no such command: " + words.get(0));
    }
  }
}

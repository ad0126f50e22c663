package org.mixaccord.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Coded test files, made from a plain WAV by the encoders at hand. */
public final class Encoded {
  private Encoded() {}

  public static byte[] by(Ffmpeg ffmpeg, Path folder, byte[] wav, String codec, String muxer)
      throws IOException {
    Path in = Files.write(folder.resolve("encode.wav"), wav);
    Path out = folder.resolve("encoded." + muxer);
    List<String> words =
        List.of(
            ffmpeg.program(),
            "-v",
            "error",
            "-y",
            "-i",
            in.toString(),
            "-c:a",
            codec,
            "-f",
            muxer,
            out.toString());
    ProcessBuilder builder = new ProcessBuilder(words).inheritIO();
    builder.environment().putAll(ffmpeg.environment());
    Process process = builder.start();
    try {
      if (process.waitFor() != 0) {
        throw new IOException(codec + " in " + muxer + " could not be made");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException(e);
    }
    return Files.readAllBytes(out);
  }
}

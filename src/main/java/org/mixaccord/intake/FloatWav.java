package org.mixaccord.intake;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.mixaccord.audio.PcmSource;
import org.mixaccord.storage.DerivedFiles;

/** Writes PCM as a WAV file of 32-bit floats, with nothing in it but format and samples. */
public final class FloatWav {
  private static final int BLOCK_FRAMES = 8192;
  private static final int HEAD_BYTES = 58;
  private static final short FLOAT = 3;
  private static final int BYTES = Float.BYTES;

  /** Sizes are unsigned; the highest ones stand for "unknown" with some programs. */
  private static final long MOST_BYTES = 0xFFFFFF00L;

  private FloatWav() {}

  /**
   * Makes a file of all of a clip.
   *
   * @param kind what it is, for the name of the file while it is written
   * @throws IOException for a clip over 4 GiB too
   * @throws org.mixaccord.problem.ProblemException {@code disk-full}
   */
  public static void make(String kind, PcmSource pcm, DerivedFiles derived, Path target)
      throws IOException {
    derived.make(
        kind,
        HEAD_BYTES + pcm.frames() * pcm.channels() * BYTES,
        target,
        unfinished -> {
          try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(unfinished))) {
            write(pcm, out);
          }
        });
  }

  /**
   * Writes all of a clip; the stream stays open.
   *
   * @throws IOException for a clip over 4 GiB too
   */
  public static void write(PcmSource pcm, OutputStream out) throws IOException {
    long dataBytes = pcm.frames() * pcm.channels() * BYTES;
    if (dataBytes > MOST_BYTES - HEAD_BYTES) {
      throw new IOException("too long for one WAV file: " + dataBytes + " bytes");
    }
    int frameBytes = pcm.channels() * BYTES;
    ByteBuffer head = little(HEAD_BYTES);
    id(head, "RIFF").putInt((int) (HEAD_BYTES - 8 + dataBytes));
    id(head, "WAVE");
    id(head, "fmt ").putInt(18).putShort(FLOAT).putShort((short) pcm.channels());
    head.putInt(pcm.sampleRate()).putInt(pcm.sampleRate() * frameBytes);
    head.putShort((short) frameBytes).putShort((short) (8 * BYTES)).putShort((short) 0);
    id(head, "fact").putInt(4).putInt((int) pcm.frames());
    id(head, "data").putInt((int) dataBytes);
    out.write(head.array());
    double[][] block = new double[pcm.channels()][BLOCK_FRAMES];
    ByteBuffer bytes = little(BLOCK_FRAMES * frameBytes);
    for (long at = 0; at < pcm.frames(); at += BLOCK_FRAMES) {
      int count = (int) Math.min(BLOCK_FRAMES, pcm.frames() - at);
      pcm.read(at, block, count);
      bytes.clear();
      for (int i = 0; i < count; i++) {
        for (double[] channel : block) {
          bytes.putFloat((float) channel[i]);
        }
      }
      out.write(bytes.array(), 0, bytes.position());
    }
  }

  private static ByteBuffer little(int size) {
    return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
  }

  private static ByteBuffer id(ByteBuffer into, String name) {
    return into.put(name.getBytes(StandardCharsets.US_ASCII));
  }
}

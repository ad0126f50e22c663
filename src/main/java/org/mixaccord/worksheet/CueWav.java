package org.mixaccord.worksheet;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.mixaccord.audio.PcmSource;

/**
 * A WAV file with the places of a list as cue points and labelled regions. Streamed; RF64 where it
 * passes 4 GiB.
 *
 * <p>Sources: Multimedia Programming Interface and Data Specifications 1.0 (chunks {@code cue},
 * {@code LIST adtl} with {@code labl} and {@code ltxt}); EBU Tech 3306 for RF64.
 */
public final class CueWav {
  private static final long MOST_RIFF_BYTES = 0xFFFFFFFFL;
  private static final int UNKNOWN = -1;
  private static final int BLOCK_FRAMES = 8192;
  private static final int PCM = 1;
  private static final int FLOAT = 3;

  /** How samples are written. */
  public enum Samples {
    INT8(PCM, 1),
    INT16(PCM, 2),
    INT24(PCM, 3),
    INT32(PCM, 4),
    FLOAT32(FLOAT, 4),
    FLOAT64(FLOAT, 8);

    private final int tag;
    private final int bytes;

    Samples(int tag, int bytes) {
      this.tag = tag;
      this.bytes = bytes;
    }
  }

  private record Cue(long frame, long frames, String label) {}

  private final Samples samples;
  private final int sampleRate;
  private final int channels;
  private final long frames;
  private final byte[] tail;

  private CueWav(Samples samples, PcmSource sound, byte[] tail) {
    this.samples = samples;
    this.sampleRate = sound.sampleRate();
    this.channels = sound.channels();
    this.frames = sound.frames();
    this.tail = tail;
  }

  /**
   * A file of this sound with the places of a list.
   *
   * @param sound what is heard; of the rate and length of the mix the places are on
   */
  public static CueWav of(WorkSheet sheet, PcmSource sound, Samples samples) {
    List<Cue> cues = new ArrayList<>();
    for (WorkSheet.Line line : sheet.lines()) {
      for (WorkSheet.Stretch place : line.places()) {
        long from = frame(place.fromSeconds(), sound);
        long to = frame(place.toSeconds(), sound);
        String label =
            line.number() + ". " + line.what() + " (" + String.join(", ", line.names()) + ")";
        cues.add(new Cue(from, Math.max(0, to - from), label));
      }
    }
    return new CueWav(samples, sound, tail(cues));
  }

  private static long frame(double seconds, PcmSource sound) {
    long frame = Math.round(seconds * sound.sampleRate());
    return Math.max(0, Math.min(Math.max(0, sound.frames() - 1), frame));
  }

  /** Length of the whole file. */
  public long bytes() {
    return head().length + dataBytes() + pad() + tail.length;
  }

  private long dataBytes() {
    return frames * channels * samples.bytes;
  }

  private int pad() {
    return (int) (dataBytes() & 1);
  }

  /** Writes the file; the stream stays open. */
  public void write(PcmSource sound, OutputStream out) throws IOException {
    out.write(head());
    double[][] block = new double[channels][BLOCK_FRAMES];
    ByteBuffer bytes = little(BLOCK_FRAMES * channels * samples.bytes);
    for (long at = 0; at < frames; at += BLOCK_FRAMES) {
      int count = (int) Math.min(BLOCK_FRAMES, frames - at);
      sound.read(at, block, count);
      bytes.clear();
      for (int i = 0; i < count; i++) {
        for (double[] channel : block) {
          put(bytes, channel[i]);
        }
      }
      out.write(bytes.array(), 0, bytes.position());
    }
    out.write(new byte[pad()]);
    out.write(tail);
  }

  private void put(ByteBuffer into, double value) {
    switch (samples) {
      case FLOAT32 -> into.putFloat((float) value);
      case FLOAT64 -> into.putDouble(value);
      // Eight bits are unsigned in WAV.
      case INT8 -> into.put((byte) (integer(value) + 128));
      default -> {
        long whole = integer(value);
        for (int i = 0; i < samples.bytes; i++) {
          into.put((byte) (whole >> (8 * i)));
        }
      }
    }
  }

  private long integer(double value) {
    double scale = Math.scalb(1.0, 8 * samples.bytes - 1);
    return Math.round(Math.max(-scale, Math.min(scale - 1, value * scale)));
  }

  private byte[] head() {
    // Anything but PCM has an extension (here of no bytes) and says its frames.
    boolean real = samples.tag == FLOAT;
    int formatBytes = real ? 8 + 18 + 12 : 8 + 16;
    long riffBytes = 4 + formatBytes + 8 + dataBytes() + pad() + tail.length;
    boolean large = riffBytes + 36 > MOST_RIFF_BYTES;
    ByteBuffer head = little(12 + (large ? 36 : 0) + formatBytes + 8);
    id(head, large ? "RF64" : "RIFF").putInt(large ? UNKNOWN : (int) riffBytes);
    id(head, "WAVE");
    if (large) {
      id(head, "ds64").putInt(28).putLong(riffBytes + 36).putLong(dataBytes());
      head.putLong(frames).putInt(0);
    }
    int frameBytes = channels * samples.bytes;
    id(head, "fmt ")
        .putInt(real ? 18 : 16)
        .putShort((short) samples.tag)
        .putShort((short) channels);
    head.putInt(sampleRate).putInt(sampleRate * frameBytes);
    head.putShort((short) frameBytes).putShort((short) (8 * samples.bytes));
    if (real) {
      head.putShort((short) 0);
      id(head, "fact").putInt(4).putInt((int) Math.min(frames, MOST_RIFF_BYTES));
    }
    id(head, "data").putInt(large ? UNKNOWN : (int) dataBytes());
    return head.array();
  }

  private static byte[] tail(List<Cue> cues) {
    if (cues.isEmpty()) {
      return new byte[0];
    }
    ByteBuffer points = little(8 + 4 + 24 * cues.size());
    id(points, "cue ").putInt(4 + 24 * cues.size()).putInt(cues.size());
    ByteArrayOutputStream list = new ByteArrayOutputStream();
    list.writeBytes("adtl".getBytes(StandardCharsets.US_ASCII));
    for (int i = 0; i < cues.size(); i++) {
      Cue cue = cues.get(i);
      int number = i + 1;
      points.putInt(number).putInt((int) cue.frame());
      id(points, "data").putInt(0).putInt(0).putInt((int) cue.frame());
      ByteBuffer name = little(4).putInt(number);
      byte[] label = text(cue.label());
      chunk(list, "labl", name.array(), label);
      if (cue.frames() > 0) {
        ByteBuffer region = little(20).putInt(number).putInt((int) cue.frames());
        id(region, "rgn ").putLong(0);
        chunk(list, "ltxt", region.array(), label);
      }
    }
    ByteBuffer all = little(points.capacity() + 8 + list.size());
    all.put(points.array());
    id(all, "LIST").putInt(list.size()).put(list.toByteArray());
    return all.array();
  }

  private static void chunk(ByteArrayOutputStream to, String id, byte[] head, byte[] content) {
    int size = head.length + content.length;
    to.writeBytes(id(little(8), id).putInt(size).array());
    to.writeBytes(head);
    to.writeBytes(content);
    to.writeBytes(new byte[size & 1]);
  }

  /** Ends with a zero byte. */
  private static byte[] text(String words) {
    return (words.replaceAll("\\s+", " ").replace("\0", "") + "\0")
        .getBytes(StandardCharsets.UTF_8);
  }

  private static ByteBuffer little(int size) {
    return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
  }

  private static ByteBuffer id(ByteBuffer into, String id) {
    return into.put(id.getBytes(StandardCharsets.US_ASCII));
  }
}

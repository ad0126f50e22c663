package org.mixaccord.worksheet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.PcmSource;
import org.mixaccord.audio.Silence;

/** The file with cue points, walked chunk by chunk and read by the reader of the Java platform. */
class CueWavTest {
  private static final int RATE = 48_000;

  private static byte[] file(WorkSheet sheet, PcmSource sound, CueWav.Samples samples)
      throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    CueWav wav = CueWav.of(sheet, sound, samples);
    wav.write(sound, out);
    assertEquals(wav.bytes(), out.size());
    return out.toByteArray();
  }

  /** Contents by id; of an id that comes twice the last. */
  private static Map<String, ByteBuffer> chunks(byte[] file, int from, int to) {
    Map<String, ByteBuffer> found = new TreeMap<>();
    ByteBuffer bytes = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
    int at = from;
    while (at < to) {
      String id = new String(file, at, 4, StandardCharsets.US_ASCII);
      int size = bytes.getInt(at + 4);
      String key = id.equals("labl") || id.equals("ltxt") ? id + bytes.getInt(at + 8) : id;
      found.put(key, ByteBuffer.wrap(file, at + 8, size).slice().order(ByteOrder.LITTLE_ENDIAN));
      at += 8 + size + (size & 1);
    }
    assertEquals(to, at, "chunks fill the file");
    return found;
  }

  private static String label(ByteBuffer chunk, int head) {
    byte[] words = new byte[chunk.capacity() - head - 1];
    chunk.get(head, words);
    assertEquals(0, chunk.get(chunk.capacity() - 1));
    return new String(words, StandardCharsets.UTF_8);
  }

  @Test
  void placesAndWordsAreReadAsTheyWere() throws IOException {
    byte[] file =
        file(SheetForTests.hostile(), new Silence(RATE, 1, 3700L * RATE + 1), CueWav.Samples.INT8);
    ByteBuffer bytes = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN);
    assertEquals("RIFF", new String(file, 0, 4, StandardCharsets.US_ASCII));
    assertEquals(file.length - 8, bytes.getInt(4));
    Map<String, ByteBuffer> chunks = chunks(file, 12, file.length);
    ByteBuffer cues = chunks.get("cue ");
    double[] places = {0, 61.2345, 120.001, 3599.9994};
    double[] lengths = {4.5, 90 - 61.2345, 0, 1.0006};
    assertEquals(places.length, cues.getInt(0));
    int list = file.length - chunks.get("LIST").capacity();
    Map<String, ByteBuffer> texts = chunks(file, list + 4, file.length);
    for (int i = 0; i < places.length; i++) {
      assertEquals(i + 1, cues.getInt(4 + 24 * i));
      assertEquals(places[i], cues.getInt(4 + 24 * i + 20) / (double) RATE, 0.001);
      assertEquals(lengths[i] > 0, texts.containsKey("ltxt" + (i + 1)));
      if (lengths[i] > 0) {
        assertEquals(lengths[i], texts.get("ltxt" + (i + 1)).getInt(4) / (double) RATE, 0.001);
      }
    }
    assertEquals("1. Lead vocal: up, 1 dB (Lio, Bas)", label(texts.get("labl1"), 4));
    assertEquals("3. +Strings: up, 1 dB (Lio, Bas)", label(texts.get("ltxt4"), 20));
  }

  @Test
  void theSoundIsThatOfTheMix() throws Exception {
    Random random = new Random(7);
    double[][] sound = new double[2][10_007];
    for (double[] side : sound) {
      for (int i = 0; i < side.length; i++) {
        side[i] = Math.rint((2 * random.nextDouble() - 1) * 8_388_607) / 8_388_608;
      }
    }
    sound[0][5] = -1;
    byte[] file =
        file(
            SheetForTests.sheet(SheetForTests.line(1, "Bass", "up", 0.1, 0.2)),
            new ArrayPcm(RATE, sound),
            CueWav.Samples.INT24);
    try (AudioInputStream in = AudioSystem.getAudioInputStream(new ByteArrayInputStream(file))) {
      assertEquals(24, in.getFormat().getSampleSizeInBits());
      assertEquals(10_007, in.getFrameLength());
      byte[] data = in.readAllBytes();
      double[][] read = new double[2][10_007];
      for (int i = 0; i < 2 * 10_007; i++) {
        int value = (data[3 * i] & 0xFF) | (data[3 * i + 1] & 0xFF) << 8 | data[3 * i + 2] << 16;
        read[i % 2][i / 2] = value / 8_388_608.0;
      }
      assertArrayEquals(sound[0], read[0]);
      assertArrayEquals(sound[1], read[1]);
    }
  }

  @Test
  void floatsKeepWhatIsOverFullScaleAndIntegersStopAtIt() throws Exception {
    PcmSource sound = new ArrayPcm(RATE, new double[][] {{0, 1.5, -1.5, 0.25}});
    WorkSheet sheet = SheetForTests.sheet();
    Map<String, ByteBuffer> real =
        chunks(file(sheet, sound, CueWav.Samples.FLOAT32), 12, 12 + 26 + 12 + 8 + 16);
    assertEquals(3, real.get("fmt ").getShort(0));
    assertEquals(4, real.get("fact").getInt(0));
    assertEquals(-1.5f, real.get("data").getFloat(8));
    byte[] whole = file(sheet, sound, CueWav.Samples.INT16);
    ByteBuffer data = chunks(whole, 12, whole.length).get("data");
    assertEquals(32_767, data.getShort(2));
    assertEquals(-32_768, data.getShort(4));
    assertEquals(8192, data.getShort(6));
  }

  /** Over four GiB: 64-bit sizes, without writing it all to memory. */
  @Test
  void whatPassesFourGibHasSixtyFourBitSizes() throws IOException {
    PcmSource sound = new Silence(192_000, 8, 110_000_000);
    CueWav wav =
        CueWav.of(
            SheetForTests.sheet(SheetForTests.line(1, "Bass", "up", 500, 510)),
            sound,
            CueWav.Samples.FLOAT64);
    ByteArrayOutputStream head = new ByteArrayOutputStream();
    long[] count = new long[1];
    wav.write(
        sound,
        new OutputStream() {
          @Override
          public void write(int value) {
            throw new UnsupportedOperationException();
          }

          @Override
          public void write(byte[] bytes, int from, int length) {
            if (head.size() < 200) {
              head.write(bytes, from, length);
            }
            count[0] += length;
          }
        });
    assertEquals(wav.bytes(), count[0]);
    assertTrue(count[0] > 1L << 32);
    ByteBuffer bytes = ByteBuffer.wrap(head.toByteArray()).order(ByteOrder.LITTLE_ENDIAN);
    assertEquals("RF64", new String(head.toByteArray(), 0, 4, StandardCharsets.US_ASCII));
    assertEquals(-1, bytes.getInt(4));
    assertEquals(count[0] - 8, bytes.getLong(20));
    assertEquals(110_000_000L * 64, bytes.getLong(28));
    assertEquals(110_000_000L, bytes.getLong(36));
  }
}

package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.floats;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.container.Walk;
import org.mixaccord.audio.container.WavWalker;

/** A stereo file made of two mono ones holds every sample of both, exactly. */
class PairedWavTest extends IntakeStage {
  private static final int FRAMES = 20_001;

  @Test
  void integersOfEveryDepthComeBackExactly() throws IOException {
    for (int bits : new int[] {12, 16, 20, 24, 32}) {
      int width = (bits + 7) / 8;
      int[] left = music(FRAMES, 1, width * 8);
      int[] right = reversed(left);
      var pair =
          paired(
              wav(1, 1, 48000, width * 8, bytes(left, width, false)),
              wav(1, 1, 48000, width * 8, bytes(right, width, false)));
      assertSamples(shifted(interleaved(left, right), 32 - width * 8), pair);
      assertEquals(width * 8, pair.bitDepth().getAsInt());
    }
  }

  @Test
  void floatsComeBackExactlyOverFullScaleToo() throws IOException {
    double[] left = new double[FRAMES];
    double[] right = new double[FRAMES];
    for (int i = 0; i < FRAMES; i++) {
      left[i] = (float) Math.sin(i * 0.1) * 1.5f;
      right[i] = (float) (i / 3e5 - 0.01);
    }
    for (boolean isDouble : new boolean[] {false, true}) {
      int bits = isDouble ? 64 : 32;
      var pair =
          paired(
              wav(3, 1, 44100, bits, floats(left, isDouble, false)),
              wav(3, 1, 44100, bits, floats(right, isDouble, false)));
      double[] read = numbers(pair);
      for (int i = 0; i < FRAMES; i++) {
        assertEquals(left[i], read[2 * i]);
        assertEquals(right[i], read[2 * i + 1]);
      }
      assertEquals("float", pair.codec());
    }
  }

  /** Two mono files of 5 h 10 min at 24/48: together more than 32 bits of length can say. */
  @Test
  void whatDoesNotGoInto32BitsIsWrittenInTheLongForm() throws IOException {
    long frames = 900_000_000L;
    Path sparse = folder.resolve("long.pcm");
    try (RandomAccessFile file = new RandomAccessFile(sparse.toFile(), "rw")) {
      file.setLength(frames * 4);
    }
    try (PcmFile left = PcmFile.open(sparse, SampleFormat.S32, 48000, 1);
        PcmFile right = PcmFile.open(sparse, SampleFormat.S32, 48000, 1);
        PairedWav wav = new PairedWav(left, right, 24)) {
      byte[] head = wav.readNBytes(4096);
      long length = wav.length();
      var layout =
          ((Walk.Found)
                  WavWalker.walk(
                      new org.mixaccord.audio.container.ByteSource() {
                        @Override
                        public long size() {
                          return length;
                        }

                        @Override
                        public int read(long position, byte[] into, int at, int count) {
                          int some = (int) Math.max(0, Math.min(count, length - position));
                          for (int i = 0; i < some; i++) {
                            into[at + i] =
                                position + i < head.length ? head[(int) position + i] : 0;
                          }
                          return some;
                        }
                      }))
              .layout();
      assertEquals("RF64", layout.container());
      assertEquals(frames, layout.frames());
      assertEquals(0, layout.defects().size(), layout.defects().toString());
    }
  }

  @Test
  void twoThatDoNotBelongTogetherAreRefused() throws IOException {
    var one = decoded(wav(1, 1, 48000, 16, bytes(music(100, 1, 16), 2, false)), "a.wav");
    var longer = decoded(wav(1, 1, 48000, 16, bytes(music(101, 1, 16), 2, false)), "a.wav");
    var faster = decoded(wav(1, 1, 96000, 16, bytes(music(100, 1, 16), 2, false)), "a.wav");
    var stereo = decoded(wav(1, 2, 48000, 16, bytes(music(100, 2, 16), 2, false)), "a.wav");
    for (DecodedFile other : new DecodedFile[] {longer, faster, stereo}) {
      try (PcmFile left = decoder.open(one);
          PcmFile right = decoder.open(other)) {
        assertThrows(IllegalArgumentException.class, () -> new PairedWav(left, right, 16));
      }
    }
  }

  private DecodedFile paired(byte[] left, byte[] right) throws IOException {
    var l = decoded(left, "a.L.wav");
    var r = decoded(right, "a.R.wav");
    try (PcmFile leftPcm = decoder.open(l);
        PcmFile rightPcm = decoder.open(r);
        PairedWav wav = new PairedWav(leftPcm, rightPcm, l.bitDepth().getAsInt())) {
      byte[] whole = wav.readAllBytes();
      assertEquals(wav.length(), whole.length);
      var pair = decoded(whole, "a.wav");
      assertArrayEquals(
          new Object[] {},
          pair.defects().stream().filter(d -> !d.code().startsWith("over")).toArray());
      return pair;
    }
  }

  private static int[] reversed(int[] samples) {
    int[] back = new int[samples.length];
    for (int i = 0; i < back.length; i++) {
      back[i] = samples[samples.length - 1 - i];
    }
    return back;
  }

  private static int[] interleaved(int[] left, int[] right) {
    int[] both = new int[left.length * 2];
    for (int i = 0; i < left.length; i++) {
      both[2 * i] = left[i];
      both[2 * i + 1] = right[i];
    }
    return both;
  }
}

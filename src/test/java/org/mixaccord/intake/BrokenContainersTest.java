package org.mixaccord.intake;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mixaccord.intake.Fixtures.aiff;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.chunk;
import static org.mixaccord.intake.Fixtures.extended;
import static org.mixaccord.intake.Fixtures.extensible;
import static org.mixaccord.intake.Fixtures.fmt;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.number;
import static org.mixaccord.intake.Fixtures.riff;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.audio.container.AiffWalker;
import org.mixaccord.audio.container.ByteSource;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.audio.container.PcmLayout;
import org.mixaccord.audio.container.Walk;
import org.mixaccord.audio.container.WavWalker;

/** Every way a header can lie, with the bytes of the sound that must be found all the same. */
class BrokenContainersTest {
  private static final int FRAMES = 5000;
  private static final byte[] SOUND = bytes(music(FRAMES, 2, 16), 2, false);
  private static final byte[] FORMAT = chunk("fmt ", fmt(1, 2, 44100, 16, false), false);

  @Test
  void unfinishedHeadersAreReadToTheEnd() throws IOException {
    for (long claim : new long[] {0, 0xFFFFFFFFL, 0xFFFFFFFFL - 36, 0x7FFFFFFFL, 0x80000000L}) {
      byte[] file = riff("RIFF", FORMAT, chunk("data", SOUND, claim, false, false));
      PcmLayout layout = assertSound(file, SOUND, "unfinished-header");
      assertEquals(false, layout.defects().get(0).affectsSound());
    }
  }

  @Test
  void sizesTooSmallDoNotCropTheSound() throws IOException {
    assertSound(
        riff("RIFF", FORMAT, chunk("data", SOUND, SOUND.length / 2, false, false)),
        SOUND,
        "lying-sizes");
  }

  @Test
  void truncationIsToldWithItsShare() throws IOException {
    byte[] whole = riff("RIFF", FORMAT, chunk("data", SOUND, false));
    int there = SOUND.length * 61 / 100 / 4 * 4;
    byte[] cut = Arrays.copyOf(whole, 44 + there);
    PcmLayout layout = assertSound(cut, Arrays.copyOf(SOUND, there), "truncated");
    assertTrue(layout.defects().get(0).detail().contains("61 %"), layout.defects().get(0).detail());
    assertTrue(layout.defects().get(0).affectsSound());
    assertSound(
        Arrays.copyOf(whole, 44 + there + 3),
        Arrays.copyOf(SOUND, there),
        "truncated",
        "partial-frame");
  }

  @Test
  void threeGigabytesClaimedInOneKilobyte() throws IOException {
    byte[] little = Arrays.copyOf(SOUND, 980);
    byte[] file = riff("RIFF", FORMAT, chunk("data", little, 3_000_000_000L, false, false));
    PcmLayout layout = assertSound(file, little, "truncated");
    assertEquals(245, layout.frames());
    assertTrue(layout.defects().get(0).detail().contains("less than 1 %"));
  }

  @Test
  void hugeMetadataClaimsDoNotHideTheSound() throws IOException {
    byte[] list = chunk("LIST", new byte[20], 0x70000000L, false, false);
    assertSound(riff("RIFF", FORMAT, list, chunk("data", SOUND, false)), SOUND, "broken-metadata");
    assertSound(riff("RIFF", list, FORMAT, chunk("data", SOUND, false)), SOUND, "broken-metadata");
  }

  @Test
  void paddingThereOrNotIsNoReasonToShiftOrDropASample() throws IOException {
    byte[] odd = bytes(music(101, 1, 24), 3, false);
    byte[] mono = chunk("fmt ", fmt(1, 1, 48000, 24, false), false);
    byte[] list =
        chunk("LIST", "INFOISFT".getBytes(java.nio.charset.StandardCharsets.US_ASCII), false);
    assertSound(riff("RIFF", mono, chunk("data", odd, false)), odd);
    assertSound(riff("RIFF", mono, chunk("data", odd, odd.length, false, false)), odd);
    assertSound(riff("RIFF", mono, chunk("data", odd, false), list), odd);
    assertSound(
        riff("RIFF", mono, chunk("data", odd, odd.length, false, false), list), odd, "missing-pad");
    byte[] note = new byte[7];
    assertSound(
        riff("RIFF", chunk("bext", note, 7, false, false), mono, chunk("data", odd, false)),
        odd,
        "missing-pad");
    assertSound(riff("RIFF", chunk("bext", note, false), mono, chunk("data", odd, false)), odd);
  }

  @Test
  void trailingRubbishIsNotPlayed() throws IOException {
    byte[] tag = new byte[128];
    tag[0] = 'T';
    tag[1] = 'A';
    tag[2] = 'G';
    byte[] file = riff("RIFF", FORMAT, chunk("data", SOUND, false));
    assertSound(join(file, tag), SOUND, "trailing-data");
    assertSound(join(file, new byte[40_000]), SOUND, "trailing-data");
  }

  @Test
  void aWrongTotalLengthIsOnlyAdvice() throws IOException {
    byte[] file = riff("RIFF", FORMAT, chunk("data", SOUND, false));
    System.arraycopy(number(file.length - 16, 4, false), 0, file, 4, 4);
    PcmLayout layout = assertSound(file, SOUND, "lying-sizes");
    assertEquals(false, layout.defects().get(0).affectsSound());
  }

  @Test
  void impossibleLoudspeakersAndContradictingFrameSizes() throws IOException {
    byte[] mask = chunk("fmt ", extensible(1, 2, 44100, 16, 16, 0x3F), false);
    assertSound(riff("RIFF", mask, chunk("data", SOUND, false)), SOUND, "channel-mask");
    byte[] format = fmt(1, 2, 44100, 16, false);
    format[12] = 7;
    assertSound(
        riff("RIFF", chunk("fmt ", format, false), chunk("data", SOUND, false)),
        SOUND,
        "frame-size-mismatch");
    byte[] surplus = join(fmt(1, 2, 44100, 16, false), new byte[] {0, 0, 9, 9});
    assertSound(riff("RIFF", chunk("fmt ", surplus, false), chunk("data", SOUND, false)), SOUND);
  }

  @Test
  void aiffWithLyingCountsAndTheSoundInFront() throws IOException {
    byte[] big = bytes(music(FRAMES, 2, 16), 2, true);
    byte[] fewer = Arrays.copyOf(big, 4 * (FRAMES - 10));
    assertSound(aiff("", 2, 44100, 16, FRAMES - 10, big), fewer, "lying-sizes");
    assertSound(aiff("", 2, 44100, 16, FRAMES + 10, big), big, "lying-sizes");
    byte[] whole = aiff("", 2, 44100, 16, FRAMES, big);
    assertSound(
        Arrays.copyOf(whole, whole.length - 40), Arrays.copyOf(big, big.length - 40), "truncated");
    byte[] common =
        join(number(2, 2, true), number(FRAMES, 4, true), number(16, 2, true), extended(44100));
    byte[] soundFirst =
        join(
            "FORM\0\0\0\0AIFF".getBytes(java.nio.charset.StandardCharsets.US_ASCII),
            chunk("SSND", join(new byte[8], big), true),
            chunk("NAME", new byte[] {'a', 'b', 'c'}, true),
            chunk("COMM", common, true));
    assertSound(soundFirst, big);
  }

  @Test
  void noMutationMakesTheWalkersThrowOrReadBehindTheEnd() throws IOException {
    long seed = 20261125;
    Random random = new Random(seed);
    byte[][] seeds = {
      wav(1, 2, 44100, 16, Arrays.copyOf(SOUND, 600)),
      riff(
          "RIFF",
          chunk("fmt ", extensible(1, 6, 48000, 24, 24, 63), false),
          chunk("data", new byte[360], false)),
      aiff("sowt", 2, 48000, 24, 50, new byte[300]),
      aiff("", 1, 8000, 8, 90, new byte[90])
    };
    for (int n = 0; n < 20_000; n++) {
      byte[] file = seeds[n % seeds.length].clone();
      for (int k = random.nextInt(6); k >= 0; k--) {
        file[12 + random.nextInt(Math.min(file.length - 12, 90))] = (byte) random.nextInt(256);
      }
      file = Arrays.copyOf(file, Math.max(12, file.length - random.nextInt(50)));
      Walk walk = walk(file);
      if (walk instanceof Walk.Found found) {
        PcmLayout layout = found.layout();
        long end = layout.dataOffset() + layout.frames() * layout.frameBytes();
        assertTrue(end <= file.length, "seed " + seed + " file " + n + ": " + layout);
      } else {
        assertTrue(((Walk.Unusable) walk).detail().endsWith("."), "seed " + seed + " file " + n);
      }
    }
  }

  private static Walk walk(byte[] file) throws IOException {
    ByteSource source = ByteSource.of(file);
    return file[0] == 'F' ? AiffWalker.walk(source) : WavWalker.walk(source);
  }

  private static PcmLayout assertSound(byte[] file, byte[] sound, String... codes)
      throws IOException {
    Walk walk = walk(file);
    assertTrue(walk instanceof Walk.Found, walk.toString());
    PcmLayout layout = ((Walk.Found) walk).layout();
    assertEquals(
        List.of(codes),
        layout.defects().stream().map(FileDefect::code).toList(),
        layout.toString());
    int from = (int) layout.dataOffset();
    int count = (int) layout.frames() * layout.frameBytes();
    assertArrayEquals(sound, Arrays.copyOfRange(file, from, from + count));
    return layout;
  }
}

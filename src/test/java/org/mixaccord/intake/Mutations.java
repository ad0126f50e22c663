package org.mixaccord.intake;

import static org.mixaccord.intake.Fixtures.aiff;
import static org.mixaccord.intake.Fixtures.bytes;
import static org.mixaccord.intake.Fixtures.chunk;
import static org.mixaccord.intake.Fixtures.extensible;
import static org.mixaccord.intake.Fixtures.floats;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.music;
import static org.mixaccord.intake.Fixtures.number;
import static org.mixaccord.intake.Fixtures.riff;
import static org.mixaccord.intake.Fixtures.sweep;
import static org.mixaccord.intake.Fixtures.wav;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Sound files of every kind that is taken, broken in ways that a number decides. */
final class Mutations {
  private static final int FRAMES = 6000;

  /** Heads lie in the first bytes of most files. */
  private static final int HEAD_BYTES = 200;

  private static final long[] NASTY = {
    0,
    1,
    2,
    3,
    7,
    0x7F,
    0x80,
    0xFF,
    0x100,
    0x7FFF,
    0x8000,
    0xFFFF,
    0x10000,
    0x7FFFFFFF,
    0x80000000L,
    0xFFFFFFF0L,
    0xFFFFFFFFL,
    0x7FFFFFFFFFFFFFFFL,
    0x8000000000000000L,
    -1,
    -2
  };

  private final List<String> names;
  private final List<byte[]> seeds;
  private final long seed;

  /** A broken file and how it can be told again. */
  record Broken(String name, byte[] bytes) {}

  Mutations(Path folder, long seed) throws IOException {
    Map<String, byte[]> files = files(folder);
    names = List.copyOf(files.keySet());
    seeds = List.copyOf(files.values());
    this.seed = seed;
  }

  int kinds() {
    return seeds.size();
  }

  /** The n-th broken file: the same for the same number and seed. */
  Broken file(int n) {
    Random random = new Random(seed * 1_000_003 + n);
    int kind = n % seeds.size();
    byte[] file = seeds.get(kind).clone();
    for (int k = random.nextInt(5); k >= 0; k--) {
      file = file.length == 0 ? file : mutated(file, random);
    }
    return new Broken("seed " + seed + " file " + n + " of " + names.get(kind), file);
  }

  private byte[] mutated(byte[] file, Random random) {
    int at = random.nextInt(random.nextBoolean() ? Math.min(HEAD_BYTES, file.length) : file.length);
    int some = random.nextInt(Math.min(600, file.length - at) + 1);
    byte[] head = Arrays.copyOf(file, at);
    byte[] tail = Arrays.copyOfRange(file, at + some, file.length);
    return switch (random.nextInt(11)) {
      case 0 -> flipped(file, at, random);
      case 1, 2 -> withNumber(file, at, random);
      case 3 -> withNumber(file, at & ~3, random);
      case 4 -> head;
      case 5 -> join(head, tail);
      case 6 ->
          join(
              head,
              Arrays.copyOfRange(file, at, at + some),
              file.length > 1 << 20 ? tail : slice(file, at));
      case 7 -> join(head, noise(some, random), slice(file, at));
      case 8 -> join(head, new byte[some], tail);
      case 9 -> join(head, slice(seeds.get(random.nextInt(seeds.size())), at));
      default -> join(head, noise(some, random), tail);
    };
  }

  private static byte[] slice(byte[] file, int from) {
    return Arrays.copyOfRange(file, Math.min(from, file.length), file.length);
  }

  private static byte[] flipped(byte[] file, int at, Random random) {
    file[at] ^= (byte) (1 << random.nextInt(8));
    return file;
  }

  private static byte[] withNumber(byte[] file, int at, Random random) {
    long value = NASTY[random.nextInt(NASTY.length)];
    int width = 1 << random.nextInt(4);
    if (at + width <= file.length) {
      System.arraycopy(number(value, width, random.nextBoolean()), 0, file, at, width);
    }
    return file;
  }

  private static byte[] noise(int count, Random random) {
    byte[] noise = new byte[count];
    random.nextBytes(noise);
    return noise;
  }

  private static Map<String, byte[]> files(Path folder) throws IOException {
    Map<String, byte[]> files = new LinkedHashMap<>();
    int[] tune = sweep(FRAMES, 2);
    byte[] plain = wav(1, 2, 44100, 16, bytes(tune, 2, false));
    byte[] fine = wav(1, 2, 48000, 24, bytes(music(FRAMES, 2, 24), 3, false));
    double[] sound = new double[2 * FRAMES];
    Arrays.setAll(sound, i -> 0.9 * Math.sin(i * 0.017));
    byte[] little = floats(sound, false, false);
    files.put("WAV 16", plain);
    files.put("WAV 8", wav(1, 1, 22050, 8, bytes(music(FRAMES, 1, 8), 1, false)));
    files.put("WAV float", wav(3, 2, 48000, 32, little));
    files.put("WAV double", wav(3, 2, 48000, 64, floats(sound, true, false)));
    byte[] sixChannels = chunk("fmt ", extensible(1, 6, 48000, 24, 20, 63), false);
    files.put(
        "WAV extensible", riff("RIFF", sixChannels, chunk("data", new byte[18 * 500], false)));
    files.put("RF64", sixtyFour("RF64", tune));
    files.put("BW64", sixtyFour("BW64", tune));
    byte[] bigEndian = chunk("fmt ", Fixtures.fmt(1, 2, 44100, 16, true), true);
    files.put("RIFX", riff("RIFX", bigEndian, chunk("data", bytes(tune, 2, true), true)));
    for (String adpcm : new String[] {"adpcm_ms", "adpcm_ima_wav", "libmp3lame"}) {
      files.put(adpcm + " in WAV", Encoded.by(folder, plain, adpcm, "wav"));
    }
    files.put("AIFF", aiff("", 2, 44100, 16, FRAMES, bytes(tune, 2, true)));
    files.put("AIFF-C sowt", aiff("sowt", 2, 44100, 16, FRAMES, bytes(tune, 2, false)));
    files.put("AIFF-C float", aiff("fl32", 2, 48000, 32, FRAMES, floats(sound, false, true)));
    byte[] description = CafBytes.description(48000, CafBytes.FLOAT | CafBytes.LITTLE, 2, 32, 4);
    files.put("CAF", CafBytes.file(description, CafBytes.layout(3), CafBytes.openData(little)));
    files.put("CAF ALAC", Encoded.by(folder, fine, "alac", "caf"));
    byte[] adts = Encoded.by(folder, plain, "aac", "adts");
    Mp4Bytes m4a = Mp4Bytes.ofAdts(adts, 44100, 2);
    files.put("CAF AAC", m4a.asCaf(44100, 2, 5000, 1024));
    files.put("ADTS", adts);
    files.put("M4A", m4a.edit(441, -1).edit(100, 1024).gapless(1024, 100, 5000).bytes());
    files.put("M4A index first", Mp4Bytes.ofAdts(adts, 44100, 2).indexFirst().bytes());
    files.put("MP4 ALAC", Encoded.by(folder, fine, "alac", "ipod"));
    files.put("MP4 FLAC", Encoded.by(folder, fine, "flac", "mp4"));
    files.put("MP3 in MP4", Encoded.by(folder, plain, "libmp3lame", "mp4"));
    files.put("FLAC", Encoded.by(folder, fine, "flac", "flac"));
    files.put("FLAC in Ogg", Encoded.by(folder, fine, "flac", "ogg"));
    files.put("MP3", Encoded.by(folder, plain, "libmp3lame", "mp3"));
    files.put("Vorbis", Encoded.by(folder, plain, "vorbis", "ogg"));
    byte[] opusRate = wav(1, 2, 48000, 16, bytes(tune, 2, false));
    files.put("Opus", Encoded.by(folder, opusRate, "libopus", "opus"));
    files.put("WavPack", Encoded.by(folder, fine, "wavpack", "wv"));
    return files;
  }

  private static byte[] sixtyFour(String magic, int[] tune) {
    byte[] data = bytes(tune, 2, false);
    ByteBuffer sizes = ByteBuffer.allocate(28).order(ByteOrder.LITTLE_ENDIAN);
    sizes.putLong(data.length + 80L).putLong(data.length).putLong(FRAMES).putInt(0);
    return riff(
        magic,
        chunk("ds64", sizes.array(), false),
        chunk("fmt ", Fixtures.fmt(1, 2, 44100, 16, false), false),
        chunk("data", data, 0xFFFFFFFFL, false, false));
  }
}

package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.mixaccord.intake.Fixtures.number;

import java.util.Arrays;

/** MP3 files whose first frame, which holds figures and no sound, is changed or taken out. */
final class Mp3Bytes {
  private final byte[] file;
  private final int info;
  private final int sound;

  /** A file as encoders write it: a tag, the frame of figures, sound. */
  Mp3Bytes(byte[] file) {
    this.file = file;
    String text = new String(file, ISO_8859_1);
    info = Math.max(text.indexOf("Info"), text.indexOf("Xing"));
    int frame = info - 36;
    int[] kilobits = {0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320};
    // MPEG 1, layer 3, 44.1 kHz: 144 bytes per kilobit and kilohertz, and one of filling.
    sound =
        frame + 144_000 * kilobits[file[frame + 2] >> 4 & 15] / 44_100 + (file[frame + 2] >> 1 & 1);
  }

  /** Frames and bytes of the whole file said to be 0, as a writer leaves them that was stopped. */
  byte[] withoutCount() {
    byte[] changed = file.clone();
    Arrays.fill(changed, info + 8, info + 16, (byte) 0);
    return changed;
  }

  /** The figures without what the encoder says of its delay. */
  byte[] withoutDelay() {
    byte[] changed = file.clone();
    Arrays.fill(changed, info + 120, info + 156, (byte) 0);
    return changed;
  }

  /** The other kind of figures some encoders write, with a right count of frames. */
  byte[] withOtherFigures(int frames) {
    byte[] changed = file.clone();
    Arrays.fill(changed, info, sound, (byte) 0);
    System.arraycopy("VBRI".getBytes(ISO_8859_1), 0, changed, info, 4);
    System.arraycopy(number(frames, 4, true), 0, changed, info + 14, 4);
    return changed;
  }

  /** Sound from the first byte on. */
  byte[] withoutInfo() {
    return Arrays.copyOfRange(file, sound, file.length);
  }

  /** Filling behind the sound, in samples, as the encoder wrote it down. */
  int padding() {
    return (file[info + 142] & 15) << 8 | (file[info + 143] & 0xff);
  }
}

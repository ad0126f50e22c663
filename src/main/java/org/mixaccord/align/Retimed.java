package org.mixaccord.align;

import java.io.IOException;
import java.util.Arrays;
import org.mixaccord.audio.PcmSource;

/**
 * Another bounce laid onto this one's time line through a time map: same rate and length as this
 * bounce, the other's channels; silent where the music is only here.
 *
 * <p>Whole-frame offsets at equal rates copy samples untouched; anything else goes through a
 * windowed sinc whose error stays under −95 dB up to 0.4 of the lower rate. Not safe for several
 * threads.
 */
public final class Retimed implements PcmSource {
  private final PcmSource there;
  private final TimeMap map;
  private final int sampleRate;
  private final long frames;
  private final Interpolator interpolator;

  /**
   * Lays a bounce onto another's time line.
   *
   * @param there the bounce to move
   * @param map from this time line to the bounce's own
   * @param sampleRate rate of this time line
   * @param frames length of this time line
   */
  public Retimed(PcmSource there, TimeMap map, int sampleRate, long frames) {
    this.there = there;
    this.map = map;
    this.sampleRate = sampleRate;
    this.frames = frames;
    this.interpolator = new Interpolator(there);
  }

  @Override
  public int sampleRate() {
    return sampleRate;
  }

  @Override
  public int channels() {
    return there.channels();
  }

  @Override
  public long frames() {
    return frames;
  }

  @Override
  public void read(long from, double[][] into, int count) throws IOException {
    if (from < 0 || count < 0 || from + count > frames) {
      throw new IllegalArgumentException(
          "frames " + from + " + " + count + " are outside the clip of " + frames);
    }
    for (double[] channel : into) {
      Arrays.fill(channel, 0, count, 0);
    }
    for (MapPiece piece : map.pieces()) {
      long first = Math.max(from, firstFrame(piece.from()));
      long last = Math.min(from + count, firstFrame(piece.to()));
      if (last <= first) {
        continue;
      }
      double step = step(piece);
      double start =
          step == 1
              ? first + offsetFrames(piece)
              : piece.toOther(first / (double) sampleRate) * there.sampleRate();
      interpolator.read(start, step, into, (int) (first - from), (int) (last - first));
    }
  }

  private long firstFrame(double seconds) {
    return (long) Math.ceil(seconds * sampleRate - 1e-6);
  }

  private double step(MapPiece piece) {
    double step = there.sampleRate() / (sampleRate * piece.speedRatio());
    // Lengths of pieces are divided to get the ratio; their rounding must not start a resampler.
    return Math.abs(step - 1) * piece.seconds() * sampleRate < 1e-4 ? 1 : step;
  }

  private double offsetFrames(MapPiece piece) {
    double offset = (piece.otherFrom() - piece.from()) * sampleRate;
    return Math.abs(offset - Math.rint(offset)) < 1e-4 ? Math.rint(offset) : offset;
  }
}

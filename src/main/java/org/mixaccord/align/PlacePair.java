package org.mixaccord.align;

import java.io.IOException;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.audio.PcmSource;
import org.mixaccord.measure.MeasureTrack;

/**
 * One place of a song out of two bounces, so that nothing but the mix tells them apart: on one time
 * line, at one rate, with equally many frames and channels, the louder turned down until both are
 * equally loud over exactly this place, faded at the ends.
 *
 * <p>Mono is given as two equal channels where the other is stereo. Not safe for several threads.
 *
 * @param here the place from this bounce
 * @param there the same place from the other bounce
 * @param gainDb what was done to this bounce's level, 0 or less
 * @param otherGainDb what was done to the other's, 0 or less
 */
public record PlacePair(PcmSource here, PcmSource there, double gainDb, double otherGainDb) {
  /** Fades at both ends (seconds). */
  static final double FADE_SECONDS = 0.01;

  /** Lengths are whole cells of the loudness grid, so that it covers the place. */
  private static final int CELLS_PER_SECOND = 100;

  /**
   * Whether a place runs through in both bounces without a cut, so that it can be heard in both.
   *
   * @param map from this bounce to the other
   * @param place on this bounce
   */
  public static boolean runsThrough(TimeMap map, TimeSpan place) {
    return map.pieces().stream()
        .anyMatch(p -> p.from() <= place.from() + 0.01 && p.to() >= place.to() - 0.01);
  }

  /**
   * Takes the place out of both.
   *
   * @param here this bounce
   * @param there the other one
   * @param map from this bounce to the other
   * @param place on this bounce; at least 0.4 s, so that it has a loudness
   * @throws IOException if the samples cannot be read
   */
  public static PlacePair of(PcmSource here, PcmSource there, TimeMap map, TimeSpan place)
      throws IOException {
    int rate = here.sampleRate();
    FrameRange range = FrameRange.ofSeconds(place.from(), place.to(), rate, here.frames());
    long cells = range.frames() * CELLS_PER_SECOND / rate;
    long frames = cells * rate / CELLS_PER_SECOND;
    int channels = Math.max(here.channels(), there.channels());
    PcmSource laid = new Retimed(there, map, rate, here.frames());
    Function<Double, PcmSource> one = g -> new Clip(here, range.from(), frames, channels, g);
    Function<Double, PcmSource> two = g -> new Clip(laid, range.from(), frames, channels, g);
    OptionalDouble a = loudness(one.apply(1.0), frames);
    OptionalDouble b = loudness(two.apply(1.0), frames);
    double louder = a.isPresent() && b.isPresent() ? a.getAsDouble() - b.getAsDouble() : 0;
    double gainDb = Math.min(0, -louder);
    double otherGainDb = Math.min(0, louder);
    return new PlacePair(
        one.apply(factor(gainDb)), two.apply(factor(otherGainDb)), gainDb, otherGainDb);
  }

  private static OptionalDouble loudness(PcmSource clip, long frames) throws IOException {
    return MeasureTrack.measure(clip, share -> {}).ungatedLufs(new FrameRange(0, frames));
  }

  private static double factor(double db) {
    return Math.pow(10, db / 20);
  }

  /** A stretch of a bounce with a gain and fades. */
  private record Clip(PcmSource source, long first, long frames, int channels, double gain)
      implements PcmSource {
    @Override
    public int sampleRate() {
      return source.sampleRate();
    }

    @Override
    public void read(long from, double[][] into, int count) throws IOException {
      if (from < 0 || count < 0 || from + count > frames) {
        throw new IllegalArgumentException(
            "frames " + from + " + " + count + " are outside the clip of " + frames);
      }
      if (source.channels() == channels) {
        source.read(first + from, into, count);
      } else {
        double[][] mono = new double[source.channels()][count];
        source.read(first + from, mono, count);
        for (double[] channel : into) {
          System.arraycopy(mono[0], 0, channel, 0, count);
        }
      }
      for (int i = 0; i < count; i++) {
        double g = gain * fade(from + i);
        for (int c = 0; c < channels; c++) {
          into[c][i] *= g;
        }
      }
    }

    private double fade(long frame) {
      double length = FADE_SECONDS * sampleRate();
      return Math.min(1, Math.min((frame + 0.5) / length, (frames - frame - 0.5) / length));
    }
  }
}

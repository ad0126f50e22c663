package org.mixaccord.compare;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.mixaccord.align.Alignment;

/** Names what explains differences that run through the whole bounce. */
final class Causes {
  /** A level difference under this is not worth a name (dB), in clean and in lossy pairs. */
  private static final double LEAST_GAIN_DB = 0.02;

  private static final double LEAST_LOSSY_GAIN_DB = 0.1;

  /** Left-over within this of what the formats add, everywhere, is their dither (dB). */
  private static final double DITHER_WITHIN_DB = 8;

  /** Above this word length the rounding of another level is not worth a name beside it. */
  private static final int FINE_BITS = 16;

  private static final double LEAST_RANGE_DB = 0.05;

  private Causes() {}

  static List<Comparison.Cause> of(
      ComparisonInput input,
      Alignment alignment,
      CrossSpectra pass,
      List<Segment> segments,
      List<Difference> differences,
      double gain,
      boolean limited,
      double limiterRangeDb) {
    List<Comparison.Cause> causes = new ArrayList<>();
    boolean lossy = input.here().lossy() || input.there().lossy();
    double gainDb = 20 * Math.log10(gain);
    if (Math.abs(gainDb) >= (lossy ? LEAST_LOSSY_GAIN_DB : LEAST_GAIN_DB)) {
      add(
          causes,
          CauseCode.OVERALL_GAIN,
          "the whole bounce is "
              + Figures.plain(Math.abs(gainDb), 2)
              + (gainDb > 0 ? " dB louder" : " dB quieter"),
          gainDb);
    }
    if (limited) {
      add(
          causes,
          CauseCode.LIMITER,
          limiterRangeDb < LEAST_RANGE_DB
              ? "single peaks of the whole mix are turned down"
              : "the level of the whole mix follows the music within a range of "
                  + Figures.plain(limiterRangeDb, 1)
                  + " dB",
          limiterRangeDb);
    }
    if (!limited && !differences.contains(Difference.UNCHANGED)) {
      MixTone.of(segments.stream().map(Segment::sums).toList(), pass.bands, gain)
          .ifPresent(tone -> add(causes, CauseCode.TONE, tone.detail(), tone.changeDb()));
    }
    MonoFold.of(segments.stream().map(Segment::sums).toList())
        .ifPresent(
            fold ->
                causes.add(
                    new Comparison.Cause(CauseCode.MONO, fold.detail(), OptionalDouble.empty())));
    if (lossy) {
      String which =
          input.here().lossy() && input.there().lossy()
              ? "both files were stored with loss"
              : input.here().lossy()
                  ? "this file was stored with loss"
                  : "the other file was stored with loss";
      causes.add(new Comparison.Cause(CauseCode.LOSSY_CODING, which, OptionalDouble.empty()));
    }
    clocks(input, alignment, causes);
    if (alignment.polarity() < 0) {
      add(causes, CauseCode.POLARITY, "one file is the other turned upside down", -1);
    }
    if (alignment.channelsSwapped()) {
      causes.add(
          new Comparison.Cause(
              CauseCode.CHANNELS_SWAPPED, "left and right are exchanged", OptionalDouble.empty()));
    }
    dither(input, segments, differences, gain, lossy || limited, causes);
    return causes;
  }

  private static void clocks(
      ComparisonInput input, Alignment alignment, List<Comparison.Cause> causes) {
    int a = input.here().pcm().sampleRate();
    int b = input.there().pcm().sampleRate();
    if (alignment.wrongRate()) {
      add(
          causes,
          CauseCode.WRONG_RATE,
          "one file names the wrong sample rate: it plays "
              + Figures.plain(100 * Math.abs(1 / alignment.speedRatio() - 1), 2)
              + (alignment.speedRatio() < 1 ? " % faster" : " % slower"),
          alignment.speedRatio());
    } else if (a != b) {
      add(causes, CauseCode.RESAMPLED, a + " Hz here, " + b + " Hz there", a);
    }
    if (alignment.clockDiffers() && !alignment.wrongRate()) {
      double partsPerMillion = (alignment.speedRatio() - 1) * 1e6;
      add(
          causes,
          CauseCode.DRIFT,
          "the clock runs "
              + Figures.plain(Math.abs(partsPerMillion), 2)
              + " millionths "
              + (partsPerMillion > 0 ? "slower" : "faster"),
          partsPerMillion);
    }
  }

  private static void dither(
      ComparisonInput input,
      List<Segment> segments,
      List<Difference> differences,
      double gain,
      boolean othersExplain,
      List<Comparison.Cause> causes) {
    double format = input.here().ditherPower() + gain * gain * input.there().ditherPower();
    double left = 0;
    double frames = 0;
    for (int i = 0; i < segments.size(); i++) {
      if (differences.get(i) == Difference.UNCHANGED) {
        left += segments.get(i).sums().totalLeft(gain);
        frames += segments.get(i).sums().frames;
      }
    }
    int bits = Math.min(bits(input.here()), bits(input.there()));
    boolean roundedByLevel = bits > FINE_BITS && Math.abs(20 * Math.log10(gain)) >= LEAST_GAIN_DB;
    if (othersExplain || roundedByLevel || !(format > 0) || !(left > 0) || frames == 0) {
      return;
    }
    double level = 10 * Math.log10(left / frames);
    if (Math.abs(level - 10 * Math.log10(format)) < DITHER_WITHIN_DB) {
      add(
          causes,
          CauseCode.DITHER,
          "rounding or dither of " + bits + " bits at " + Figures.plain(level, 1) + " dB",
          level);
    }
  }

  private static int bits(ComparedFile file) {
    return file.floatingPoint() || file.lossy() ? Integer.MAX_VALUE : file.bits();
  }

  private static void add(
      List<Comparison.Cause> causes, CauseCode code, String detail, double value) {
    causes.add(new Comparison.Cause(code, detail, OptionalDouble.of(value)));
  }
}

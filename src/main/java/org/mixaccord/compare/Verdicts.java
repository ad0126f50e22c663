package org.mixaccord.compare;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.mixaccord.align.Alignment;
import org.mixaccord.align.TimeMap;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.audio.PcmSource;

/**
 * What the sums mean: overall gain, causes, a verdict for each segment, likeness.
 *
 * @param gain overall level, factor from there to here
 * @param causes what explains differences everywhere
 * @param differences one for each segment
 * @param likeness of the pair
 * @param floorDb what is normally left between these two files
 */
record Verdicts(
    double gain,
    List<Comparison.Cause> causes,
    List<Difference> differences,
    Likeness likeness,
    OptionalDouble floorDb) {
  private static final double NEARLY_ALL = 0.9;
  private static final double LEAST_SHARED = 0.1;
  private static final double SILENT_POWER = 1e-8;

  /** Left at a section's own level over left at the common one (power). */
  private static final double RIDDEN = 0.01;

  static Verdicts of(
      ComparisonInput input,
      Alignment alignment,
      CrossSpectra pass,
      List<Segment> segments,
      boolean identical)
      throws IOException {
    List<BandSums> sums = segments.stream().map(Segment::sums).toList();
    double gain =
        identical
            ? 1
            : MonoFold.of(sums)
                .map(MonoFold::gain)
                .orElseGet(() -> GainMatch.of(sums, pass.bands).gain());
    boolean lossy = input.here().lossy() || input.there().lossy();
    LimiterTrace limiter = LimiterTrace.of(pass, gain);
    OptionalDouble resting =
        !lossy && !identical && limiter.present()
            ? LimiterTrace.restingGain(pass)
            : OptionalDouble.empty();
    if (resting.isPresent()) {
      gain = resting.getAsDouble();
      limiter = LimiterTrace.of(pass, gain);
    }
    boolean resampled =
        input.here().pcm().sampleRate() != input.there().pcm().sampleRate()
            || alignment.speedRatio() != 1;
    double formatPower = input.here().ditherPower() + gain * gain * input.there().ditherPower();
    Judge judge =
        new Judge(
            pass, gain, formatPower, resampled || !aligned(alignment, pass), alignment.sure());
    List<Difference> differences = judge.byLeftOver(segments);
    boolean nothingNulls = !differences.contains(Difference.UNCHANGED);
    boolean limited = !lossy && differences.contains(Difference.CHANGED) && limiter.present();
    if (limited) {
      differences = limited(pass, judge, limiter, segments, differences, gain);
    } else if (nothingNulls && (lossy || segments.size() > 1)) {
      differences = judge.byLevels(levelled(segments, gain), lossy);
    }
    differences = new ArrayList<>(differences);
    if (!limited) {
      findSingleSamples(pass, segments, differences);
    }
    for (int i = 0; i < segments.size(); i++) {
      Segment s = segments.get(i);
      if (s.sharedSeconds() < LEAST_SHARED * s.seconds()) {
        differences.set(i, Difference.ONLY_HERE);
      }
    }
    OptionalDouble floor = floorDb(judge, segments, differences, gain);
    List<Comparison.Cause> causes =
        Causes.of(input, alignment, pass, segments, differences, gain, limited, limiter.rangeDb());
    if (causes.stream().anyMatch(c -> c.code() == CauseCode.TONE || c.code() == CauseCode.MONO)) {
      // What explains every section also settles those that levels alone could not.
      differences.replaceAll(d -> d == Difference.UNCERTAIN ? Difference.CHANGED : d);
    }
    Likeness likeness = likeness(input, alignment, pass, segments, differences, causes, identical);
    return new Verdicts(gain, causes, differences, likeness, floor);
  }

  /**
   * With a limiter at work, what nulls is unchanged and so is what nulls once the level may move;
   * of the rest, band levels decide where the limiter could be followed in them.
   */
  private static List<Difference> limited(
      CrossSpectra pass,
      Judge judge,
      LimiterTrace limiter,
      List<Segment> segments,
      List<Difference> byLeftOver,
      double gain) {
    List<BandSums> compared = segments.stream().map(s -> limiter.through(pass, s)).toList();
    List<Difference> byLevels = judge.byLevels(compared, true);
    List<Difference> out = new ArrayList<>(byLeftOver);
    for (int i = 0; i < out.size(); i++) {
      boolean ridden =
          nullsAtItsOwnLevel(segments.get(i).sums(), gain)
              || limiter.ridden(pass, segments.get(i), gain);
      if (out.get(i) != Difference.CHANGED || ridden) {
        continue;
      }
      if (LimiterTrace.explains(pass, segments.get(i), gain)) {
        out.set(i, Difference.UNCHANGED);
      } else if (limiter.followed()) {
        out.set(i, byLevels.get(i));
      }
    }
    return out;
  }

  /** A section that was turned up or down as a whole: a fader, not a limiter. */
  private static boolean nullsAtItsOwnLevel(BandSums sums, double gain) {
    double there = sums.totalThere();
    double product = java.util.Arrays.stream(sums.product).sum();
    return there > 0 && sums.totalLeft(product / there) < RIDDEN * sums.totalLeft(gain);
  }

  /**
   * Where some segments agree sample for sample, one altered sample is a change, however little it
   * weighs. If it lies on an edge that is usually left out, the segment touching it has it.
   */
  private static void findSingleSamples(
      CrossSpectra pass, List<Segment> segments, List<Difference> differences) {
    boolean someExact =
        pass.largestDifference > 0
            && segments.stream().anyMatch(s -> pass.differenceIn(s, true) == 0);
    for (boolean guarded : new boolean[] {true, false}) {
      if (!someExact || (!guarded && differences.contains(Difference.CHANGED))) {
        return;
      }
      for (int i = 0; i < segments.size(); i++) {
        if (pass.differenceIn(segments.get(i), guarded) > 0) {
          differences.set(i, Difference.CHANGED);
        }
      }
    }
  }

  private static boolean aligned(Alignment alignment, CrossSpectra pass) {
    return alignment.speedRatio() == 1 && !Double.isNaN(pass.largestDifference);
  }

  /** Sums with the other bounce at this one's level. */
  private static List<BandSums> levelled(List<Segment> segments, double gain) {
    List<BandSums> all = new ArrayList<>();
    for (Segment segment : segments) {
      BandSums out = new BandSums(segment.sums().here.length);
      out.add(segment.sums());
      for (int b = 0; b < out.here.length; b++) {
        out.there[b] *= gain * gain;
        out.product[b] *= gain;
      }
      all.add(out);
    }
    return all;
  }

  /** The formats' own noise, or what unchanged segments show if that is more. */
  private static OptionalDouble floorDb(
      Judge judge, List<Segment> segments, List<Difference> differences, double gain) {
    BandSums all = new BandSums(segments.isEmpty() ? 0 : segments.get(0).sums().here.length);
    BandSums quiet = new BandSums(all.here.length);
    for (int i = 0; i < segments.size(); i++) {
      all.add(segments.get(i).sums());
      if (differences.get(i) == Difference.UNCHANGED) {
        quiet.add(segments.get(i).sums());
      }
    }
    if (!(all.totalHere() > 0)) {
      return OptionalDouble.empty();
    }
    double floor = judge.floor(all);
    if (quiet.totalHere() > 0) {
      floor = Math.max(floor, quiet.totalLeft(gain) / quiet.totalHere());
    }
    return OptionalDouble.of(10 * Math.log10(floor));
  }

  private static Likeness likeness(
      ComparisonInput input,
      Alignment alignment,
      CrossSpectra pass,
      List<Segment> segments,
      List<Difference> differences,
      List<Comparison.Cause> causes,
      boolean identical)
      throws IOException {
    if (identical) {
      return Likeness.IDENTICAL;
    }
    boolean sameMaterial = straightThrough(input, alignment.timeMap());
    if (sameMaterial
        && pass.largestDifference == 0
        && alignment.polarity() == 1
        && !alignment.channelsSwapped()) {
      return Likeness.SAME_AUDIO;
    }
    double seconds = 0;
    double differing = 0;
    for (int i = 0; i < segments.size(); i++) {
      seconds += segments.get(i).seconds();
      differing += differences.get(i) == Difference.UNCHANGED ? 0 : segments.get(i).seconds();
    }
    if (differing == 0 && sameMaterial) {
      boolean level =
          causes.stream()
              .anyMatch(c -> c.code() == CauseCode.OVERALL_GAIN || c.code() == CauseCode.LIMITER);
      return level ? Likeness.LEVEL_ONLY : Likeness.REQUANTISED;
    }
    return differing > NEARLY_ALL * seconds ? Likeness.REWORK : Likeness.SECTIONS;
  }

  /** Whether the music runs through in one piece, with nothing but silence beside it. */
  private static boolean straightThrough(ComparisonInput input, TimeMap map) throws IOException {
    return map.pieces().size() == 1
        && silentEnds(input.here().pcm(), map.onlyHere())
        && silentEnds(input.there().pcm(), map.onlyThere());
  }

  private static boolean silentEnds(PcmSource pcm, List<TimeSpan> spans) throws IOException {
    double end = Comparer.seconds(pcm);
    for (TimeSpan span : spans) {
      boolean atAnEnd = span.from() < 1e-3 || span.to() > end - 1e-3;
      if (!atAnEnd || power(pcm, span) > SILENT_POWER) {
        return false;
      }
    }
    return true;
  }

  private static double power(PcmSource pcm, TimeSpan span) throws IOException {
    long from = Math.round(span.from() * pcm.sampleRate());
    long to = Math.min(pcm.frames(), Math.round(span.to() * pcm.sampleRate()));
    double[][] block = new double[pcm.channels()][1 << 14];
    double loudest = 0;
    for (long at = from; at < to; at += block[0].length) {
      int count = (int) Math.min(block[0].length, to - at);
      pcm.read(at, block, count);
      double sum = 0;
      for (double[] channel : block) {
        for (int i = 0; i < count; i++) {
          sum += channel[i] * channel[i];
        }
      }
      loudest = Math.max(loudest, sum / count);
    }
    return loudest;
  }
}

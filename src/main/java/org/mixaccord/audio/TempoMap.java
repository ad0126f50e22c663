package org.mixaccord.audio;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;

/**
 * Where the bars and beats of a song lie in time, through changes of tempo and of metre.
 *
 * <p>Places in the score are quarter notes (double, 0 at the map's beginning), times are seconds on
 * one bounce. Before the beginning the first tempo and metre go on backwards, after the last change
 * the last ones go on. A change of metre always begins a bar: the bar before it ends there, however
 * far it has come. A beat is a note of the metre's lower number.
 *
 * <p>Looking up costs the logarithm of the number of changes. Immutable.
 */
public final class TempoMap {
  /** What holds where a file says nothing: 120 quarter notes a minute, four of them a bar. */
  public static final double USUAL_MICROS = 500_000;

  private static final double NEAR = 1e-6;

  /**
   * From here on a quarter note lasts so long.
   *
   * @param quarter place, 0 or more
   * @param micros microseconds of a quarter note, more than 0
   */
  public record Tempo(double quarter, double micros) {
    public Tempo {
      check(quarter, micros > 0 && Double.isFinite(micros), "tempo of " + micros + " µs");
    }

    /** Quarter notes a minute. */
    public double bpm() {
      return 60e6 / micros;
    }
  }

  /**
   * From here on a bar has so many beats.
   *
   * @param quarter place, 0 or more
   * @param beats beats of a bar, 1 to 255
   * @param unit the note that is a beat: 1, 2, 4 … 64
   */
  public record Meter(double quarter, int beats, int unit) {
    public Meter {
      boolean known = beats >= 1 && beats <= 255 && unit >= 1 && unit <= 64;
      check(quarter, known && Integer.bitCount(unit) == 1, beats + "/" + unit);
    }

    double beatQuarters() {
      return 4.0 / unit;
    }

    double barQuarters() {
      return beats * beatQuarters();
    }
  }

  /**
   * A place by bar and beat.
   *
   * @param bar 1 for the first bar; 0 and less before it
   * @param beat 1 for the first beat, with its fraction
   */
  public record BarBeat(int bar, double beat) {}

  /**
   * One bar in time.
   *
   * @param beats seconds of its beats; the first is the barline
   */
  public record Bar(int number, List<Double> beats) {}

  private final double startSeconds;
  private final List<Tempo> tempos;
  private final List<Meter> meters;
  private final double[] tempoSeconds;
  private final int[] meterBars;

  private TempoMap(double startSeconds, List<Tempo> tempos, List<Meter> meters) {
    this.startSeconds = startSeconds;
    this.tempos = tempos;
    this.meters = meters;
    tempoSeconds = new double[tempos.size()];
    tempoSeconds[0] = startSeconds;
    for (int i = 1; i < tempoSeconds.length; i++) {
      Tempo before = tempos.get(i - 1);
      double quarters = tempos.get(i).quarter - before.quarter;
      tempoSeconds[i] = tempoSeconds[i - 1] + quarters * before.micros / 1e6;
    }
    meterBars = new int[meters.size()];
    meterBars[0] = 1;
    for (int i = 1; i < meterBars.length; i++) {
      Meter before = meters.get(i - 1);
      double bars = (meters.get(i).quarter - before.quarter) / before.barQuarters();
      meterBars[i] = meterBars[i - 1] + (int) Math.ceil(bars - NEAR);
    }
  }

  /**
   * A map out of changes in any order; of several at one place the last in the list counts.
   *
   * @param startSeconds time of quarter note 0, finite
   */
  public static TempoMap of(double startSeconds, List<Tempo> tempos, List<Meter> meters) {
    if (!Double.isFinite(startSeconds)) {
      throw new IllegalArgumentException("beginning at " + startSeconds);
    }
    TreeMap<Double, Tempo> byTempo = new TreeMap<>();
    byTempo.put(0.0, new Tempo(0, USUAL_MICROS));
    tempos.forEach(t -> byTempo.put(t.quarter + 0.0, t));
    TreeMap<Double, Meter> byMeter = new TreeMap<>();
    byMeter.put(0.0, new Meter(0, 4, 4));
    meters.forEach(m -> byMeter.put(m.quarter + 0.0, m));
    return new TempoMap(startSeconds, List.copyOf(byTempo.values()), List.copyOf(byMeter.values()));
  }

  /**
   * One tempo and one metre throughout.
   *
   * @param bpm beats a minute, more than 0
   * @param firstBarSeconds where bar 1 begins
   */
  public static TempoMap steady(double bpm, int beatsPerBar, double firstBarSeconds) {
    return of(
        firstBarSeconds, List.of(new Tempo(0, 60e6 / bpm)), List.of(new Meter(0, beatsPerBar, 4)));
  }

  /** The same map, beginning at another time. */
  public TempoMap from(double seconds) {
    return of(seconds, tempos, meters);
  }

  /** Time of quarter note 0. */
  public double startSeconds() {
    return startSeconds;
  }

  /** Tempos in order; the first lies at 0. */
  public List<Tempo> tempos() {
    return tempos;
  }

  /** Metres in order; the first lies at 0. */
  public List<Meter> meters() {
    return meters;
  }

  /** Seconds of a place in quarter notes. */
  public double seconds(double quarter) {
    int i = before(tempos.size(), k -> tempos.get(k).quarter <= quarter);
    return tempoSeconds[i] + (quarter - tempos.get(i).quarter) * tempos.get(i).micros / 1e6;
  }

  /** Seconds of a beat; beats past the bar's last run on. */
  public double seconds(int bar, double beat) {
    int i = segment(bar);
    Meter meter = meters.get(i);
    double barline = meter.quarter + (double) (bar - meterBars[i]) * meter.barQuarters();
    return seconds(barline + (beat - 1) * meter.beatQuarters());
  }

  /** Quarter notes at a time. */
  public double quarter(double seconds) {
    int i = before(tempos.size(), k -> tempoSeconds[k] <= seconds);
    return tempos.get(i).quarter + (seconds - tempoSeconds[i]) * 1e6 / tempos.get(i).micros;
  }

  /** Bar and beat at a time; a time a hair before a barline is the barline. */
  public BarBeat at(double seconds) {
    double quarter = quarter(seconds);
    int i = before(meters.size(), k -> meters.get(k).quarter <= quarter + NEAR);
    Meter meter = meters.get(i);
    double inside = quarter - meter.quarter;
    double bars = Math.floor(inside / meter.barQuarters() + NEAR);
    double beats = (inside - bars * meter.barQuarters()) / meter.beatQuarters();
    return new BarBeat(meterBars[i] + (int) bars, 1 + Math.max(0, beats));
  }

  /** Bars passed at a time, with the fraction of the present one; 1.0 is the first barline. */
  public double bars(double seconds) {
    BarBeat at = at(seconds);
    double begin = seconds(at.bar, 1);
    double length = seconds(at.bar + 1, 1) - begin;
    return at.bar + Math.min(1, Math.max(0, (seconds - begin) / length));
  }

  /** Seconds of bars with a fraction; the opposite of {@link #bars}. */
  public double secondsOfBars(double bars) {
    int bar = (int) Math.floor(bars + 1e-9);
    double begin = seconds(bar, 1);
    return begin + (bars - bar) * (seconds(bar + 1, 1) - begin);
  }

  /**
   * The bars of a stretch of time, from the first barline in it on.
   *
   * @param mostBeats after so many beats no further bar is begun
   */
  public List<Bar> bars(double fromSeconds, double toSeconds, int mostBeats) {
    List<Bar> bars = new ArrayList<>();
    int beats = 0;
    int number = at(fromSeconds).bar;
    if (seconds(number, 1) < fromSeconds - NEAR) {
      number++;
    }
    for (double begin = seconds(number, 1); begin < toSeconds && beats < mostBeats; number++) {
      double next = seconds(number + 1, 1);
      int segment = segment(number);
      int count = meters.get(segment).beats;
      List<Double> lines = new ArrayList<>();
      for (int beat = 1; beat <= count; beat++) {
        double at = beat == 1 ? begin : seconds(number, beat);
        if (at < toSeconds && (beat == 1 || at < next - NEAR)) {
          lines.add(at);
        }
      }
      bars.add(new Bar(number, List.copyOf(lines)));
      beats += lines.size();
      begin = next;
    }
    return bars;
  }

  private int segment(int bar) {
    return before(meters.size(), k -> meterBars[k] <= bar);
  }

  /** The last index at which a condition holds that holds up to some place; 0 if nowhere. */
  private static int before(int size, java.util.function.IntPredicate holds) {
    int low = 0;
    int high = size - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (holds.test(middle)) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }

  private static void check(double quarter, boolean good, String what) {
    if (!(quarter >= 0) || Double.isInfinite(quarter) || !good) {
      throw new IllegalArgumentException(what + " at quarter note " + quarter);
    }
  }
}

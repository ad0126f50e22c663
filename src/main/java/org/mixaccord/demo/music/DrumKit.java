package org.mixaccord.demo.music;

/**
 * A drum kit made of sines and shaped noise; four takes of each stroke, so none repeats at once.
 */
final class DrumKit {
  private static final int TAKES = 4;

  /** A stroke, with its level beside the others and its place between left (−1) and right. */
  enum Stroke {
    KICK(0.95, 0),
    SNARE(0.68, 0.04),
    RIM(0.42, 0.06),
    HAT(0.3, 0.32),
    OPEN_HAT(0.24, 0.32),
    RIDE(0.2, -0.34),
    CRASH(0.3, -0.2),
    HIGH_TOM(0.6, 0.3),
    MID_TOM(0.62, 0),
    LOW_TOM(0.66, -0.32),
    SHAKER(0.2, -0.4),
    CLAP(0.42, 0);

    private final double level;
    private final double pan;

    Stroke(double level, double pan) {
      this.level = level;
      this.pan = pan;
    }
  }

  private final double[][][][] takes = new double[Stroke.values().length][TAKES][][];

  DrumKit(long seed) {
    Dice dice = new Dice(seed);
    for (Stroke stroke : Stroke.values()) {
      for (int take = 0; take < TAKES; take++) {
        takes[stroke.ordinal()][take] = make(stroke, take, new Dice(dice.seed()));
      }
    }
  }

  /** A stroke of a strength 0 … 1 (about), taken by turns from the four takes. */
  Voice hit(Stroke stroke, double strength, int turn) {
    double[][] samples = takes[stroke.ordinal()][Math.floorMod(turn, TAKES)];
    return new Hit(samples, stroke.level * strength * (0.45 + 0.55 * strength), stroke.pan);
  }

  private double[][] make(Stroke stroke, int take, Dice dice) {
    return switch (stroke) {
      case KICK -> mono(kick(dice));
      case SNARE -> mono(snare(take, dice));
      case RIM -> mono(rim(dice));
      case HAT -> mono(hat(0.042, dice));
      case OPEN_HAT -> mono(hat(0.2, dice));
      case RIDE -> mono(ride(dice));
      case CRASH -> new double[][] {crash(dice), crash(dice)};
      case HIGH_TOM -> mono(tom(165, dice));
      case MID_TOM -> mono(tom(124, dice));
      case LOW_TOM -> mono(tom(88, dice));
      case SHAKER -> mono(shaker(dice));
      case CLAP -> new double[][] {clap(dice), clap(dice)};
    };
  }

  private static double[][] mono(double[] samples) {
    // The last 10 ms fall to nothing, so that no stroke ends with a step.
    int out = Math.min(samples.length, 480);
    for (int i = 0; i < out; i++) {
      samples[samples.length - 1 - i] *= i / (double) out;
    }
    return new double[][] {samples};
  }

  private static double[] seconds(double seconds) {
    return new double[(int) (seconds * Waves.RATE)];
  }

  private static double[] noise(double[] into, double fallSeconds, double level, Dice dice) {
    double fall = Waves.fall(fallSeconds);
    double now = level;
    for (int i = 0; i < into.length; i++) {
      into[i] += now * dice.bipolar();
      now *= fall;
    }
    return into;
  }

  private static void sweep(
      double[] into, double fromHz, double toHz, double bend, double fallSeconds, double level) {
    double bendFall = Waves.fall(bend);
    double fall = Waves.fall(fallSeconds);
    double extra = fromHz - toHz;
    double phase = 0;
    double now = level;
    double attack = 0;
    for (int i = 0; i < into.length; i++) {
      phase += (toHz + extra) / Waves.RATE;
      phase -= phase >= 1 ? 1 : 0;
      extra *= bendFall;
      attack += 0.03 * (1 - attack);
      into[i] += attack * now * Waves.sine(phase);
      now *= fall;
    }
  }

  private static void add(double[] into, double[] other) {
    for (int i = 0; i < Math.min(into.length, other.length); i++) {
      into[i] += other[i];
    }
  }

  private static double[] kick(Dice dice) {
    double[] out = seconds(0.5);
    sweep(out, 170 + 4 * dice.bipolar(), 49, 0.022, 0.13, 0.95);
    double[] click = noise(seconds(0.05), 0.004, 0.5, dice);
    add(out, Filter.lowPass(3800, 0.7).through(click));
    return out;
  }

  private static double[] snare(int take, Dice dice) {
    double[] out = seconds(0.42);
    double tune = 1 + 0.006 * (take - 1.5);
    sweep(out, 250 * tune, 186 * tune, 0.012, 0.075, 0.55);
    sweep(out, 390 * tune, 331 * tune, 0.01, 0.045, 0.28);
    double[] wires = noise(seconds(0.42), 0.1, 0.85, dice);
    wires = Filter.highPass(1300, 0.7).through(wires);
    wires = Filter.lowPass(7800, 0.7).through(wires);
    add(out, wires);
    double[] stick = noise(seconds(0.03), 0.004, 0.5, dice);
    add(out, Filter.bandPass(2600, 0.8).through(stick));
    return out;
  }

  private static double[] rim(Dice dice) {
    double[] out = seconds(0.16);
    sweep(out, 1750, 1690 + 15 * dice.bipolar(), 0.01, 0.016, 0.6);
    sweep(out, 520, 455, 0.01, 0.026, 0.55);
    double[] stick = noise(seconds(0.03), 0.005, 0.5, dice);
    add(out, Filter.bandPass(3200, 0.9).through(stick));
    return out;
  }

  private static void ring(
      double[] into, double[] hz, double fallSeconds, double level, Dice dice) {
    double fall = Waves.fall(fallSeconds);
    for (double one : hz) {
      double step = one * (1 + 0.025 * dice.bipolar()) / Waves.RATE;
      double phase = dice.unit();
      double now = level / hz.length;
      for (int i = 0; i < into.length; i++) {
        phase += step;
        phase -= phase >= 1 ? 1 : 0;
        into[i] += now * Waves.sine(phase);
        now *= fall;
      }
    }
  }

  private static final double[] CYMBAL_HZ = {
    3120, 3590, 4270, 4810, 5330, 6190, 6740, 7410, 8130, 8860, 9690, 10_480
  };

  private static double[] hat(double fallSeconds, Dice dice) {
    double[] out = seconds(0.06 + 4.5 * fallSeconds);
    noise(out, fallSeconds, 0.8, dice);
    ring(out, CYMBAL_HZ, fallSeconds * 0.8, 0.9, dice);
    out = Filter.highPass(6200, 0.7).through(out);
    return Filter.lowPass(12_500, 0.7).through(out);
  }

  private static double[] ride(Dice dice) {
    double[] out = seconds(1.5);
    noise(out, 0.3, 0.3, dice);
    ring(out, CYMBAL_HZ, 0.3, 0.45, dice);
    out = Filter.highPass(3600, 0.7).through(out);
    double[] tip = noise(seconds(0.04), 0.006, 0.8, dice);
    add(out, Filter.bandPass(5200, 0.8).through(tip));
    return out;
  }

  private static double[] crash(Dice dice) {
    double[] out = seconds(3.2);
    noise(out, 0.62, 0.55, dice);
    ring(out, CYMBAL_HZ, 0.7, 0.5, dice);
    out = Filter.highPass(2600, 0.6).through(out);
    out = Filter.lowPass(11_000, 0.7).through(out);
    return mono(out)[0];
  }

  private static double[] tom(double hz, Dice dice) {
    double[] out = seconds(0.75);
    sweep(out, hz * 1.6, hz, 0.03, 0.17, 0.8);
    double[] skin = noise(seconds(0.1), 0.018, 0.35, dice);
    add(out, Filter.lowPass(2200, 0.7).through(skin));
    return out;
  }

  private static double[] shaker(Dice dice) {
    double[] out = seconds(0.16);
    double up = 0;
    double fall = Waves.fall(0.03);
    double now = 1;
    for (int i = 0; i < out.length; i++) {
      up += 0.0016 * (1 - up);
      out[i] = up * now * 2.4 * dice.bipolar();
      now *= fall;
    }
    out = Filter.highPass(5200, 0.8).through(out);
    return Filter.lowPass(10_500, 0.7).through(out);
  }

  private static double[] clap(Dice dice) {
    double[] out = seconds(0.36);
    for (int hand = 0; hand < 4; hand++) {
      int late = (int) (Waves.RATE * (0.011 * hand + 0.001 * dice.bipolar() + 0.001));
      double[] one = noise(seconds(0.3), hand == 3 ? 0.07 : 0.007, 0.6, dice);
      for (int i = 0; i + late < out.length && i < one.length; i++) {
        out[i + late] += one[i];
      }
    }
    out = Filter.bandPass(1500, 0.9).through(out);
    return mono(out)[0];
  }
}

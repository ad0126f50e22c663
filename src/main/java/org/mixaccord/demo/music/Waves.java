package org.mixaccord.demo.music;

/**
 * Tables of one turn of a wave. Every sine and power goes through {@link StrictMath}, so that the
 * tables and all that is built from them are the same bits on every machine.
 */
final class Waves {
  static final double RATE = 48_000;
  private static final int SIZE = 2048;
  private static final int OCTAVES = 10;
  private static final double LOWEST_HZ = 27.5;
  private static final double[] SINE = sineTable();
  private static final double[][] SAW = sawTables(1.0);
  private static final double[][] BREATH = sawTables(0.9);

  private Waves() {}

  private static double[] sineTable() {
    double[] table = new double[SIZE + 1];
    for (int i = 0; i <= SIZE; i++) {
      table[i] = StrictMath.sin(2 * StrictMath.PI * i / SIZE);
    }
    return table;
  }

  private static double[][] sawTables(double slope) {
    double[][] tables = new double[OCTAVES][];
    for (int octave = 0; octave < OCTAVES; octave++) {
      double highestHz = LOWEST_HZ * (1 << (octave + 1));
      int harmonics = (int) Math.max(1, Math.min(400, 18_000 / highestHz));
      double[] amplitudes = new double[harmonics + 1];
      for (int n = 1; n <= harmonics; n++) {
        amplitudes[n] = 0.6 / StrictMath.pow(n, slope);
      }
      tables[octave] = table(amplitudes);
    }
    return tables;
  }

  /** One turn of the harmonics {@code amplitudes[1…]}, with one guard sample at the end. */
  static double[] table(double[] amplitudes) {
    double[] table = new double[SIZE + 1];
    for (int n = 1; n < amplitudes.length; n++) {
      double amplitude = amplitudes[n];
      for (int i = 0, at = 0; i < SIZE; i++, at = (at + n) & (SIZE - 1)) {
        table[i] += amplitude * SINE[at];
      }
    }
    table[SIZE] = table[0];
    return table;
  }

  /** Looks up a table; {@code phase} in turns, 0 or more. */
  static double at(double[] table, double phase) {
    double place = phase * SIZE;
    int whole = (int) place;
    int i = whole & (SIZE - 1);
    return table[i] + (place - whole) * (table[i + 1] - table[i]);
  }

  /** Sine of a phase in turns, 0 or more. */
  static double sine(double phase) {
    return at(SINE, phase);
  }

  /** A saw without harmonics above 18 kHz for notes up to the octave of {@code hz}. */
  static double[] saw(double hz) {
    return SAW[octave(hz)];
  }

  /** A softer saw, nearer to what vocal folds give. */
  static double[] breath(double hz) {
    return BREATH[octave(hz)];
  }

  private static int octave(double hz) {
    int octave = 0;
    while (octave < OCTAVES - 1 && hz > LOWEST_HZ * (1 << (octave + 1))) {
      octave++;
    }
    return octave;
  }

  /** Frequency of a key, 69 = 440 Hz; fractions are allowed. */
  static double hz(double key) {
    return 440 * StrictMath.pow(2, (key - 69) / 12);
  }

  /** Linear gain of a level in dB. */
  static double gain(double db) {
    return StrictMath.pow(10, db / 20);
  }

  /** Factor for each frame of an exponential fall to 1/e in so many seconds. */
  static double fall(double seconds) {
    return StrictMath.exp(-1 / (seconds * RATE));
  }
}

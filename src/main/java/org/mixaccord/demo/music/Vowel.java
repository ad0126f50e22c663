package org.mixaccord.demo.music;

/** Resonances of a mouth: frequencies and levels of the first four formants of a sung vowel. */
enum Vowel {
  A(new double[] {780, 1220, 2800, 3650}, new double[] {0, -4, -12, -16}),
  E(new double[] {470, 1950, 2750, 3700}, new double[] {0, -8, -11, -16}),
  I(new double[] {340, 2250, 2950, 3800}, new double[] {0, -11, -12, -17}),
  O(new double[] {480, 900, 2700, 3500}, new double[] {0, -6, -17, -21}),
  U(new double[] {360, 760, 2550, 3400}, new double[] {0, -9, -20, -24});

  static final int FORMANTS = 4;
  static final double[] WIDTHS_HZ = {95, 120, 170, 240};
  private final double[] hz;
  private final double[] gains;

  Vowel(double[] hz, double[] db) {
    this.hz = hz;
    this.gains = new double[db.length];
    for (int i = 0; i < db.length; i++) {
      gains[i] = Waves.gain(db[i]);
    }
  }

  double hz(int formant) {
    return hz[formant];
  }

  double gain(int formant) {
    return gains[formant];
  }

  /** The vowel of a written syllable: its last vowel letter. */
  static Vowel of(String syllable) {
    for (int i = syllable.length() - 1; i >= 0; i--) {
      for (Vowel vowel : values()) {
        if (vowel.name().charAt(0) == Character.toUpperCase(syllable.charAt(i))) {
          return vowel;
        }
      }
    }
    throw new IllegalArgumentException("a syllable without a vowel: " + syllable);
  }

  /** How strongly this mouth lets a frequency through. */
  double response(double atHz) {
    double sum = 0.02;
    for (int f = 0; f < FORMANTS; f++) {
      double away = (atHz - hz[f]) / (WIDTHS_HZ[f] * 0.9);
      sum += gains[f] / Math.sqrt(1 + away * away);
    }
    return sum;
  }
}

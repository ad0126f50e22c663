package org.mixaccord.measure;

/**
 * Energies of the twelve pitch classes (octaves folded together, A at 440 Hz the first) on the grid
 * of {@link BandGrid}: what stays alike when the same chords return in another sound.
 *
 * <p>Taken from 480 Hz, where lines 24 Hz apart still tell semitones, to 5 kHz; so mostly
 * overtones.
 */
final class PitchClasses {
  /** Number of classes. */
  static final int COUNT = 12;

  private static final double LOWEST_HZ = 480;
  private static final double HIGHEST_HZ = 5000;
  private static final double REFERENCE_HZ = 440;

  private final double framesPerCell;
  private final float[] energy;

  PitchClasses(int sampleRate, long frames) {
    this.framesPerCell = sampleRate / (double) BandGrid.CELLS_PER_SECOND;
    this.energy = new float[BandGrid.cells(sampleRate, frames) * COUNT];
  }

  /** Energies, {@code [cell · COUNT + class]}. */
  float[] energy() {
    return energy;
  }

  /** The class of each spectral line up to the highest that counts; −1 for lines that do not. */
  static int[] ofLines(double lineHz) {
    int[] classes = new int[(int) (HIGHEST_HZ / lineHz) + 1];
    for (int k = 0; k < classes.length; k++) {
      double hz = k * lineHz;
      long semitone = Math.round(COUNT * Math.log(hz / REFERENCE_HZ) / Math.log(2));
      classes[k] = hz < LOWEST_HZ ? -1 : (int) Math.floorMod(semitone, (long) COUNT);
    }
    return classes;
  }

  /** Adds the energies of a window to the cell that holds its middle. */
  void add(double middle, double[] classes) {
    int last = energy.length / COUNT - 1;
    int cell = (int) Math.max(0, Math.min(last, Math.floor(middle / framesPerCell)));
    for (int c = 0; c < COUNT; c++) {
      energy[cell * COUNT + c] += (float) classes[c];
    }
  }
}

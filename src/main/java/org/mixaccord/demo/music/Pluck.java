package org.mixaccord.demo.music;

/** A plucked string: a burst of noise going round a delay line that swallows its highs. */
final class Pluck implements Voice {
  private final double[] line;
  private final double gainLeft;
  private final double gainRight;
  private final double keep;
  private final double blend;
  private final double allPass;
  private final double muteFall;
  private int untilMute;
  private double muted = 1;
  private double lastRead;
  private double lastIn;
  private double lastOut;
  private int at;
  private int left;

  /**
   * A string.
   *
   * @param key pitch, 69 = 440 Hz
   * @param seconds until the finger damps it
   * @param strength 0 … 1, loud strings are also brighter
   * @param pan −1 left … 1 right
   * @param ringSeconds time in which the open string falls to 1/e
   */
  Pluck(double key, double seconds, double strength, double pan, double ringSeconds, Dice dice) {
    double hz = Waves.hz(key);
    double period = Waves.RATE / hz;
    blend = 0.32 - 0.16 * strength;
    // The averaging filter delays by `blend` of a frame; the rest is tuned by an all-pass.
    int frames = (int) (period - blend - 0.3);
    double rest = period - blend - frames;
    allPass = (1 - rest) / (1 + rest);
    line = new double[frames];
    keep = StrictMath.exp(-period / (ringSeconds * Waves.RATE));
    double soft = 0;
    double openness = 0.25 + 0.5 * strength;
    for (int i = 0; i < frames; i++) {
      soft += openness * (dice.bipolar() - soft);
      line[i] = soft;
    }
    int bridge = Math.max(1, frames / 6);
    for (int i = frames - 1; i >= bridge; i--) {
      line[i] -= 0.8 * line[i - bridge];
    }
    centre(line);
    double level = 0.55 * strength * (0.7 + 60 / period * 0.1);
    gainLeft = level * Math.sqrt((1 - pan) / 2);
    gainRight = level * Math.sqrt((1 + pan) / 2);
    untilMute = (int) (seconds * Waves.RATE);
    muteFall = Waves.fall(0.045);
    left = untilMute + (int) (0.35 * Waves.RATE);
  }

  private static void centre(double[] line) {
    double sum = 0;
    for (double value : line) {
      sum += value;
    }
    double power = 0;
    for (int i = 0; i < line.length; i++) {
      line[i] -= sum / line.length;
      power += line[i] * line[i];
    }
    double level = 0.3 / Math.sqrt(power / line.length);
    for (int i = 0; i < line.length; i++) {
      line[i] *= level;
    }
  }

  @Override
  public boolean add(double[] outLeft, double[] outRight, int from, int to) {
    int end = Math.min(to, from + left);
    for (int i = from; i < end; i++) {
      double read = line[at];
      double mean = keep * ((1 - blend) * read + blend * lastRead);
      lastRead = read;
      double tuned = allPass * (mean - lastOut) + lastIn;
      lastIn = mean;
      lastOut = tuned;
      line[at] = tuned;
      if (++at == line.length) {
        at = 0;
      }
      if (untilMute > 0) {
        untilMute--;
      } else {
        muted *= muteFall;
      }
      double out = tuned * muted;
      outLeft[i] += gainLeft * out;
      outRight[i] += gainRight * out;
    }
    left -= end - from;
    return left > 0;
  }
}

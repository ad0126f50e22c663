package org.mixaccord.demo.music;

import java.util.List;

/**
 * One sung phrase: a soft pulse and a little breath through four resonances that glide from vowel
 * to vowel, with glides between notes, late vibrato and consonants.
 */
final class Singer implements Voice {
  /**
   * A sung note.
   *
   * @param from first frame, counted from the start of the phrase
   * @param to frame at which it ends
   * @param key pitch, 69 = 440 Hz
   * @param syllable what is sung on it, such as "ma" or "sho"
   * @param strength 0 … 1
   */
  record Sung(int from, int to, double key, String syllable, double strength) {}

  private static final int STEP = 32;
  private static final double SCALE = 0.34;
  private final List<Sung> notes;
  private final Dice dice;
  private final double gainLeft;
  private final double gainRight;
  private final double cents;
  private final int end;
  private final double[] table;
  private final double[] hz = new double[Vowel.FORMANTS];
  private final double[] level = new double[Vowel.FORMANTS];
  private final double[] radius = new double[Vowel.FORMANTS];
  private final double[] a0 = new double[Vowel.FORMANTS];
  private final double[] a1 = new double[Vowel.FORMANTS];
  private final double[] y1 = new double[Vowel.FORMANTS];
  private final double[] y2 = new double[Vowel.FORMANTS];
  private double x1;
  private double x2;
  private int frame;
  private int note;
  private double pitch;
  private double phase;
  private double step;
  private double vibrato;
  private double drift;
  private double envelope;
  private double breath;
  private double airLow;

  /**
   * A phrase.
   *
   * @param notes in time order, not overlapping
   * @param pan −1 left … 1 right
   * @param cents detuning, for doubles
   */
  Singer(List<Sung> notes, double pan, double cents, Dice dice) {
    this.notes = List.copyOf(notes);
    this.dice = dice;
    this.cents = cents;
    gainLeft = Math.sqrt((1 - pan) / 2);
    gainRight = Math.sqrt((1 + pan) / 2);
    double highest = 0;
    for (Sung sung : notes) {
      highest = Math.max(highest, sung.key());
    }
    table = Waves.breath(Waves.hz(highest + 1));
    end = notes.get(notes.size() - 1).to() + (int) (0.5 * Waves.RATE);
    Sung first = notes.get(0);
    pitch = first.key() - 0.6;
    Vowel vowel = Vowel.of(first.syllable());
    for (int f = 0; f < Vowel.FORMANTS; f++) {
      hz[f] = vowel.hz(f);
      level[f] = vowel.gain(f);
      radius[f] = 1 - StrictMath.PI * Vowel.WIDTHS_HZ[f] / Waves.RATE;
    }
  }

  @Override
  public boolean add(double[] left, double[] right, int from, int to) {
    for (int i = from; i < to; i++) {
      if (frame % STEP == 0) {
        steer();
      }
      frame++;
      phase += step;
      phase -= phase >= 1 ? 1 : 0;
      double noise = dice.bipolar();
      airLow += 0.5 * (noise - airLow);
      double air = noise - airLow;
      double in = envelope * (Waves.at(table, phase) + 0.05 * air);
      double out = 0.12 * in;
      double edge = in - x2;
      x2 = x1;
      x1 = in;
      for (int f = 0; f < Vowel.FORMANTS; f++) {
        double y = a0[f] * edge + a1[f] * y1[f] - radius[f] * radius[f] * y2[f];
        y2[f] = y1[f];
        y1[f] = y;
        out += (f & 1) == 0 ? y : -y;
      }
      out = SCALE * out + breath * air;
      left[i] += gainLeft * out;
      right[i] += gainRight * out;
    }
    return frame < end;
  }

  /** Moves pitch, mouth and breath towards where they should be; every 32 frames. */
  private void steer() {
    while (note < notes.size() - 1 && frame >= notes.get(note + 1).from()) {
      note++;
    }
    Sung sung = notes.get(note);
    int into = frame - sung.from();
    double seconds = into / Waves.RATE;
    pitch += 0.022 * (sung.key() - pitch);
    vibrato += 5.3 * STEP / Waves.RATE;
    vibrato -= vibrato >= 1 ? 1 : 0;
    drift += 0.004 * (dice.sway() * 0.9 - drift);
    double late = Math.max(0, Math.min(1, (seconds - 0.22) * 2.5));
    double swing = 0.24 * late * Waves.sine(vibrato) + drift + cents / 100;
    double soundingHz = Waves.hz(pitch + swing);
    step = soundingHz / Waves.RATE;
    Vowel vowel = Vowel.of(sung.syllable());
    for (int f = 0; f < Vowel.FORMANTS; f++) {
      double aim = vowel.hz(f);
      if (f == 0) {
        // Singers open the mouth so that the first resonance never lies below the note.
        aim = Math.max(aim, 1.04 * soundingHz);
      }
      hz[f] += 0.02 * (aim - hz[f]);
      level[f] += 0.03 * (vowel.gain(f) - level[f]);
      double w = hz[f] / Waves.RATE;
      // The upper two resonances carry the words; a little more of them keeps the voice in front.
      double carry = f < 2 ? 1.2 : 1.9;
      a0[f] = (1 - radius[f] * radius[f]) * carry * level[f];
      a1[f] = 2 * radius[f] * Waves.sine(w + 0.25);
    }
    double aim = into >= 0 && frame < sung.to() ? sung.strength() : 0;
    double opening = consonant(sung.syllable(), seconds);
    double swell = 0.86 + 0.14 * Math.min(1, Math.max(0, seconds * 3));
    double rate = aim == 0 ? 0.012 : 0.03;
    envelope += rate * (aim * opening * swell - envelope);
    double hiss = hiss(sung.syllable(), seconds) * sung.strength();
    breath += 0.08 * (hiss - breath);
  }

  private static double consonant(String syllable, double seconds) {
    return switch (syllable.charAt(0)) {
      case 'm', 'n', 'l', 'r', 'w', 'y' -> seconds < 0.055 ? 0.4 : 1;
      case 'b', 'd', 'g', 'v' -> seconds < 0.04 ? 0.08 : 1;
      case 's', 'f', 'h', 't', 'k' -> seconds < 0.06 ? 0 : 1;
      default -> 1;
    };
  }

  private static double hiss(String syllable, double seconds) {
    return switch (syllable.charAt(0)) {
      case 's' -> seconds < 0.07 ? 0.035 : 0;
      case 'f', 'h' -> seconds < 0.06 ? 0.014 : 0;
      case 't', 'k' -> seconds > 0.025 && seconds < 0.045 ? 0.05 : 0;
      default -> 0;
    };
  }
}

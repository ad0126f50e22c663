package org.mixaccord.demo.music;

import java.util.Map;

/**
 * A chord as written on a lead sheet, such as {@code F#m7} or {@code A/C#}.
 *
 * @param bass pitch class of the lowest note, 0 = C
 * @param tones pitch classes of the four voices above it
 */
record Chord(int bass, int[] tones) {
  private static final Map<String, int[]> KINDS =
      Map.ofEntries(
          Map.entry("", new int[] {0, 4, 7, 12}),
          Map.entry("m", new int[] {0, 3, 7, 12}),
          Map.entry("7", new int[] {0, 4, 7, 10}),
          Map.entry("m7", new int[] {0, 3, 7, 10}),
          Map.entry("maj7", new int[] {0, 4, 7, 11}),
          Map.entry("sus4", new int[] {0, 5, 7, 12}),
          Map.entry("7sus4", new int[] {0, 5, 7, 10}),
          Map.entry("add9", new int[] {0, 2, 4, 7}),
          Map.entry("6", new int[] {0, 4, 7, 9}),
          Map.entry("m9", new int[] {2, 3, 7, 10}),
          Map.entry("maj9", new int[] {2, 4, 7, 11}),
          Map.entry("maj7#11", new int[] {4, 6, 7, 11}));

  static Chord of(String written) {
    int slash = written.indexOf('/');
    String upper = slash < 0 ? written : written.substring(0, slash);
    int rootLength =
        upper.length() > 1 && (upper.charAt(1) == '#' || upper.charAt(1) == 'b') ? 2 : 1;
    int root = pitchClass(upper.substring(0, rootLength));
    int[] steps = KINDS.get(upper.substring(rootLength));
    if (steps == null) {
      throw new IllegalArgumentException("no such chord: " + written);
    }
    int[] tones = new int[steps.length];
    for (int i = 0; i < steps.length; i++) {
      tones[i] = (root + steps[i]) % 12;
    }
    return new Chord(slash < 0 ? root : pitchClass(written.substring(slash + 1)), tones);
  }

  /** Chords separated by spaces, one a bar. */
  static Chord[] line(String written) {
    String[] words = written.split(" ");
    Chord[] chords = new Chord[words.length];
    for (int i = 0; i < words.length; i++) {
      chords[i] = of(words[i]);
    }
    return chords;
  }

  private static int pitchClass(String note) {
    return Math.floorMod(key(note + "4"), 12);
  }

  /** The key number of a written note such as {@code C#5}; A4 is 69. */
  static int key(String note) {
    int letter =
        switch (note.charAt(0)) {
          case 'C' -> 0;
          case 'D' -> 2;
          case 'E' -> 4;
          case 'F' -> 5;
          case 'G' -> 7;
          case 'A' -> 9;
          case 'B' -> 11;
          default -> throw new IllegalArgumentException("no such note: " + note);
        };
    int bend = note.charAt(1) == '#' ? 1 : note.charAt(1) == 'b' ? -1 : 0;
    int octave = Integer.parseInt(note.substring(bend == 0 ? 1 : 2));
    return 12 * (octave + 1) + letter + bend;
  }

  /** The bass note of this chord in the octave that begins at {@code lowest}. */
  int bassFrom(int lowest) {
    return lowest + Math.floorMod(bass - lowest, 12);
  }

  /**
   * Four keys for this chord that move as little as possible from the ones before.
   *
   * @param before the last voicing, four keys upwards
   * @param lowest no voice goes lower
   * @param highest no voice goes higher
   */
  int[] voicedAfter(int[] before, int lowest, int highest) {
    int[] best = null;
    double least = Double.MAX_VALUE;
    int[] order = new int[4];
    for (int turn = 0; turn < 24; turn++) {
      // The turn-th order of the four tones, each stacked closely above the one before.
      int rest = turn;
      boolean[] used = new boolean[4];
      for (int v = 0; v < 4; v++) {
        int pick = rest % (4 - v);
        rest /= 4 - v;
        int tone = 0;
        while (used[tone] || pick > 0) {
          if (!used[tone]) {
            pick--;
          }
          tone++;
        }
        used[tone] = true;
        order[v] = tones[tone];
      }
      for (int start = lowest; start < lowest + 12; start++) {
        if (Math.floorMod(start, 12) != order[0]) {
          continue;
        }
        int[] keys = {start, 0, 0, 0};
        for (int v = 1; v < 4; v++) {
          int gap = Math.floorMod(order[v] - keys[v - 1], 12);
          keys[v] = keys[v - 1] + (gap == 0 ? 12 : gap);
        }
        double cost = keys[3] > highest ? 100 + keys[3] : 0;
        for (int v = 0; v < 4; v++) {
          cost += Math.abs(keys[v] - before[v]);
        }
        cost += keys[1] - keys[0] < 3 ? 2.5 : 0;
        cost += keys[3] - keys[2] < 2 ? 1.5 : 0;
        if (cost < least) {
          least = cost;
          best = keys;
        }
      }
    }
    return best;
  }
}

package org.mixaccord.notes;

import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * The part a fault belongs to when nobody names it: plosives are the singer's, frets the guitar's.
 */
final class NoiseSource {
  private static final Set<String> VOICE =
      Set.of("plosive", "plosives", "breath", "breaths", "lip", "mouth", "saliva", "inhale");
  private static final Set<String> STRING = Set.of("string", "fret");

  private NoiseSource() {}

  static List<String> of(Segment segment, Pred pred) {
    if (pred.aspect().equals("noise")) {
      for (int i = 1; i < segment.items.size(); i++) {
        // "a hum under the piano"
        if (segment.items.get(i).is(Type.ELEM) && segment.items.get(i - 1).is(Type.REF)) {
          return List.of(segment.items.get(i).a());
        }
      }
      for (Item item : segment.items) {
        if (item.is(Type.QUOTE) || item.is(Type.HER) && !item.a().equals("me")) {
          // "a pop when he sings …"
          return List.of("vocals");
        }
        if (item.is(Type.PROP)) {
          String word = item.c().toLowerCase(Locale.ROOT).split(" ")[0];
          if (VOICE.contains(word)) {
            return List.of("vocals");
          }
          if (STRING.contains(word)) {
            return List.of("guitars");
          }
        }
      }
    }
    return List.of(Vocabulary.MIX);
  }
}

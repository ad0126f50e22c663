package org.mixaccord.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** The same wish, put together in every order a sentence allows, is read the same. */
class SaidAnotherWayTest {
  private static final NoteContext BAND = Marked.context("band");

  /** What is said and what is to be read out of it. */
  private record Said(String words, Set<String> reads) {}

  private static final List<Said> PARTS =
      List.of(
          new Said("the snare", Set.of("snare")),
          new Said("the bass", Set.of("bass")),
          new Said("the organ", Set.of("organ")),
          new Said("the bass and the kick", Set.of("bass", "kick")),
          new Said("the snare, the organ and the bass", Set.of("snare", "organ", "bass")));

  private static final List<Said> PLACES =
      List.of(
          new Said("", Set.of("[]")),
          new Said("in C2", Set.of("[Chorus 2]")),
          new Said("in verse 1", Set.of("[Verse 1]")),
          new Said("in the bridge", Set.of("[Bridge]")),
          new Said("in C1 and C3", Set.of("[Chorus 1, Chorus 3]")),
          new Said("from the bridge to the outro", Set.of("[Bridge, Solo, Chorus 3, Outro]")));

  private static final List<Said> AMOUNTS =
      List.of(
          new Said("", Set.of("")),
          new Said("2 dB", Set.of("2 dB")),
          new Said("1.5 dB", Set.of("1.5 dB")));

  /** P: the parts, L: the place, A: the amount. */
  private static final List<String> UP =
      List.of(
          "P up A L",
          "P up A L please",
          "L P up A",
          "L, P up A",
          "bring P up A L",
          "can you bring P up A L?",
          "bring up P A L",
          "L bring P up A",
          "P A louder L",
          "could P be A louder L?",
          "L P could be A louder",
          "turn P up A L",
          "I'd like P A louder L",
          "raise P A L",
          "make P A louder L",
          "let's have P up A L");

  private static final List<String> DOWN =
      List.of(
          "P down A L",
          "L P down A",
          "L, P down A",
          "take P down A L",
          "pull P down A L",
          "lower P A L",
          "P A quieter L",
          "could P come down A L?",
          "L could P come down A?",
          "turn P down A L",
          "I'd like P A quieter L",
          "make P A quieter L",
          "please drop P by A L");

  private static final List<String> BRIGHTER =
      List.of(
          "make P brighter L",
          "L make P brighter",
          "P brighter L please",
          "could P be brighter L?",
          "I'd like P brighter L",
          "can we get P brighter L",
          "brighten P up L",
          "brighten up P L");

  private static final List<String> DRIER =
      List.of(
          "less reverb on P L",
          "L less reverb on P",
          "P drier L",
          "can we have P drier L?",
          "make P drier L please",
          "P could use less reverb L",
          "P has too much reverb L",
          "take some reverb off P L",
          "there's too much reverb on P L",
          "L there's too much reverb on P");

  private static final List<String> OUT =
      List.of(
          "mute P L",
          "L mute P",
          "take P out L",
          "L take P out",
          "can we lose P L?",
          "P out L please",
          "leave P out L",
          "no P L, please",
          "get rid of P L");

  @Test
  void aStepUpIsReadInEveryOrder() {
    assertReadAlike(UP, "level up", AMOUNTS);
  }

  @Test
  void aStepDownIsReadInEveryOrder() {
    assertReadAlike(DOWN, "level down", AMOUNTS);
  }

  @Test
  void aWishForASoundIsReadInEveryOrder() {
    assertReadAlike(BRIGHTER, "highs up", AMOUNTS.subList(0, 1));
  }

  @Test
  void lessOfAnEffectIsReadInEveryOrder() {
    assertReadAlike(DRIER, "reverb down", AMOUNTS.subList(0, 1));
  }

  @Test
  void leavingAPartOutIsReadInEveryOrder() {
    assertReadAlike(OUT, "mute out", AMOUNTS.subList(0, 1));
  }

  private static void assertReadAlike(List<String> orders, String wish, List<Said> amounts) {
    List<String> wrong = new ArrayList<>();
    int read = 0;
    for (String order : orders) {
      for (Said parts : PARTS) {
        for (Said place : PLACES) {
          for (Said amount : amounts) {
            // "drop the bass" alone asks to leave it out
            boolean bare = amount.words().isEmpty() && order.contains(" by A");
            if (bare) {
              continue;
            }
            String text = said(order, parts.words(), place.words(), amount.words());
            Set<String> expected = new TreeSet<>();
            for (String part : parts.reads()) {
              expected.add(
                  String.join(
                      " ",
                      part,
                      wish,
                      amount.reads().iterator().next(),
                      place.reads().iterator().next()));
            }
            read++;
            Set<String> found = wishes(text);
            if (!found.equals(expected)) {
              wrong.add(text + " -> " + found);
            }
          }
        }
      }
    }
    String all = wrong.size() + " of " + read;
    assertEquals(List.of(), wrong.subList(0, Math.min(9, wrong.size())), all);
  }

  private static String said(String order, String parts, String place, String amount) {
    return order
        .replace("P", parts)
        .replace("L", place)
        .replace("A", amount)
        .replaceAll("^[ ,]+", "")
        .replaceAll(" +", " ")
        .replaceAll(" (?=[?,])", "")
        .strip();
  }

  private static Set<String> wishes(String text) {
    Set<String> found = new TreeSet<>();
    for (RequestedChange c : NoteReader.read(text, BAND).changes()) {
      String amount =
          c.amount()
              .filter(a -> a.value().isPresent())
              .map(a -> number(a.value().getAsDouble()) + " " + a.unit().get())
              .orElse("");
      found.add(
          String.join(
              " ", c.element(), c.aspect() + " " + c.direction(), amount, where(c.where())));
    }
    return found;
  }

  private static String where(Where where) {
    return where.fromSeconds().isPresent() ? "a time" : where.sections().toString();
  }

  private static String number(double value) {
    return value == Math.rint(value) ? String.valueOf((long) value) : String.valueOf(value);
  }
}

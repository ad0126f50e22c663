package org.mixaccord.notes;

import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Writers who say that they do not know which part, where or which way: "tuck it down, I can't tell
 * which of the two it is". What they ask for is asked back.
 */
final class Unsure {
  /** How far a doubt reaches to what it is about, in letters. */
  private static final int NEAR = 120;

  private static final String NOT_KNOWN =
      "\\b(?:(?:can'?t|cannot|couldn'?t|can never|could never|hard to)"
          + " (?:honestly |really |quite )?(?:tell|say|remember|recall|decide|work out|figure out)"
          + "|(?:don'?t|do not|didn'?t|did not) (?:really |quite )?(?:know|remember|recall|say)"
          + "|dunno|not sure|unsure|no idea|no clue|forgot|forget|never know)\\b";

  private static final Pattern WHICH =
      Pattern.compile(
          NOT_KNOWN
              + "[^.?!\\n]{0,25}\\b(?:which(?! way)|whether it'?s|whether its|if it'?s|if its"
              + "|(?:its|their|the) names?\\b|what it'?s called|what its called)"
              + "|\\b(?:you'?ll|you will|you) know which"
              + "|\\bguess which\\b|\\btake your pick\\b");

  private static final Pattern WHERE =
      Pattern.compile(
          NOT_KNOWN
              + "[^.?!\\n]{0,25}\\bwhere\\b"
              + "|\\b(?:lost|forgot|forgotten|didn'?t (?:write|note)|can'?t find)\\b[^.?!\\n]{0,40}"
              + "\\b(?:time|timestamp|time code|where)\\b");

  private static final Pattern WAY =
      Pattern.compile(
          NOT_KNOWN
              + "[^.?!\\n]{0,25}\\b(?:which way|how|what exactly|what to|more or less|up or down"
              + "|louder or quieter)\\b"
              + "|\\bhow\\? (?:no idea|not sure|don'?t know|dunno)");

  /** Without one of these nobody doubts; they are found faster than the patterns. */
  private static final List<String> SIGNS =
      List.of(
          "know",
          "tell",
          "say",
          "sure",
          "idea",
          "clue",
          "forg",
          "remember",
          "recall",
          "decide",
          "work out",
          "figure",
          "dunno",
          "guess",
          "pick",
          "lost",
          "didn",
          "find",
          "how?");

  private Unsure() {}

  /** Asks back what its writer could not say. */
  static void ask(List<Draft> changes, String text) {
    if (changes.isEmpty()) {
      return;
    }
    String said = text.replace('\u2019', '\'').toLowerCase(Locale.ROOT);
    if (said.length() != text.length() || SIGNS.stream().noneMatch(said::contains)) {
      return;
    }
    ask(changes, said, WHICH, NoteQuestion.About.PART);
    ask(changes, said, WHERE, NoteQuestion.About.PLACE);
    ask(changes, said, WAY, NoteQuestion.About.WISH);
  }

  private static void ask(
      List<Draft> changes, String said, Pattern doubt, NoteQuestion.About about) {
    Matcher matcher = doubt.matcher(said);
    while (matcher.find()) {
      Draft meant = nearest(changes, matcher.start(), matcher.end());
      boolean known = meant == null || about == NoteQuestion.About.PLACE && !meant.places.isEmpty();
      if (!known && meant.asks == null) {
        meant.asks = about;
      }
    }
  }

  private static Draft nearest(List<Draft> changes, int from, int to) {
    Draft nearest = null;
    int least = NEAR;
    for (Draft draft : changes) {
      int away = Math.max(0, Math.max(from - draft.end, draft.start - to));
      if (away < least) {
        least = away;
        nearest = draft;
      }
    }
    return nearest;
  }
}

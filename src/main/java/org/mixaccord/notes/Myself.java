package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Where writers speak of what they sing or play: "too much reverb on me", "I'm dull in the
 * choruses". Whoever says no more of themselves sings.
 */
final class Myself {
  private static final String SINGER = "lead vocal";

  /** What a player says who has told which part is theirs. */
  private static final Pattern PLAYER =
      Pattern.compile(
          "\\b(i'?m|i am|i sound|i play|i come|i sit|i get|we are|we'?re|(?:on|off|of|for) me|mine|my part"
              + "|my playing|i'?d be)\\b",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern LOST =
      Pattern.compile(
          "\\b(i'?m|i am|i sound|i come in) (way |a bit |a little |much |far )?"
              + "(too (quiet|loud|low)|buried|lost (in|under|behind)|drowned)"
              + "|\\bi (fall|drop|slip|sink|get lost|disappear|vanish) (behind|under|below|into|in)\\b",
          Pattern.CASE_INSENSITIVE);

  /** "The reverb on me", but not "it grows on me". */
  private static final Pattern ON_ME =
      Pattern.compile(
          "(?<!\\b(?:grow|grows|growing|grew|easy|hard|dawned|dawns|works|worked|died|blame it|wears"
              + "|wore) )\\b(on|off) me\\b",
          Pattern.CASE_INSENSITIVE);

  /** Before a word for a sound: "I'm a bit dull", "I sound slightly too bright". */
  private static final Pattern I_AM =
      Pattern.compile(
          "\\b(i'?m|i am|i sound|i come across|i come out|i stick|i get"
              + "|(can|could|should|may) i( be)?|i (should|could|must|need to|want to|have to)( be)?"
              + "|i'?d (like|love) to be|i would (like|love) to be|makes me( sound)?|have me|got me)"
              + "(( way| a bit| a little| a touch| a tad| much| far| slightly| too| so| very| really"
              + "| kind of| sort of| quite| just| all| sounding)*) *$",
          Pattern.CASE_INSENSITIVE);

  /** Before words for timing: "I rush", "I always come in late". */
  private static final Pattern I_DO =
      Pattern.compile("\\bi( always| still| just| kind of| sort of)? *$", Pattern.CASE_INSENSITIVE);

  private static final Pattern MY_TIMING =
      Pattern.compile("\\bmy (timing|pitch|tuning|phrasing|diction)\\b", Pattern.CASE_INSENSITIVE);

  private static final EnumSet<Type> SOUNDS = EnumSet.of(Type.QUAL, Type.PRED, Type.LOST, Type.TOO);

  private static final Set<String> PLAYED = Set.of("timing", "tuning");

  private static final EnumSet<Type> BEFORE_ME =
      EnumSet.of(Type.PRED, Type.VERB, Type.UP, Type.DOWN, Type.LOST, Type.QUAL, Type.KEEP);

  private static final EnumSet<Type> AFTER_ME =
      EnumSet.of(Type.PRED, Type.TOO, Type.UP, Type.DOWN, Type.LOST, Type.QUAL);

  private Myself() {}

  /** The part writers mean by themselves in this clause, if they do; empty if not. */
  static String in(Segment segment, List<Item> read, String note, String speaker) {
    String text = note.replace('\u2019', '\'');
    String words = text.substring(segment.from, segment.to);
    if (!speaker.isEmpty()) {
      return PLAYER.matcher(words).find() ? speaker : "";
    }
    String said = words.toLowerCase(Locale.ROOT);
    boolean speaks =
        said.contains("me")
            || said.contains("my ")
            || said.contains("i ")
            || said.contains("i'")
            || said.contains("im");
    boolean sings =
        speaks
            && (LOST.matcher(words).find()
                || ON_ME.matcher(words).find()
                || MY_TIMING.matcher(words).find()
                || sounds(segment, read, text));
    return sings ? SINGER : "";
  }

  private static boolean sounds(Segment segment, List<Item> read, String text) {
    for (Item item : read) {
      boolean said = SOUNDS.contains(item.type()) && item.start() > segment.from;
      String before = text.substring(segment.from, item.start());
      boolean played = item.is(Type.PRED) && PLAYED.contains(item.a()) && item.b().contains("seen");
      boolean does = (played || item.is(Type.DOMINATES)) && I_DO.matcher(before).find();
      if (does || said && I_AM.matcher(before).find()) {
        return true;
      }
    }
    return false;
  }

  /** "Turn me up", "more me", "leave me raw", not "give me more". */
  static boolean isTurned(List<Item> read, Item me) {
    int at = read.indexOf(me);
    Type before = at > 0 ? read.get(at - 1).type() : Type.FILL;
    Type after = at + 1 < read.size() ? read.get(at + 1).type() : Type.FILL;
    boolean more = before == Type.MORE || before == Type.NOTENOUGH;
    return more || BEFORE_ME.contains(before) || AFTER_ME.contains(after);
  }
}

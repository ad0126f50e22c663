package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.StringTokenizer;

/**
 * How likely a change was asked for in the way it was read. What is more likely misread is no
 * change: its words go on as a remark.
 *
 * <p>A logistic regression (D. R. Cox, "The regression analysis of binary sequences", 1958) on what
 * is seen of a change: whether its part was named or carried over, how much was said, how the
 * clause hangs on others. The weights are in {@code certainty.tsv}, fitted on marked notes.
 */
final class Certainty {
  /** A change less likely right than this takes more away from a reading than it gives (F1). */
  static final double ENOUGH = 0.33;

  private static final int LONG_CLAUSE = 15;
  private static final int SHORT_CLAUSE = 3;
  private static final int FEW_WORDS = 5;
  private static final int MANY_WORDS = 12;

  /** Kinds of words that carry a wish; the first of them in a clause tells how it was said. */
  private static final EnumSet<Type> SAID =
      EnumSet.of(
          Type.COVERS,
          Type.LOST,
          Type.DOMINATES,
          Type.TOOMUCH,
          Type.MORE,
          Type.LESS,
          Type.UP,
          Type.DOWN,
          Type.OUT,
          Type.CUT,
          Type.IN,
          Type.PRED,
          Type.QUAL,
          Type.DISLIKE,
          Type.VAGUEAIM,
          Type.PROP);

  private static final Map<String, Double> WEIGHTS = load();

  private final List<Draft> drafts;
  private final List<Segment> segments;
  private final String text;

  /** The line each segment stands on; a list says each of its points for itself. */
  private final int[] lines;

  Certainty(List<Draft> drafts, List<Segment> segments, String text) {
    this.drafts = drafts;
    this.segments = segments;
    this.text = text;
    this.lines = new int[segments.size()];
    for (int i = 1; i < lines.length; i++) {
      lines[i] = lines[i - 1] + (segments.get(i).newLine ? 1 : 0);
    }
  }

  /** The changes that were more likely asked for than not, in their order. */
  List<Draft> sure() {
    List<Draft> sure = new ArrayList<>();
    for (int i = 0; i < drafts.size(); i++) {
      boolean asks = drafts.get(i).asks != null;
      // what is asked back is not guessed
      if (asks || isDenied(drafts.get(i)) || isHeardAt(drafts.get(i)) || of(i) >= ENOUGH) {
        sure.add(drafts.get(i));
      }
    }
    return sure;
  }

  /** "3:12, somebody's chair creaks": whoever names the moment has heard it. */
  private static boolean isHeardAt(Draft draft) {
    return draft.pred.aspect().equals("noise")
        && draft.places.stream().anyMatch(p -> p.is(Place.Kind.TIME));
  }

  /** "Anna wants the harp up, I want it down": becomes a question. */
  private boolean isDenied(Draft draft) {
    return drafts.stream()
        .anyMatch(
            o ->
                o != draft
                    && o.sentence == draft.sentence
                    && o.element.equals(draft.element)
                    && (goesAgainst(o.pred, draft.pred)
                        || isGone(o.pred) && isRaised(draft.pred)
                        || isGone(draft.pred) && isRaised(o.pred)));
  }

  private static boolean goesAgainst(Pred one, Pred other) {
    return one.aspect().equals(other.aspect())
        && !one.direction().equals(other.direction())
        && Contradictions.opposed(one, other);
  }

  private static boolean isGone(Pred pred) {
    return pred.aspect().equals("mute") && pred.direction().equals("out");
  }

  private static boolean isRaised(Pred pred) {
    return pred.aspect().equals("level") && pred.direction().equals("up");
  }

  /** From 0 to 1. */
  private double of(int i) {
    double sum = 0;
    for (Map.Entry<String, Double> seen : features(i).entrySet()) {
      sum += WEIGHTS.getOrDefault(seen.getKey(), 0.0) * seen.getValue();
    }
    return 1 / (1 + Math.exp(-sum));
  }

  /** What is seen of a change, by name; 1 for yes. */
  Map<String, Double> features(int i) {
    Draft draft = drafts.get(i);
    Segment segment = segments.get(draft.segment);
    Map<String, Double> seen = new LinkedHashMap<>();
    boolean carried = draft.impliedElement;
    boolean mix = draft.element.equals(Vocabulary.MIX);
    String aspect = draft.pred.aspect();
    boolean level = aspect.equals("level");
    Amount amount = draft.pred.amount();
    boolean word = amount != null && amount.word().isPresent();
    boolean number = amount != null && !word;
    long unknown = segment.items.stream().filter(x -> x.is(Type.UNKNOWN)).count();
    seen.put("always", 1.0);
    put(seen, "carried part", carried);
    put(seen, "whole mix", mix);
    put(seen, "mere up or down", draft.pred.generic());
    put(seen, "names a fault", draft.pred.complaint());
    put(seen, "unclear", draft.pred.unclear());
    put(seen, "a number", number);
    put(seen, "a word of degree", word);
    put(seen, "unknown word", unknown >= 1);
    put(seen, "two unknown words", unknown >= 2);
    long clause = drafts.stream().filter(d -> d.segment == draft.segment).count();
    long sentence = drafts.stream().filter(d -> d.sentence == draft.sentence).count();
    put(seen, "others in the clause", clause > 1);
    put(seen, "others in the sentence", sentence > 1);
    int line = lines[draft.segment];
    long beside = drafts.stream().filter(d -> lines[d.segment] == line).count();
    put(seen, "others in the line", beside > sentence);
    double each = lineWords(line) / (double) beside;
    put(seen, "few words each", each < FEW_WORDS);
    put(seen, "many words each", each >= MANY_WORDS);
    put(seen, "after a comma", segment.joint == Segment.Joint.COMMA);
    put(seen, "under a heading", segment.joint == Segment.Joint.HEADED);
    put(seen, "after and", segment.joint == Segment.Joint.AND);
    put(seen, "after but", segment.joint == Segment.Joint.BUT);
    put(seen, "two parts", segment.targets.size() > 1);
    put(seen, "carried place", !draft.places.isEmpty() && draft.impliedPlace);
    put(seen, "own place", !draft.places.isEmpty() && !draft.impliedPlace);
    put(seen, aspect, true);
    put(seen, "ought", segment.items.stream().anyMatch(Certainty::ought));
    put(seen, "not", segment.has(Type.NEG));
    int words = words(text.substring(segment.from, segment.to));
    put(seen, "long clause", words >= LONG_CLAUSE);
    put(seen, "short clause", words <= SHORT_CLAUSE);
    Draft before = i > 0 ? drafts.get(i - 1) : null;
    boolean same =
        before != null && before.sentence == draft.sentence && before.element.equals(draft.element);
    put(seen, "same part before", same);
    put(seen, "not the first", before != null && lines[before.segment] == line);
    put(seen, "carried part, level", carried && level);
    put(seen, "carried part, mute", carried && aspect.equals("mute"));
    put(seen, "carried part, mix", carried && mix);
    put(seen, "level by an amount", level && amount != null);
    Type said = said(segment);
    put(seen, "masks", said == Type.COVERS || said == Type.TOOMUCH || said == Type.DOMINATES);
    put(seen, "up or down", said == Type.UP || said == Type.DOWN);
    put(seen, "more or less", said == Type.MORE || said == Type.LESS);
    put(seen, "comes in", said == Type.IN);
    return seen;
  }

  private int lineWords(int line) {
    int from = -1;
    int to = -1;
    for (int i = 0; i < lines.length; i++) {
      if (lines[i] == line) {
        from = from < 0 ? segments.get(i).from : from;
        to = Math.max(to, segments.get(i).to);
      }
    }
    return from < 0 ? 0 : words(text.substring(from, to));
  }

  /** How many words there are; a laugh or a "please" is none. */
  private static int words(String text) {
    int words = 0;
    StringTokenizer each = new StringTokenizer(text.toLowerCase(Locale.ROOT));
    while (each.hasMoreTokens()) {
      words += Courtesies.is(each.nextToken()) ? 0 : 1;
    }
    return words;
  }

  private static boolean ought(Item item) {
    return item.is(Type.AUX) && item.a().equals("must");
  }

  private static Type said(Segment segment) {
    for (Item item : segment.items) {
      if (SAID.contains(item.type())) {
        return item.type();
      }
    }
    return Type.FILL;
  }

  private static void put(Map<String, Double> seen, String name, boolean yes) {
    if (yes) {
      seen.put(name, 1.0);
    }
  }

  private static Map<String, Double> load() {
    Map<String, Double> weights = new HashMap<>();
    Lexicon.lines("certainty.tsv", (f, l) -> weights.put(f[0], Double.parseDouble(f[1])));
    return Map.copyOf(weights);
  }
}

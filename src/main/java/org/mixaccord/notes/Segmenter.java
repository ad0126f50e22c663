package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.mixaccord.notes.Segment.Joint;

/** Cuts the items of a note into sentences and these into segments. */
final class Segmenter {
  /** Words that make a segment say something about a part. */
  static final EnumSet<Type> SAYING =
      EnumSet.of(
          Type.UP,
          Type.DOWN,
          Type.CUT,
          Type.OUT,
          Type.IN,
          Type.MORE,
          Type.LESS,
          Type.QUAL,
          Type.PRED,
          Type.LOST,
          Type.COVERS,
          Type.DOMINATES,
          Type.TOOMUCH,
          Type.NOTENOUGH,
          Type.MATCH,
          Type.LEFT,
          Type.RIGHT,
          Type.CENTRE,
          Type.SWAP,
          Type.KEEP,
          Type.DISLIKE,
          Type.ADD);

  private static final EnumSet<Type> MOVED =
      EnumSet.of(Type.UP, Type.DOWN, Type.NUMBER, Type.AMOUNT, Type.OUT, Type.DEG);

  /** No thought is longer; what is done with one grows faster than its length. */
  static final int MOST_ITEMS = 64;

  private final List<Item> items;
  private final List<Segment> segments = new ArrayList<>();
  private Segment current = new Segment();
  private int sentence;

  private Segmenter(List<Item> items) {
    this.items = items;
  }

  /**
   * A note in pieces.
   *
   * @param segments its segments, in order
   * @param chatter begin and end of sentences in which no word has a meaning here
   * @param repair whether something is to be put right, whatever it is
   */
  record Pieces(List<Segment> segments, List<int[]> chatter, boolean repair) {}

  static Pieces split(List<Item> placed) {
    Segmenter segmenter = new Segmenter(Sieve.of(placed));
    for (int i = 0; i < segmenter.items.size(); i++) {
      segmenter.take(i);
    }
    segmenter.close(Joint.SENTENCE);
    boolean repair = placed.stream().anyMatch(x -> x.is(Type.REPAIR));
    return new Pieces(segmenter.segments, own(segmenter.segments, placed), repair);
  }

  /**
   * Gives every word to a segment of its sentence, fillers to the one they stand in.
   *
   * @return spans of sentences that hold nothing but fillers
   */
  private static List<int[]> own(List<Segment> segments, List<Item> placed) {
    List<int[]> chatter = new ArrayList<>();
    for (Segment segment : segments) {
      segment.items.forEach(segment::own);
    }
    int at = -1;
    boolean joint = false;
    int i = 0;
    while (i < placed.size()) {
      int end = i;
      while (end < placed.size() && !endsSentence(placed.get(end))) {
        end++;
      }
      int last = end == i ? i : placed.get(end - 1).end();
      boolean any = false;
      for (int k = i; k < end; k++) {
        Item item = placed.get(k);
        boolean begins =
            at + 1 < segments.size() && item.start() >= segments.get(at + 1).items.get(0).start();
        if (begins) {
          at++;
          joint = false;
          any = true;
        }
        boolean hasNext =
            at + 1 < segments.size() && segments.get(at + 1).items.get(0).start() < last;
        if (isMark(item)) {
          if (any && item.end() - item.start() > 1) {
            // a closing "thanks"
            segments.get(at).own(item);
          }
          joint = any;
        } else if ((joint || !any) && hasNext) {
          segments.get(at + 1).own(item);
        } else if (any) {
          segments.get(at).own(item);
        }
      }
      if (!any && end > i) {
        chatter.add(new int[] {placed.get(i).start(), last});
      }
      joint = false;
      i = end + 1;
    }
    return chatter;
  }

  private static boolean isMark(Item item) {
    return item.is(Type.MARK) || item.is(Type.DASH) || item.is(Type.COLON);
  }

  static boolean endsSentence(Item item) {
    return item.is(Type.STOP) || item.is(Type.ASK) || item.is(Type.BULLET);
  }

  private void take(int i) {
    Item item = items.get(i);
    if (current.items.size() >= MOST_ITEMS) {
      close(Joint.COMMA);
    }
    switch (item.type()) {
      case STOP, ASK, BULLET -> endSentence(item);
      case MARK -> {
        if (!Groups.joins(items, i, current) && !isPause(i)) {
          close(item.a().equals("(") || item.a().equals(")") ? Joint.BRACKET : Joint.COMMA);
        }
      }
      case COLON, DASH -> {
        if (!Groups.joins(items, i, current)) {
          boolean heads = isHeading();
          current.heading |= heads;
          close(heads ? Joint.HEADED : Joint.COMMA);
        }
      }
      case CONJ -> {
        boolean first = current.items.isEmpty() && current.joint == Joint.SENTENCE;
        current.adds |= first && item.a().equals("and");
        boolean comma = current.items.isEmpty() && current.joint == Joint.COMMA;
        if (!Groups.joins(items, i, current)) {
          close(item.a().equals("but") ? Joint.BUT : Joint.AND);
          current.apart = comma;
          current.or = item.a().equals("or");
          if (item.a().equals("but")) {
            return;
          }
        } else {
          current.either |= item.a().equals("or") && last(current).is(Type.ELEM);
        }
      }
      case MORE, LESS -> {
        if (beginsAnother(item)) {
          close(Joint.COMMA);
        }
        current.items.add(item);
      }
      case ELEM -> {
        if (namesAnother(i)) {
          close(Joint.COMMA);
        }
        current.items.add(item);
      }
      case NUMBER, AMOUNT -> {
        List<Item> said = current.items;
        boolean listed =
            item.signed() != 0
                && said.size() == 2
                && said.get(0).signed() != 0
                && said.get(1).is(Type.ELEM);
        if (listed) {
          // "-1 kick -1 bass"
          close(Joint.COMMA);
        }
        current.items.add(item);
      }
      case MARKW -> particle(i);
      case PURPOSE -> {
        if (i + 1 < items.size() && items.get(i + 1).is(Type.KEEP)) {
          // "they are exactly right so they stay as they are"
          close(Joint.COMMA);
        } else {
          current.items.add(item);
        }
      }
      case ON -> current.upon = true;
      case EXCEPT -> {
        if (current.items.isEmpty() && current.joint == Joint.SENTENCE && saysSoon(i)) {
          // "no more notes except bass up 1"
          return;
        }
        // "great, except the vocal is too dry" is a but
        if (current.has(Type.PRAISE) && !current.hasAny(SAYING)) {
          close(Joint.BUT);
        } else {
          current.items.add(item);
        }
      }
      case TOO -> {
        boolean so = item.a().equals("so");
        if (so && !(i + 1 < items.size() && describes(items.get(i + 1).type()))) {
          close(Joint.BUT);
        } else if (i + 1 < items.size() && describes(items.get(i + 1).type())) {
          current.items.add(item);
        } else if (i + 1 == items.size()
            || isJoint(items.get(i + 1).type())
            || Groups.isPlea(items, i + 1)) {
          // "turned up too far" is no "me too"
          boolean far = item.a().equals("far");
          current.items.add(item.as(far ? Type.TOOMUCH : Type.ALSOTHIS));
        } else {
          current.items.add(item);
        }
      }
      default -> current.items.add(item);
    }
  }

  private static Item last(Segment segment) {
    return segment.items.get(segment.items.size() - 1);
  }

  private boolean saysSoon(int i) {
    boolean part = i + 1 < items.size() && items.get(i + 1).is(Type.ELEM);
    return part && i + 2 < items.size() && SAYING.contains(items.get(i + 2).type());
  }

  /** "More bass less drums": the second is a request of its own. */
  private boolean beginsAnother(Item item) {
    List<Item> said = current.items;
    int last = said.size() - 1;
    boolean before = last > 0 && said.get(last).is(Type.ELEM);
    Type asked = before ? said.get(last - 1).type() : Type.FILL;
    return before && (asked == Type.MORE || asked == Type.LESS) && !item.is(asked);
  }

  /** "Vox +1 gtr -1", "kick up snare down". */
  private boolean namesAnother(int i) {
    List<Item> said = current.items;
    boolean told = false;
    for (int k = 1; k < said.size(); k++) {
      told |= MOVED.contains(said.get(k).type()) && said.get(0).is(Type.ELEM);
    }
    Item last = said.isEmpty() ? null : said.get(said.size() - 1);
    // "needs to cut through the guitars a bit more"
    boolean ends = told && MOVED.contains(last.type()) && !last.a().equals("through");
    return ends && i + 1 < items.size() && MOVED.contains(items.get(i + 1).type());
  }

  /** The "in" of "bring them in", which belongs to its verb. */
  private void particle(int i) {
    int next = i + 1 < items.size() && items.get(i + 1).is(Type.QUAL) ? i + 2 : i + 1;
    current.within |= next < items.size() && items.get(next).is(Type.PLACE);
    boolean apart =
        i + 1 >= items.size()
            || !items.get(i + 1).is(Type.PLACE) && !items.get(i + 1).is(Type.ELEM);
    boolean closes =
        i + 1 >= items.size()
            || isJoint(items.get(i + 1).type()) && !items.get(i + 1).is(Type.PLACE)
            || items.get(i + 1).is(Type.AUX);
    List<Item> said = current.items;
    boolean named = !said.isEmpty() && said.get(said.size() - 1).is(Type.ELEM);
    named |= said.isEmpty() && current.joint == Joint.HEADED;
    if (items.get(i).a().equals("in") && closes && named && !current.has(Type.VERB)) {
      // "room mics in please"
      Item in = items.get(i);
      said.add(Item.of(new Lexicon.Entry(Type.IN, "-", "-", ""), in.start(), in.end()));
      return;
    }
    if (items.get(i).a().equals("in") && current.has(Type.VERB) && apart) {
      Item in = items.get(i);
      current.items.add(Item.mark(Type.PART, "in", in.start(), in.end()));
    }
  }

  private static boolean describes(Type type) {
    return type == Type.QUAL || type == Type.TOOMUCH || type == Type.DEG || type == Type.TOO;
  }

  static boolean isJoint(Type type) {
    return type == Type.STOP
        || type == Type.ASK
        || type == Type.BULLET
        || type == Type.MARK
        || type == Type.CONJ
        || type == Type.DASH
        || type == Type.PLACE;
  }

  static boolean isPlease(Item item) {
    return item.is(Type.AUX) && item.a().equals("please");
  }

  /** "Less… fizzy": the word was looked for. */
  private boolean isPause(int i) {
    Item before = current.items.isEmpty() ? null : current.items.get(current.items.size() - 1);
    boolean open =
        before != null && (before.is(Type.MORE) || before.is(Type.LESS) || before.is(Type.TOO));
    boolean hesitates = before != null && before.is(Type.COPULA) && current.has(Type.AUX);
    Type next = i + 1 < items.size() ? items.get(i + 1).type() : Type.STOP;
    return open && describes(next) || hesitates && (describes(next) || next == Type.VAGUEAIM);
  }

  /** A few words that only name a place or a part. */
  private boolean isHeading() {
    boolean names = current.has(Type.PLACE) || current.has(Type.ELEM);
    boolean first =
        current.joint == Joint.SENTENCE
            || current.joint == Joint.HEADED
            || current.joint == Joint.COMMA && current.items.size() <= 2;
    return first && names && !current.hasAny(SAYING) && current.items.size() <= 5;
  }

  private void endSentence(Item item) {
    if (item.is(Type.ASK)) {
      current.asks = true;
      for (int s = segments.size() - 1; s >= 0 && segments.get(s).sentence == sentence; s--) {
        segments.get(s).asks = true;
      }
    }
    boolean said =
        !current.items.isEmpty()
            || !segments.isEmpty() && segments.get(segments.size() - 1).sentence == sentence;
    close(Joint.SENTENCE);
    // "??" and a mere "haha." are no sentence
    sentence += said ? 1 : 0;
    current.sentence = sentence;
    current.newLine = item.is(Type.BULLET) || item.a().equals("\n");
  }

  /** "Wetter, no drier": takes back what was said, and says the opposite. */
  private static void correct(Segment segment) {
    List<Item> said = segment.items;
    boolean no = said.size() >= 2 && said.get(0).is(Type.NEG) && said.get(0).a().equals("no");
    boolean turned =
        no
            && segment.joint == Joint.COMMA
            && (said.get(1).is(Type.UP)
                || said.get(1).is(Type.DOWN)
                || said.get(1).is(Type.PRED) && said.get(1).a().equals("level")
                || said.get(1).is(Type.QUAL) && said.get(1).c().endsWith("+"));
    if (turned) {
      said.set(0, said.get(0).as(Type.RETRACT));
    }
  }

  private void close(Joint next) {
    int last = current.items.size() - 1;
    if (last > 0 && isPlease(current.items.get(last))) {
      current.pleads = true;
      current.items.remove(last);
    }
    if (!current.items.isEmpty()) {
      boolean set = !segments.isEmpty() && segments.get(segments.size() - 1).has(Type.SETTO);
      if (!set) {
        // "at -20, no louder" takes nothing back
        correct(current);
      }
      current.sentence = sentence;
      segments.add(current);
      current = new Segment();
      current.joint = next;
    } else {
      // two marks in a row: the stronger one counts
      Segment same = current;
      if (same.joint == Joint.COMMA || next == Joint.BUT) {
        same.joint = same.joint == Joint.SENTENCE || same.joint == Joint.HEADED ? same.joint : next;
      }
      if (next == Joint.SENTENCE) {
        same.joint = Joint.SENTENCE;
      }
    }
    current.sentence = sentence;
  }
}

package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;

/** Finds what one segment says: what should happen, to what, where, and what is to stay. */
final class Analysis {
  private static final EnumSet<Type> ASKING = EnumSet.of(Type.AUX, Type.ADD, Type.COND);

  private static final EnumSet<Type> MOVING =
      EnumSet.of(Type.UP, Type.DOWN, Type.AMOUNT, Type.NUMBER, Type.OUT);

  private static final EnumSet<Type> MASKING =
      EnumSet.of(Type.COVERS, Type.DOMINATES, Type.TOOMUCH);

  private final Segment segment;
  private final List<Item> items;

  private final String text;

  private final String speaker;

  private Analysis(Segment segment, String text, String speaker) {
    this.segment = segment;
    this.text = text;
    this.speaker = speaker;
    this.items = Trim.items(segment);
  }

  /**
   * Fills a segment with what it says.
   *
   * @param speaker the part the writer plays or sings; empty when the note does not say
   */
  static void of(Segment segment, String text, String speaker) {
    new Analysis(segment, text, speaker).run();
  }

  private void run() {
    boolean other = mentions(Type.BACKTO) || mentions(Type.PREFER);
    List<Item> read = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (item.is(Type.PLACE)) {
        // "I liked v2 better" is a mix, not a verse
        boolean version = other && item.place().words().matches("v ?\\d+");
        if (!version) {
          place(i, item.place());
        }
      } else {
        read.add(item);
      }
    }
    segment.placeLeads = !items.isEmpty() && items.get(0).is(Type.PLACE);
    targets(read);
    if (segment.targets.isEmpty() && segment.from >= 0) {
      String mine = Myself.in(segment, read, text, speaker);
      if (!mine.isEmpty()) {
        segment.targets.add(mine);
      }
    }
    boolean overdone = overdone(read);
    boolean past =
        !overdone && read.stream().anyMatch(x -> x.is(Type.PAST) && !x.a().startsWith("th"));
    past |= read.size() > 1 && read.get(0).is(Type.VERSION) && read.get(1).is(Type.COPULA);
    boolean file = mentions(Type.FILEQ) && segment.targets.isEmpty() && !mentions(Type.KEEP);
    if (past && !mentions(Type.KEEP) || file) {
      segment.blocked = true;
    }
    if (mentions(Type.KEEP)) {
      keep(read);
    } else if (!segment.blocked) {
      Predicates.find(segment, read);
      dropCompared(read);
      dropPraised(read);
      protect(read);
      if (segment.praised) {
        segment.preds.clear();
      }
      if (overdone) {
        takeBack();
      }
    }
  }

  /** "You took the bass down too much". */
  private static boolean overdone(List<Item> read) {
    boolean did = read.stream().anyMatch(x -> x.is(Type.PAST) && x.a().equals("you"));
    return did && read.stream().anyMatch(x -> x.is(Type.TOOMUCH) || x.is(Type.TOO));
  }

  /** What was done too much is asked the other way round; named faults stay what they are. */
  private void takeBack() {
    boolean off = items.stream().anyMatch(x -> x.is(Type.PART) && x.a().equals("off"));
    segment.preds.replaceAll(
        p -> {
          if (off && p.complaint() && p.direction().equals("down")) {
            // "you took too much off the bass"
            return p.turned(p.aspect(), "up");
          }
          List<String> ways = Vocabulary.directions(p.aspect());
          boolean turns = !p.complaint() && ways.size() == 2;
          int other = turns ? 1 - ways.indexOf(p.direction()) : 0;
          boolean level = p.aspect().equals("level") && !p.complaint();
          String opposite = p.direction().equals("up") ? "down" : "up";
          return level
              ? p.turned("level", opposite)
              : turns ? p.turned(p.aspect(), ways.get(other)) : p;
        });
  }

  private void place(int i, Place place) {
    boolean out = false;
    for (int k = i - 1; k >= 0 && k >= i - 2; k--) {
      Type before = items.get(k).type();
      boolean not = before == Type.NEG && k == i - 1 && !items.get(k).a().equals("is");
      if (before == Type.EXCEPT || not) {
        out = true;
      }
      if (before != Type.PLACE) {
        break;
      }
    }
    (out ? segment.excluded : segment.places).add(place);
  }

  private void targets(List<Item> read) {
    for (int i = 0; i < read.size(); i++) {
      Item item = read.get(i);
      if (item.is(Type.REST)) {
        continue;
      }
      if (item.is(Type.ELEM)) {
        if (spared(read, i)) {
          segment.protectedElements.add(item.a());
          continue;
        }
        boolean compound = i + 1 < read.size() && read.get(i + 1).is(Type.ELEM) && !joined(read, i);
        boolean hidden =
            item.a().equals(Vocabulary.MIX) && i > 0 && MASKING.contains(read.get(i - 1).type());
        if (hidden) {
          // "it's overpowering everything"
          continue;
        }
        boolean wholeBeside = item.a().equals(Vocabulary.MIX) && otherElement(read, i);
        if (bledInto(read, i)) {
          // "hat bleed in the snare mic" is on the snare's track
          segment.targets.clear();
        }
        if (apart(read, i)) {
          continue;
        }
        if (!compound && !wholeBeside && !segment.targets.contains(item.a())) {
          segment.targets.add(item.a());
        }
      }
    }
    boolean rest =
        (segment.hasAny(MOVING) || segment.joint == Segment.Joint.HEADED)
            && read.stream()
                .anyMatch(
                    x ->
                        x.is(Type.REST) && !text.regionMatches(true, x.start(), "the other", 0, 9));
    if (rest && segment.targets.isEmpty() && !mentions(Type.KEEP)) {
      segment.targets.add(Vocabulary.MIX);
    }
    if (segment.targets.isEmpty()) {
      for (Item item : read) {
        if (hears(read, item)) {
          continue;
        }
        if (item.is(Type.HER) && (!item.a().equals("me") || Myself.isTurned(read, item))) {
          segment.her = !item.a().equals("me");
          boolean me = item.a().equals("me") && !speaker.isEmpty();
          segment.targets.add(me ? speaker : "lead vocal");
          return;
        }
        if (item.is(Type.QUOTE)) {
          segment.quoted = true;
          segment.targets.add("vocals");
          return;
        }
      }
    }
  }

  private static boolean bledInto(List<Item> read, int i) {
    Item before = i > 0 ? read.get(i - 1) : null;
    return before != null
        && before.is(Type.PROP)
        && (before.c().startsWith("bleed") || before.c().equals("spill"));
  }

  /** A second part that is not joined to the first is none of those asked for. */
  private boolean apart(List<Item> read, int i) {
    return !segment.targets.isEmpty()
        && i > 0
        && !read.get(i - 1).is(Type.ELEM)
        && read.stream().limit(i).anyMatch(x -> x.is(Type.ELEM) && segment.targets.contains(x.a()));
  }

  /** "She can't understand the words": who listens. */
  private static boolean hears(List<Item> read, Item who) {
    int next = read.indexOf(who) + 1;
    boolean lost = who.is(Type.HER) && next < read.size() && read.get(next).is(Type.LOST);
    return lost && read.stream().skip(next).anyMatch(x -> x.is(Type.QUOTE) || x.is(Type.PROP));
  }

  /** "Everything but the piano": the piano is let alone. */
  private boolean spared(List<Item> read, int i) {
    int k = i - 1;
    while (k >= 0 && read.get(k).is(Type.ELEM)) {
      k--;
    }
    if (k < 0 || !read.get(k).is(Type.EXCEPT)) {
      return false;
    }
    if (read.get(k).a().equals("all") && segment.targets.isEmpty()) {
      segment.targets.add(Vocabulary.MIX);
    }
    return true;
  }

  /** Two parts with a joint between them in the text, as in "kick and snare". */
  private boolean joined(List<Item> read, int i) {
    return !text.substring(read.get(i).end(), read.get(i + 1).start()).equals(" ");
  }

  private static boolean otherElement(List<Item> read, int except) {
    for (int i = 0; i < read.size(); i++) {
      if (read.get(i).is(Type.EXCEPT)) {
        return false;
      }
      if (i != except && read.get(i).is(Type.ELEM) && !read.get(i).a().equals(Vocabulary.MIX)) {
        return true;
      }
    }
    return false;
  }

  private void keep(List<Item> read) {
    segment.keeps = true;
    segment.protectedElements.clear();
    for (int i = 0; i < read.size(); i++) {
      Item next = i + 1 < read.size() ? read.get(i + 1) : read.get(i);
      // "the rest of the keys", "all the other breaths"
      boolean ofParts = next.is(Type.ELEM) || next.is(Type.PROP);
      if (read.get(i).is(Type.REST) && !ofParts) {
        segment.targets.clear();
        segment.targets.add(Vocabulary.MIX);
        return;
      }
    }
  }

  /** "The vocal is clearer than before": seen, not wished for. */
  private void dropCompared(List<Item> read) {
    boolean than = read.stream().anyMatch(x -> x.is(Type.PAST) && x.a().equals("than"));
    boolean asking = read.stream().anyMatch(x -> ASKING.contains(x.type()));
    boolean less = read.stream().anyMatch(x -> x.is(Type.LESS));
    if (than && less && !asking && segment.preds.size() == 1) {
      // "the bass has less weight than last time"
      segment.preds.replaceAll(
          p -> p.direction().equals("down") ? p.turned(p.aspect(), "up").asComplaint() : p);
    }
    if (than && !asking) {
      segment.preds.removeIf(p -> !p.complaint());
    }
  }

  /** "Love how the drums hit harder now" asks for nothing. */
  private void dropPraised(List<Item> read) {
    int last = read.size() - 1;
    boolean liked =
        last > 0 && read.get(last).is(Type.PRAISE) && read.get(last - 1).is(Type.COPULA);
    boolean wished = segment.has(Type.AUX);
    if (liked && !wished && !read.get(last).a().equals("mild")) {
      // "the drop-out before the last chorus is awesome"
      segment.preds.removeIf(p -> !p.complaint());
    }
    int praise = -1;
    boolean asking = false;
    for (int i = 0; i < read.size(); i++) {
      if (read.get(i).is(Type.PRAISE) && praise < 0 && !read.get(i).a().equals("mild")) {
        praise = i;
      }
      asking |= ASKING.contains(read.get(i).type());
    }
    if (praise < 0 || asking) {
      return;
    }
    boolean first = praise <= 1;
    segment.preds.removeIf(p -> first || p.complaint());
  }

  /** "Don't take the strings down" protects them; "not too bright" asks for nothing. */
  private void protect(List<Item> read) {
    int neg = -1;
    for (int i = 0; i < read.size(); i++) {
      if (read.get(i).is(Type.NEG) && read.get(i).a().equals("order")) {
        neg = i;
        break;
      }
    }
    boolean ought =
        neg >= 0
            && neg + 2 < read.size()
            && read.get(neg + 1).is(Type.COPULA)
            && read.get(neg + 2).is(Type.QUAL);
    if (ought && !segment.targets.isEmpty()) {
      // "the synth shouldn't be distorted" names a fault
      Item quality = read.get(neg + 2);
      boolean bad = quality.c().startsWith("bad");
      String way = bad ? quality.b() : Properties.opposite(quality.a(), quality.b());
      segment.preds.clear();
      segment.preds.add(Pred.of(quality.a(), way).asComplaint());
      return;
    }
    boolean denied =
        segment.preds.isEmpty()
            && segment.hasAny(
                EnumSet.of(Type.UP, Type.DOWN, Type.OUT, Type.CUT, Type.MORE, Type.PRED));
    if (neg < 0 || (segment.preds.isEmpty() && !denied)) {
      return;
    }
    boolean degree = neg + 1 < read.size() && read.get(read.size() - 1).is(Type.QUAL);
    if (neg > 2 || degree && read.get(read.size() - 2).is(Type.TOO)) {
      // "don't pan them so hard" asks for less
      return;
    }
    segment.preds.clear();
    if (!segment.targets.isEmpty()) {
      segment.protectedElements.addAll(segment.targets);
    } else if (read.stream().anyMatch(x -> x.is(Type.PROP) && x.a().equals("breath"))) {
      segment.protectedElements.add("vocals");
    }
  }

  private boolean mentions(Type type) {
    for (Item item : items) {
      if (item.is(type)) {
        return true;
      }
    }
    return false;
  }
}

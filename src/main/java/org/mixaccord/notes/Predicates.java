package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Reads what should happen out of the words of one segment. */
final class Predicates extends Orders {
  private static final EnumSet<Type> MEASURES =
      EnumSet.of(Type.DEG, Type.AMOUNT, Type.NUMBER, Type.HALF);

  private static final Set<String> SEEN = Set.of("lower", "higher");

  private Predicates(Segment segment, List<Item> items) {
    super(segment, items);
  }

  static void find(Segment segment, List<Item> items) {
    Predicates predicates = new Predicates(segment, items);
    predicates.run();
    segment.preds.addAll(predicates.found);
  }

  private void run() {
    properties();
    qualities();
    ready();
    stereo();
    masking();
    presence();
    levels();
    if (found.isEmpty()) {
      vague();
    }
    if (found.isEmpty()) {
      asOnce();
    }
    if (found.isEmpty()) {
      unheardOf();
    }
    segment.tellsWhen &= found.isEmpty();
  }

  // "vox +1", "more cowbell", "bring it down a touch"

  /** "Set it 3 dB under the piano". */
  private boolean setUnder() {
    List<Item> all = segment.items;
    for (int i = 0; i + 1 < all.size(); i++) {
      boolean step =
          all.get(i).is(Type.AMOUNT) && all.get(i).amount().unit().orElse("").equals("dB");
      if (step && all.get(i + 1).is(Type.REF) && all.get(i + 1).a().equals("under")) {
        return true;
      }
    }
    return false;
  }

  private void levels() {
    if (setUnder()) {
      found.removeIf(p -> p.aspect().equals("level"));
      found.add(Pred.of("level", "set").with(degrees.amountFor("level", 0)));
      return;
    }
    boolean level = found.stream().anyMatch(p -> p.aspect().equals("level"));
    for (int i = 0; i < items.size(); i++) {
      Type type = type(i);
      boolean aims =
          i + 1 < items.size() && items.get(i + 1).is(Type.VAGUEAIM)
              // "fatten it up"
              || isOfVerb(i)
              || !found.isEmpty() && restsOnOthers(i);
      boolean above = type == Type.UP && items.get(i).a().equals("top") && !found.isEmpty();
      if (used[i] || aims || above) {
        // "some air on top" is no level
        continue;
      }
      boolean time = (type == Type.UP || type == Type.DOWN) && milliseconds();
      if (time) {
        // "15 ms forward"
        add(i, Pred.of("timing", type == Type.UP ? "earlier" : "later"));
        continue;
      }
      boolean lift = items.get(i).a().equals("lift") && segment.targets.isEmpty();
      if (type == Type.UP && lift && !degrees.hasNumber() && !segment.has(Type.PRON)) {
        // "the chorus should lift"
        add(i, Pred.of("impact", "up"));
      } else if ((type == Type.UP || type == Type.DOWN) && matched()) {
        // "raise the verses to the level of the choruses"
        use(i);
      } else if (isSeen(i)) {
        // "the vocal is lower in the bridge than in the verses"
        add(i, Pred.of("level", type == Type.UP ? "down" : "up").asComplaint());
        level = true;
      } else if (type == Type.UP && !negatedBefore(i)) {
        add(i, Pred.of("level", "up").asGeneric());
        level = true;
      } else if (type == Type.DOWN && !negatedBefore(i)) {
        add(i, Pred.of("level", "down").asGeneric());
        level = true;
      } else if (type == Type.TOOMUCH && found.isEmpty()) {
        add(i, Pred.of("level", "down").asComplaint().asGeneric());
        level = true;
      } else if (type == Type.MORE && found.isEmpty() && ofSomethingElse(i)) {
        add(i, Pred.of("other", "any").asUnclear());
      } else if (type == Type.MORE && found.isEmpty() && madeMore(i)) {
        // "make it more orange"
        add(i, Pred.of("other", "any").asUnclear());
      } else if (type == Type.MORE && found.isEmpty() && comparesAfter(items.get(i))) {
        // "more like the second reference"
        add(i, Pred.of("other", "any").asUnclear());
      } else if (type == Type.MORE
          && found.isEmpty()
          && i == items.size() - 1
          && i > 0
          && type(i - 1) == Type.UNKNOWN) {
        // "swing more"
        add(i, Pred.of("other", "any").asUnclear());
      } else if ((type == Type.MORE || type == Type.NOTENOUGH) && found.isEmpty()) {
        lengthOrLevel(i);
        level = true;
      } else if (type == Type.LESS
          && found.isEmpty()
          && i + 1 < items.size()
          && type(i + 1) == Type.PRAISE) {
        // "less perfect"
        add(i, Pred.of("other", "any").asUnclear());
      } else if (type == Type.LESS && found.isEmpty() && comparesAfter(items.get(i))) {
        add(i, Pred.of("other", "any").asUnclear());
      } else if (type == Type.LESS && found.isEmpty()) {
        add(i, Pred.of("level", "down").asGeneric());
        level = true;
      } else if (type == Type.ADD && found.isEmpty() && segment.hasAny(LOWERING)) {
        continue;
      } else if (type == Type.ADD && found.isEmpty() && (decibels() || degrees.frequency() > 0)) {
        // "needs 1.5 dB", "add some 10k", "try -2 at 10k"
        add(i, Pred.of("level", degrees.sign() < 0 ? "down" : "up"));
      } else if (type == Type.ADD && found.isEmpty() && lengthUnit()) {
        lengthOrLevel(i);
      }
    }
    if (!level && found.isEmpty() && degrees.sign() != 0) {
      found.add(
          Pred.of("level", degrees.sign() > 0 ? "up" : "down")
              .asGeneric()
              .with(degrees.amountFor("level", 0)));
    }
    for (int i = 0; i < items.size() && found.isEmpty(); i++) {
      if (items.get(i).a().equals("halve")) {
        boolean section = segment.targets.isEmpty() && segment.has(Type.PLACE);
        add(i, section ? Pred.of("length", "shorter") : Pred.of("level", "down").asGeneric());
      }
    }
    if (found.isEmpty() && !segment.targets.isEmpty() && mentionsAdding()) {
      found.add(Pred.of("mute", "in"));
    }
  }

  private boolean isSeen(int i) {
    int k = i - 1;
    while (k >= 0 && MEASURES.contains(type(k))) {
      k--;
    }
    boolean is = k >= 0 && type(k) == Type.COPULA;
    return SEEN.contains(items.get(i).a()) && is && !asking();
  }

  /** The "up" of "fatten it up", "tighten the bass and the kick up". */
  private boolean isOfVerb(int i) {
    int verb = i - 1;
    while (verb > 0 && OBJECTS.contains(type(verb))) {
      verb--;
    }
    return verb < i - 1 && verb >= 0 && type(verb) == Type.PRED;
  }

  /** "The pads muddy up the verse", "could lose a bit down there": no level of its own. */
  private boolean restsOnOthers(int i) {
    Item item = items.get(i);
    if (type(i) != Type.UP && type(i) != Type.DOWN || degrees.hasNumber()) {
      return false;
    }
    boolean bare = item.end() - item.start() <= 4;
    boolean ofVerb =
        i > 0 && type(i - 1) == Type.QUAL && item.start() - items.get(i - 1).end() == 1;
    int at = segment.items.indexOf(item);
    boolean there =
        at + 1 < segment.items.size()
            && segment.items.get(at + 1).is(Type.PLACE)
            && segment.items.get(at + 1).place().is(Place.Kind.THERE);
    // "more weight down low"
    boolean low = i + 1 < items.size() && type(i + 1) == Type.QUAL && i > 0;
    return bare && (ofVerb || there || low && type(i - 1) == Type.PROP);
  }

  private boolean madeMore(int i) {
    int at = segment.items.indexOf(items.get(i));
    return at + 2 == segment.items.size() && UnknownParts.isMade(segment.items, at);
  }

  /** "More separation between the guitars": not more of the guitars. */
  private boolean ofSomethingElse(int i) {
    boolean thing = i + 2 < items.size() && type(i + 1) == Type.UNKNOWN;
    return thing
        && type(i + 2) == Type.ELEM
        && items.get(i + 2).start() - items.get(i + 1).end() > 1;
  }

  /** "Less like a demo". */
  private boolean comparesAfter(Item less) {
    int at = segment.items.indexOf(less);
    boolean next = at + 1 < segment.items.size();
    return next
        && segment.items.get(at + 1).is(Type.REF)
        && segment.items.get(at + 1).a().equals("as");
  }

  private boolean matched() {
    return found.stream().anyMatch(p -> p.direction().equals("match"));
  }

  private boolean milliseconds() {
    Amount amount = degrees.number();
    String unit = amount == null ? "" : amount.unit().orElse("");
    boolean forward =
        items.stream().anyMatch(x -> x.is(Type.UP) && x.end() - x.start() == "forward".length());
    return found.stream().allMatch(p -> p.aspect().equals("timing"))
        && (unit.equals("ms") || forward && (unit.equals("s") || unit.equals("bars")));
  }

  private boolean decibels() {
    return items.stream()
        .anyMatch(x -> x.is(Type.AMOUNT) && x.amount().unit().orElse("").equals("dB"));
  }

  private void lengthOrLevel(int i) {
    if (lengthUnit()) {
      add(i, Pred.of("length", "longer").asGeneric());
    } else {
      boolean lack = type(i) == Type.NOTENOUGH;
      Pred pred = Pred.of("level", "up");
      add(i, lack ? pred.asComplaint() : pred.asGeneric());
    }
  }
}

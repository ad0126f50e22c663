package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;

/** Reads what should happen out of the words of one segment. */
final class Predicates extends Sides {
  private static final EnumSet<Type> OBJECTS = EnumSet.of(Type.PRON, Type.HER, Type.ELEM);
  private static final EnumSet<Type> NOUNS =
      EnumSet.of(Type.ELEM, Type.PROP, Type.QUAL, Type.PRED, Type.EFFECT, Type.UNKNOWN);

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

  // words that say it all: "tighten", "tune", "hit harder"

  private void ready() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (item.is(Type.SAME)) {
        same(i);
      } else if (item.is(Type.PRED) && !used[i]) {
        boolean negated = negatedBefore(i);
        boolean fadeWord = item.a().equals("length") && mentions("fade");
        boolean ringWord = item.a().equals("length") && mentions("reverb");
        Pred pred = Pred.of(item.a(), item.b().split("/")[0]);
        if (item.a().equals("timing") && mentions("fade")) {
          boolean later = pred.direction().equals("later");
          pred = Pred.of("fade", later ? "shorter" : "longer");
          segment.targets.clear();
        } else if (item.a().equals("harshness") && mentions("impact")) {
          // "soften the punch"
          pred = Pred.of("impact", "down");
        } else if (item.a().equals("harshness") && mentions("fade")) {
          // "a smoother fade"
          pred = Pred.of("fade", "longer");
        } else if (item.a().equals("fade")
            && found.stream().anyMatch(p -> p.aspect().equals("length"))) {
          // "fade it out quicker"
          boolean longer = found.stream().anyMatch(p -> p.direction().equals("longer"));
          found.removeIf(p -> p.aspect().equals("length"));
          pred = Pred.of("fade", longer ? "longer" : "shorter");
        } else if (item.a().equals("fade") && ofPart()) {
          // "the bass should stop dead"
          pred = Pred.of("length", pred.direction());
        } else if (fadeWord) {
          pred = Pred.of("fade", pred.direction());
        } else if (item.a().equals("length") && mentions("delay")) {
          pred = Pred.of("delay", pred.direction().equals("longer") ? "up" : "down");
        } else if (ringWord) {
          pred = Pred.of("reverb", pred.direction().equals("longer") ? "up" : "down");
        }
        boolean cleaned = item.a().equals("distortion") && item.b().startsWith("down");
        if (cleaned && found.stream().anyMatch(p -> p.aspect().equals("noise"))) {
          // "clean up the noises"
          use(i);
          continue;
        }
        if (cleaned && orders(i)) {
          pred = Pred.of("distortion", "up");
        }
        boolean ordered =
            !copulaBefore(items.size()) && !item.b().contains("seen") && items.size() <= 2;
        if (item.b().endsWith("/fault") && (causative(i) || ordered && bareWord(i))) {
          // "should feel smaller" is wished for
          pred = Pred.of(item.a(), opposite(item.a(), pred.direction()));
        }
        if (lessAfter(i)) {
          // "squash it less"
          pred = Pred.of(item.a(), opposite(item.a(), pred.direction()));
          useAll(Type.LESS);
        }
        boolean silence = item.b().equals("shorter") && lengthUnit() && mentionsAdding();
        if (silence
            && item.end() - item.start() <= "of silence".length()
            && items.get(i - 1).is(Type.AMOUNT)) {
          // "add one beat of silence"
          pred = Pred.of("length", "longer");
        }
        boolean echo = pred.aspect().equals("level") && mentions("delay") && leadsWith("delay");
        if (echo) {
          // "the delay on the last word should be louder"
          pred = Pred.of("delay", pred.direction());
        }
        if (pred.aspect().equals("compression") && lengthUnit()) {
          // "could breathe for another 4 bars"
          pred = Pred.of("length", "longer");
        }
        if (pred.aspect().equals("compression") || pred.direction().equals("tighter")) {
          // "smash the room mics harder", "quantise it harder"
          found.removeIf(p -> p.aspect().equals("impact"));
        }
        if (pred.aspect().equals("width")) {
          // "push the guitars to the sides"
          for (int k = 0; k < i; k++) {
            used[k] |= items.get(k).is(Type.UP) && items.get(k).a().equals("push");
          }
        }
        int less = modifier(i, Type.LESS);
        if (!negated || less >= 0 || item.a().equals("impact")) {
          add(i, item.b().endsWith("/seen") ? pred.asComplaint() : pred);
        }
      } else if (item.is(Type.SWAP)) {
        if (item.a().equals("predelay")) {
          found.removeIf(p -> p.aspect().equals("reverb"));
        }
        boolean fades = item.a().endsWith("er") && mentions("fade");
        String way = item.a().equals("slower") ? "longer" : "shorter";
        add(i, fades ? Pred.of("fade", way) : Pred.of("other", "any"));
      } else if (item.is(Type.BACKTO) && segment.has(Type.EFFECT) && found.isEmpty()) {
        add(i, Pred.of("effect", "in"));
      } else if (item.is(Type.BACKTO) && !found.isEmpty() && !mentions("level")) {
        // "a slapback like in the demo"
        use(i);
      } else if (item.is(Type.BACKTO)) {
        boolean level = mentions("level") && found.isEmpty();
        add(i, level ? Pred.of("level", "match") : Pred.of("other", "any"));
      } else if (item.is(Type.MATCH)) {
        add(i, Pred.of("level", "match"));
      } else if (item.is(Type.SETTO) && degrees.hasNumber()) {
        setTo(i);
      }
    }
  }

  /** "Distort the bass a bit". */
  private boolean orders(int i) {
    boolean verb = items.get(i).b().endsWith("/verb");
    boolean object = i + 1 < items.size() && OBJECTS.contains(type(i + 1));
    return verb && object && elements(0, i).isEmpty();
  }

  private boolean lessAfter(int i) {
    int next = i + 1;
    while (next < items.size() && (type(next) == Type.PRON || type(next) == Type.ELEM)) {
      next++;
    }
    boolean closes = next + 1 >= items.size() || !NOUNS.contains(type(next + 1));
    return next < items.size() && type(next) == Type.LESS && closes;
  }

  /** "Set the bass to 75 %", "bring it down to −18 dB"; "down to half" is a step. */
  private void setTo(int i) {
    boolean share = degrees.number().unit().orElse("").equals("%");
    boolean step = segment.hasAny(EnumSet.of(Type.UP, Type.DOWN)) || !found.isEmpty();
    boolean side = segment.hasAny(EnumSet.of(Type.LEFT, Type.RIGHT, Type.SIDE));
    boolean it = segment.joint == Segment.Joint.HEADED;
    if (share && (step || side || segment.targets.isEmpty() && !it)) {
      return;
    }
    useAll(Type.UP);
    useAll(Type.DOWN);
    add(i, Pred.of("level", "set"));
  }

  /** "Same level as V1", "the same reverb as in the verse". */
  private void same(int i) {
    for (int k = i + 1; k < items.size(); k++) {
      if (items.get(k).is(Type.PROP)) {
        used[k] = true;
        boolean level = items.get(k).a().equals("level");
        found.removeIf(p -> items.size() > 0 && p.aspect().equals("level"));
        add(i, level ? Pred.of("level", "match") : Pred.of("other", "any"));
        return;
      }
    }
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
    return bare && (ofVerb || there);
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

  /** "Verse smaller" is an order; "feels smaller" and "falls flat" are seen. */
  private boolean bareWord(int i) {
    return items.get(i).end() - items.get(i).start() <= "smaller".length();
  }

  private boolean ofPart() {
    return !segment.targets.isEmpty()
        && !segment.targets.contains(Vocabulary.MIX)
        && !mentions("fade")
        && items.stream().noneMatch(x -> x.is(Type.PRED) && x.b().equals("longer"));
  }

  private boolean leadsWith(String aspect) {
    return items.get(0).is(Type.PROP) && items.get(0).a().equals(aspect);
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

  private boolean mentionsAdding() {
    return items.stream().anyMatch(i -> i.is(Type.ADD) && i.a().equals("add"));
  }

  private boolean lengthUnit() {
    Amount amount = degrees.number();
    String unit = amount == null ? "" : amount.unit().orElse("");
    return unit.equals("s") || unit.equals("bars");
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

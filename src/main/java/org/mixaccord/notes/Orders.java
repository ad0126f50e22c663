package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Words that say it all: "tighten", "tune it", "hit harder", "set it to −18 dB". */
abstract class Orders extends Sides {
  static final EnumSet<Type> OBJECTS = EnumSet.of(Type.PRON, Type.HER, Type.ELEM);
  private static final EnumSet<Type> NOUNS =
      EnumSet.of(Type.ELEM, Type.PROP, Type.QUAL, Type.PRED, Type.EFFECT, Type.UNKNOWN);

  /** What a hiss does to the ear. */
  private static final Set<String> HISSES = Set.of("tuning", "harshness");

  Orders(Segment segment, List<Item> items) {
    super(segment, items);
  }

  void ready() {
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
        } else if (HISSES.contains(item.a()) && mentions("sibilance")) {
          // "the esses are sharp"
          pred = Pred.of("sibilance", "down");
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
    while (next < items.size()
        && (type(next) == Type.PRON || type(next) == Type.ELEM || type(next) == Type.DEG)) {
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

  /** "Verse smaller" is an order; "feels smaller" and "falls flat" are seen. */
  boolean bareWord(int i) {
    return items.get(i).end() - items.get(i).start() <= "smaller".length();
  }

  boolean ofPart() {
    return !segment.targets.isEmpty()
        && !segment.targets.contains(Vocabulary.MIX)
        && !mentions("fade")
        && items.stream().noneMatch(x -> x.is(Type.PRED) && x.b().equals("longer"));
  }

  boolean leadsWith(String aspect) {
    return items.get(0).is(Type.PROP) && items.get(0).a().equals(aspect);
  }

  boolean mentionsAdding() {
    return items.stream().anyMatch(i -> i.is(Type.ADD) && i.a().equals("add"));
  }

  boolean lengthUnit() {
    Amount amount = degrees.number();
    String unit = amount == null ? "" : amount.unit().orElse("");
    return unit.equals("s") || unit.equals("bars");
  }
}

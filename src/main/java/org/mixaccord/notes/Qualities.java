package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Wishes said with nouns and adjectives: "more top on the snare", "too bright", "boomy". */
abstract class Qualities extends Clause {
  private static final EnumSet<Type> MOVES =
      EnumSet.of(Type.MORE, Type.LESS, Type.UP, Type.DOWN, Type.OUT, Type.CUT);

  Qualities(Segment segment, List<Item> items) {
    super(segment, items);
  }

  // properties: "more top on the snare", "lose the mud", "a plosive"

  void properties() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (i > 0 && type(i - 1) == Type.LOST && item.is(Type.PROP) && item.b().equals("-")) {
        // "I miss the room on the drums"
        use(i - 1);
        add(i, Pred.of(item.a(), Vocabulary.directions(item.a()).get(0)).asComplaint());
        continue;
      }
      if (item.is(Type.EFFECT)) {
        effect(i);
      } else if (item.is(Type.PROP) && !used[i]) {
        property(i);
      }
    }
  }

  void property(int i) {
    Item item = items.get(i);
    String aspect = item.a();
    boolean problem = !item.b().equals("-");
    int quality = qualityFor(i);
    int op = operatorFor(i);
    boolean negated = negatedBefore(i);
    if (aspect.equals("breath")) {
      boolean away = op >= 0 && LOWERING.contains(type(op)) || quality >= 0 && excess(quality);
      if (away) {
        use(op);
        use(quality);
        add(i, Pred.of("noise", "fix").asComplaint());
      }
      return;
    }
    if (aspect.equals("delay") && moves(i)) {
      add(i, Pred.of("timing", "later"));
      return;
    }
    if (problem && wishedFor(i, op)) {
      use(op);
      use(quality);
      add(i, Pred.of(aspect, opposite(aspect, item.b())));
      return;
    }
    boolean beater = item.c().equals("click") && segment.targets.contains("kick");
    if (beater && op >= 0 && RAISING.contains(type(op))) {
      // "the kick needs click"
      use(op);
      add(i, Pred.of("highs", "up"));
      return;
    }
    if (problem && aspect.equals("harshness") && mentions("sibilance")) {
      return;
    }
    if (problem) {
      if (!negated || op >= 0) {
        if (op >= 0) {
          use(op);
        }
        add(i, Pred.of(aspect, item.b()).asComplaint());
      }
      return;
    }
    String more = Vocabulary.directions(aspect).get(0);
    String less =
        Vocabulary.directions(aspect).size() > 1 ? Vocabulary.directions(aspect).get(1) : more;
    for (int k = i + 1; k < items.size() && aspect.equals("fade") && op < 0; k++) {
      if (type(k) == Type.QUAL && items.get(k).a().equals("timing") && modified(k)) {
        // "fades out too early"
        use(k);
        add(i, Pred.of("fade", items.get(k).b().equals("later") ? "longer" : "shorter"));
        return;
      }
    }
    boolean disliked = op < 0 && i > 0 && type(i - 1) == Type.DISLIKE;
    if (disliked && Set.of("reverb", "delay", "distortion").contains(aspect)) {
      // "a weird echo"
      use(i - 1);
      add(i, Pred.of(aspect, less).asComplaint());
    } else if (none(i)) {
      use(op);
      add(i, Pred.of(aspect, less));
    } else if (op < 0 && segment.has(Type.HALF)) {
      add(i, Pred.of(aspect, less));
    } else if (quality >= 0) {
      use(quality);
      add(i, sized(aspect, more, less, quality));
    } else if (op >= 0) {
      use(op);
      boolean raises = RAISING.contains(type(op));
      if (negated && type(op) != Type.MORE) {
        raises = !raises;
      }
      Pred pred = Pred.of(aspect, raises ? more : less);
      add(i, type(op) == Type.TOOMUCH || type(op) == Type.NOTENOUGH ? pred.asComplaint() : pred);
    } else if (aspect.equals("length") && mentionsLet()) {
      add(i, Pred.of("length", "longer"));
    } else if (negated && !aspect.equals("timing")) {
      add(i, Pred.of(aspect, more).asComplaint());
    } else if (degrees.signedNear(i) != 0 && !aspect.equals("timing")) {
      add(i, Pred.of(aspect, degrees.signedNear(i) > 0 ? more : less));
    } else if (putOn(i)) {
      add(i, Pred.of(aspect, more));
    }
  }

  /** "No reverb on the snare please"; "there is no reverb" misses it. */
  private boolean none(int i) {
    boolean put = Set.of("reverb", "delay", "distortion", "compression").contains(items.get(i).a());
    boolean no = i > 0 && items.get(i - 1).is(Type.NEG) && items.get(i - 1).a().equals("no");
    return put && no && !copulaBefore(i);
  }

  private boolean mentions(String aspect) {
    return items.stream().anyMatch(x -> x.is(Type.PROP) && x.a().equals(aspect));
  }

  /** "Grit on the vocals", "a bit of dirt on the bass": an order without a verb. */
  private boolean putOn(int i) {
    boolean effect = Set.of("delay", "distortion").contains(items.get(i).a());
    boolean before = false;
    boolean please = items.stream().anyMatch(x -> x.is(Type.AUX) && x.a().equals("please"));
    for (int k = 0; k < items.size(); k++) {
      boolean kind = items.get(k).is(Type.PROP) && items.get(k).a().equals(items.get(i).a());
      boolean amount =
          k < i && (kind || items.get(k).is(Type.DEG) || items.get(k).is(Type.UNKNOWN));
      before |= k < i && !amount;
      boolean plain =
          items.get(k).is(Type.ELEM) || items.get(k).is(Type.ON) || items.get(k).is(Type.HER);
      if (k > i && !plain && !items.get(k).is(Type.AUX)) {
        return false;
      }
    }
    boolean headed = segment.joint == Segment.Joint.HEADED;
    boolean whose = !segment.targets.isEmpty() || please || headed;
    return effect && !before && found.isEmpty() && !segment.asks && whose;
  }

  /** "Delay the strings by 20 ms": a verb. */
  boolean moves(int i) {
    Amount amount = degrees.number();
    boolean time = amount != null && amount.unit().filter("ms"::equals).isPresent();
    boolean object = i + 1 < items.size() && items.get(i + 1).is(Type.ELEM);
    return time && object;
  }

  /** "Needs more edge": what is mostly a fault can be asked for. */
  boolean wishedFor(int i, int op) {
    String aspect = items.get(i).a();
    boolean either = aspect.equals("harshness") || aspect.equals("sibilance");
    return either
        && op >= 0
        && op < i
        && (type(op) == Type.MORE || type(op) == Type.NOTENOUGH)
        && !copulaBefore(op)
        && !negatedBefore(i);
  }

  /** "The reverb is too long", "a quieter delay", "the fade is too quick". */
  Pred sized(String aspect, String more, String less, int quality) {
    Item item = items.get(quality);
    boolean big = item.b().equals("up") || item.b().equals("longer") || item.b().equals("wider");
    boolean fault = item.c().startsWith("bad");
    boolean grows = fault ? big : big != excess(quality);
    Pred pred = Pred.of(aspect, grows ? more : less);
    return isComparative(item) ? pred : pred.asComplaint();
  }

  /** A size or level adjective that speaks of the property itself. */
  int qualityFor(int i) {
    String aspect = items.get(i).a();
    for (int k = 0; k < items.size(); k++) {
      Item item = items.get(k);
      if (item.is(Type.QUAL) && !used[k]) {
        boolean size =
            item.a().equals("level")
                || item.a().equals("length")
                || (item.a().equals("impact") && Math.abs(k - i) == 1)
                || (item.a().equals("reverb") && aspect.equals("reverb"))
                || (item.a().equals("harshness") && aspect.equals("sibilance"));
        boolean said = isComparative(item) || modified(k) || !item.c().startsWith("good");
        if (size && said && !items.get(i).b().equals("fix") && !aspect.equals("level")) {
          return k;
        }
      }
    }
    return -1;
  }

  int operatorFor(int i) {
    for (int k = i - 1; k >= 0; k--) {
      Type type = type(k);
      if (!used[k] && (RAISING.contains(type) || LOWERING.contains(type))) {
        return k;
      }
      if (type == Type.PROP || type == Type.QUAL || type == Type.PRED) {
        break;
      }
    }
    for (int k = i + 1; k < items.size(); k++) {
      Type type = type(k);
      if (!used[k] && (RAISING.contains(type) || LOWERING.contains(type))) {
        return k;
      }
      if (type == Type.PROP || type == Type.QUAL || type == Type.PRED) {
        break;
      }
    }
    return -1;
  }

  boolean mentionsLet() {
    return items.stream().anyMatch(i -> i.is(Type.AUX) && i.a().equals("let"));
  }

  void effect(int i) {
    int op = operatorFor(i);
    if (op < 0 && negatedBefore(i) && !copulaBefore(i)) {
      add(i, Pred.of("effect", "out"));
      return;
    }
    if (op < 0) {
      switched(i);
      return;
    }
    boolean out = LOWERING.contains(type(op)) || negatedBefore(op);
    use(op);
    add(i, Pred.of("effect", out ? "out" : "in"));
  }

  /** "Phaser off on the keys", "a telephone effect on the lead": an order without a verb. */
  void switched(int i) {
    if (items.stream().anyMatch(x -> x.is(Type.AUX) && !x.a().equals("please"))) {
      // "the outro should have that telephone sound"
      add(i, Pred.of("effect", negatedBefore(i) ? "out" : "in"));
      return;
    }
    boolean off = items.stream().anyMatch(x -> x.is(Type.PART) && x.a().equals("off"));
    boolean told = segment.has(Type.PRAISE) || copulaBefore(items.size()) || segment.has(Type.KEEP);
    if (off) {
      useAll(Type.PART);
      add(i, Pred.of("effect", "out"));
    } else if (!told && !segment.asks && !segment.targets.isEmpty() && found.isEmpty()) {
      add(i, Pred.of("effect", "in"));
    }
  }

  // qualities: "too bright", "warmer", "boomy"

  void qualities() {
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).is(Type.QUAL) && !used[i]) {
        quality(i);
      }
    }
  }

  /** "In the quiet intro": only says which. */
  private boolean namesPlace(Item quality) {
    int at = segment.items.indexOf(quality);
    Item next = at + 1 < segment.items.size() ? segment.items.get(at + 1) : null;
    return next != null
        && next.is(Type.PLACE)
        && !isComparative(quality)
        && next.start() - quality.end() == 1;
  }

  /** "Dry vocal in the bridge", "wide guitars": how it is to be, not how it is. */
  private boolean worn(int i) {
    Item item = items.get(i);
    boolean treated = Set.of("reverb", "width", "distortion").contains(item.a());
    boolean plain =
        !item.c().startsWith("bad") && !isComparative(item) && !copulaBefore(items.size());
    return treated
        && plain
        && i == 0
        && items.size() > 1
        && type(1) == Type.ELEM
        && items.get(1).start() - item.end() == 1
        && !segment.has(Type.PRAISE);
  }

  /** "A tiny click": says how small the fault is. */
  private boolean namesFault(int i) {
    boolean fault = i + 1 < items.size() && items.get(i + 1).is(Type.PROP);
    return fault && items.get(i + 1).b().equals("fix") && !copulaBefore(i + 1);
  }

  /** "Less of the low harmony": says which. */
  private boolean namesPart(int i) {
    boolean part = i + 1 < items.size() && items.get(i + 1).is(Type.ELEM);
    boolean level =
        items.get(i).a().equals("level") && !modified(i) && !isComparative(items.get(i));
    boolean told = items.stream().anyMatch(x -> MOVES.contains(x.type())) || degrees.hasNumber();
    boolean says = !copulaBefore(i) && copulaBefore(items.size());
    return part && level && (told || says) && items.get(i + 1).start() - items.get(i).end() == 1;
  }

  void quality(int i) {
    Item item = items.get(i);
    String kind = item.c();
    boolean ofFade = item.a().equals("timing") && mentions("fade");
    boolean mono = item.a().equals("width") && kind.startsWith("poor") && !copulaBefore(i);
    if (mono && !modified(i) && degrees.wordBefore(i) == null) {
      // "snare mono": an order
      add(i, Pred.of("width", "narrower"));
      return;
    }
    if (worn(i) || item.a().equals("width") && nearVerb("pan") && !modified(i)) {
      add(i, Pred.of(item.a(), item.b()));
      return;
    }
    if (namesFault(i) || namesPart(i)) {
      return;
    }
    if (ofFade || namesPlace(item) && !modified(i) && segment.within) {
      return;
    }
    boolean bad = kind.startsWith("bad");
    boolean comparative = isComparative(item);
    int less = modifier(i, Type.LESS);
    boolean negated = negatedBefore(i);
    boolean enough = near(i, Type.ENOUGH);
    String up = item.b();
    boolean should = items.stream().anyMatch(x -> x.is(Type.AUX));
    boolean wished = asking() && (should || !copulaBefore(i));
    if (bad && comparative && less < 0 && !negated && wished) {
      // "make the hats harsher": wished for
      add(i, Pred.of(item.a(), opposite(item.a(), up)));
      return;
    }
    if (bad) {
      if (!negated || less >= 0 || modifier(i, Type.TOO) >= 0 && !order(i)) {
        boolean denied = negated && less < 0;
        if (!denied) {
          use(less);
          Pred pred = Pred.of(item.a(), up);
          boolean plain = modifier(i, Type.TOO) < 0 && degrees.wordBefore(i) == null;
          add(i, less >= 0 ? pred : plain ? pred.asComplaint().asGeneric() : pred.asComplaint());
        }
      }
      return;
    }
    String opposite = opposite(item.a(), up);
    boolean half = i > 0 && items.get(i - 1).is(Type.HALF);
    if (half) {
      // "half as wide"
      add(i, Pred.of(item.a(), opposite));
      return;
    }
    if (enough && (negated || lacking())) {
      add(i, Pred.of(item.a(), up).asComplaint());
    } else if (enough && !comparative) {
      return;
    } else if (less >= 0) {
      use(less);
      add(i, Pred.of(item.a(), opposite));
    } else if (negated && comparative) {
      return;
    } else if (negated) {
      if (!order(i) && modifier(i, Type.TOO) < 0 && kind.startsWith("good")) {
        add(i, Pred.of(item.a(), up).asComplaint());
      }
    } else if (modifier(i, Type.TOO) >= 0 && !causative(i)) {
      add(i, Pred.of(item.a(), opposite).asComplaint());
    } else if (comparative || modifier(i, Type.MORE) >= 0 || modifier(i, Type.NOTENOUGH) >= 0) {
      use(modifier(i, Type.MORE));
      use(modifier(i, Type.NOTENOUGH));
      boolean observed = copulaBefore(i) && !asking();
      boolean lack = observed && (kind.startsWith("poor") || kind.startsWith("sore"));
      Pred pred = Pred.of(item.a(), lack ? opposite : up);
      add(i, lack ? pred.asComplaint() : pred);
    } else if (causative(i)) {
      add(i, Pred.of(item.a(), up));
    } else if (degrees.wordBefore(i) != null) {
      add(i, Pred.of(item.a(), opposite).asComplaint());
    } else if (kind.startsWith("poor") || kind.startsWith("sore")) {
      add(i, Pred.of(item.a(), opposite).asComplaint().asGeneric());
    }
  }

  boolean lacking() {
    for (Item item : items) {
      if (item.is(Type.AUX)) {
        return true;
      }
    }
    return false;
  }

  static String opposite(String aspect, String direction) {
    for (String other : Vocabulary.directions(aspect)) {
      if (!other.equals(direction)) {
        return other;
      }
    }
    return direction;
  }
}

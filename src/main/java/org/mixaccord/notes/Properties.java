package org.mixaccord.notes;

import java.util.List;
import java.util.Set;

/** Wishes said with nouns: "more top on the snare", "lose the mud", "a plosive". */
abstract class Properties extends Operators {
  Properties(Segment segment, List<Item> items) {
    super(segment, items);
  }

  void properties() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (i > 0 && type(i - 1) == Type.LOST && item.is(Type.PROP) && item.a().equals("sibilance")) {
        // "the lead lost its esses"
        use(i - 1);
        add(i, Pred.of("sibilance", "up").asComplaint());
        continue;
      }
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
    if (item.c().equals("air") && lastsBefore(i)) {
      // "one more second of air before it starts"
      useAll(Type.MORE);
      add(i, Pred.of("length", "longer"));
      return;
    }
    if (aspect.equals("level") && item.c().equals("gain") && ofGuitars()) {
      // "guitars: less gain"
      aspect = "distortion";
    }
    if (aspect.equals("level") && segment.has(Type.SETTO) && degrees.hasNumber()) {
      // "park the fader at -18"
      return;
    }
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
    boolean deessing = item.c().startsWith("de");
    boolean tool = item.c().endsWith("er") || item.c().endsWith("ing");
    if (problem && deessing && tool && op < 0) {
      return;
    }
    if (problem && deessing && op >= 0) {
      // "less de-essing", "the de-esser is too much"
      use(op);
      boolean more = RAISING.contains(type(op)) != negated;
      add(i, Pred.of(aspect, more ? "down" : "up"));
      return;
    }
    boolean hurts =
        aspect.equals("harshness")
            && !negated
            && !copulaBefore(i)
            && items.stream()
                .limit(i)
                .anyMatch(x -> x.is(Type.AUX) && (x.a().equals("must") || x.a().equals("let")));
    if (hurts) {
      // "the synth should hurt more"
      use(op);
      add(i, Pred.of(aspect, "up"));
      return;
    }
    if (problem && givenBack(i)) {
      // "bring a bit of ess back", "let some of her esses come back"
      useAll(Type.PART);
      useAll(Type.VERB);
      useAll(Type.IN);
      add(i, Pred.of(aspect, "up"));
      return;
    }
    if (problem && wishedFor(i, op)) {
      use(op);
      use(quality);
      add(i, Pred.of(aspect, opposite(aspect, item.b())));
      return;
    }
    boolean beater = item.c().equals("click") && segment.targets.contains("kick");
    boolean fewer = op >= 0 && (type(op) == Type.LESS || type(op) == Type.TOOMUCH);
    if (beater && op >= 0 && (fewer || RAISING.contains(type(op)))) {
      // "the kick needs click", "too much click on the kick"
      use(op);
      add(i, Pred.of("highs", fewer != negated ? "down" : "up"));
      return;
    }
    boolean how = aspect.equals("harshness") || aspect.equals("noise") && op < 0;
    if (problem && how && mentions("sibilance")) {
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
    boolean rings = item.c().startsWith("ring") && items.get(0).is(Type.AUX) && op < 0;
    if (aspect.equals("length") && (mentionsLet() || rings)) {
      // "let the piano ring"
      use(op);
      add(i, Pred.of("length", "longer"));
      return;
    }
    boolean takesMore =
        aspect.equals("fade")
            && items.stream().anyMatch(x -> x.is(Type.MORE))
            && items.stream().noneMatch(x -> x.is(Type.LESS));
    if (takesMore) {
      // "let the fade take 10 seconds more"
      use(op);
      useAll(Type.MORE);
      add(i, Pred.of(aspect, more));
      return;
    }
    boolean put = op >= 0 && op < quality && items.get(op).a().equals("add") && !modified(quality);
    if (put) {
      // "throw a long delay on the last word"
      use(op);
      use(quality);
      add(i, Pred.of(aspect, more));
      return;
    }
    boolean disliked = op < 0 && i > 0 && type(i - 1) == Type.DISLIKE;
    if (disliked && Set.of("reverb", "delay", "distortion").contains(aspect)) {
      // "a weird echo"
      use(i - 1);
      add(i, Pred.of(aspect, less).asComplaint());
    } else if (none(i)) {
      use(op);
      add(i, Pred.of(aspect, less));
    } else if (op < 0 && quality < 0 && offAfter(i)) {
      // "reverb off the snare"
      use(i + 1);
      add(i, Pred.of(aspect, less));
    } else if (op < 0 && segment.has(Type.HALF)) {
      add(i, Pred.of(aspect, less));
    } else if (aspect.equals("distortion")
        && op < 0
        && copulaBefore(i)
        && !negated
        && quality < 0) {
      // "I'm hearing distortion on the lead"
      add(i, Pred.of(aspect, less).asComplaint());
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
    } else if (negated && !aspect.equals("timing")) {
      add(i, Pred.of(aspect, more).asComplaint());
    } else if (degrees.signedNear(i) != 0 && !aspect.equals("timing")) {
      add(i, Pred.of(aspect, degrees.signedNear(i) > 0 ? more : less));
    } else if (putOn(i)) {
      add(i, Pred.of(aspect, more));
    }
  }

  private boolean offAfter(int i) {
    return i + 2 < items.size()
        && items.get(i + 1).is(Type.PART)
        && items.get(i + 1).a().equals("off")
        && items.get(i + 2).is(Type.ELEM);
  }

  private boolean lastsBefore(int i) {
    Amount amount = degrees.number();
    String unit = amount == null ? "" : amount.unit().orElse("");
    return i > 0 && (unit.equals("s") || unit.equals("bars"));
  }

  private boolean ofGuitars() {
    return !segment.targets.isEmpty()
        && segment.targets.stream().allMatch(t -> t.contains("guitar"));
  }

  /** "No reverb on the snare please"; "there is no reverb" misses it. */
  private boolean none(int i) {
    boolean put = Set.of("reverb", "delay", "distortion", "compression").contains(items.get(i).a());
    boolean no = i > 0 && items.get(i - 1).is(Type.NEG) && items.get(i - 1).a().equals("no");
    return put && no && !copulaBefore(i);
  }

  /** "Grit on the vocals", "a bit of dirt on the bass": an order without a verb. */
  private boolean putOn(int i) {
    boolean some = type(0) == Type.DEG && i == 1;
    boolean effect =
        Set.of("delay", "distortion").contains(items.get(i).a())
            || items.get(i).a().equals("reverb") && i == 0 && !segment.heading
            || some && Set.of("reverb", "compression").contains(items.get(i).a());
    boolean before = false;
    boolean please = segment.hasPlease();
    for (int k = 0; k < items.size(); k++) {
      boolean kind = items.get(k).is(Type.PROP) && items.get(k).a().equals(items.get(i).a());
      boolean amount =
          k < i && (kind || items.get(k).is(Type.DEG) || items.get(k).is(Type.UNKNOWN));
      before |= k < i && !amount;
      boolean plain =
          items.get(k).is(Type.ELEM)
              || items.get(k).is(Type.ON)
              || items.get(k).is(Type.HER)
              || items.get(k).is(Type.PRON)
              || items.get(k).is(Type.DVERB);
      if (k > i && !plain && !items.get(k).is(Type.AUX)) {
        return false;
      }
    }
    boolean headed = segment.joint == Segment.Joint.HEADED;
    boolean whose = !segment.targets.isEmpty() || please || headed || segment.has(Type.PRON);
    return effect && !before && found.isEmpty() && !segment.asks && whose;
  }

  /** "Delay the strings by 20 ms": a verb. */
  boolean moves(int i) {
    Amount amount = degrees.number();
    boolean time = amount != null && amount.unit().filter("ms"::equals).isPresent();
    boolean object = i + 1 < items.size() && items.get(i + 1).is(Type.ELEM);
    return time && object;
  }

  /** "Her esses back up a bit". */
  private boolean givenBack(int i) {
    boolean back = items.stream().anyMatch(x -> x.is(Type.PART) && x.a().equals("back"));
    boolean come = items.stream().anyMatch(x -> x.is(Type.IN)) && mentionsLet();
    boolean given =
        items.stream().anyMatch(x -> x.is(Type.VERB) || x.is(Type.ADD) || x.is(Type.AUX));
    return items.get(i).a().equals("sibilance") && (back && given || come);
  }

  private boolean backUp(int op) {
    return op > 0
        && type(op) == Type.UP
        && type(op - 1) == Type.PART
        && items.get(op - 1).a().equals("back");
  }

  /** "Needs more edge": what is mostly a fault can be asked for. */
  boolean wishedFor(int i, int op) {
    String aspect = items.get(i).a();
    boolean either =
        aspect.equals("harshness")
            || aspect.equals("sibilance")
            || op == i - 1 && op >= 0 && type(op) == Type.MORE && !aspect.equals("noise");
    return either
        && op >= 0
        && (op < i || type(op) == Type.IN && !items.get(op).a().equals("come") || backUp(op))
        && (type(op) == Type.IN
            || type(op) == Type.MORE
            || type(op) == Type.NOTENOUGH
            || backUp(op))
        && !copulaBefore(op)
        && !negatedBefore(i);
  }

  /** "The reverb is too long", "a quieter delay", "the fade is too quick". */
  Pred sized(String aspect, String more, String less, int quality) {
    Item item = items.get(quality);
    boolean big = item.b().equals("up") || item.b().equals("longer") || item.b().equals("wider");
    boolean fault = item.c().startsWith("bad");
    boolean please = segment.hasPlease();
    boolean wished = please && !modified(quality) && !copulaBefore(items.size());
    boolean grows = fault || wished ? big : big != excess(quality);
    Pred pred = Pred.of(aspect, grows ? more : less);
    return isComparative(item) ? pred : pred.asComplaint();
  }

  void effect(int i) {
    int op = operatorFor(i);
    if (op < 0 && negatedBefore(i) && !copulaBefore(i)) {
      add(i, Pred.of("effect", "out"));
      return;
    }
    if (op < 0 && i > 0 && type(i - 1) == Type.DISLIKE) {
      // "not a fan of the phone effect"
      use(i - 1);
      add(i, Pred.of("effect", "out").asComplaint());
      return;
    }
    int size = op < 0 ? oversized(i) : -1;
    if (size >= 0) {
      // "the flanger on the guitars is too loud"
      use(size);
      boolean big = items.get(size).b().equals("up");
      add(i, Pred.of("effect", big ? "out" : "in").asComplaint());
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

  private int oversized(int i) {
    for (int k = i + 1; k < items.size(); k++) {
      boolean level = items.get(k).is(Type.QUAL) && items.get(k).a().equals("level");
      if (level && modifier(k, Type.TOO) >= 0) {
        return k;
      }
    }
    return -1;
  }

  /** "Phaser off on the keys", "a telephone effect on the lead": an order without a verb. */
  void switched(int i) {
    if (items.stream().anyMatch(x -> x.is(Type.AUX) && !x.a().equals("please"))) {
      // "the outro should have that telephone sound"
      add(i, Pred.of("effect", negatedBefore(i) ? "out" : "in"));
      return;
    }
    boolean off = items.stream().anyMatch(x -> x.is(Type.PART) && x.a().equals("off"));
    boolean told =
        segment.has(Type.PURPOSE)
            || segment.has(Type.PRAISE)
            || copulaBefore(items.size())
            || segment.has(Type.KEEP);
    boolean asked = segment.asks && (segment.has(Type.WH) || segment.has(Type.PRON));
    if (off) {
      useAll(Type.PART);
      add(i, Pred.of("effect", "out"));
    } else if (!told
        && !segment.targets.isEmpty()
        && found.isEmpty()
        && !asked
        && !segment.heading) {
      add(i, Pred.of("effect", "in"));
    }
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

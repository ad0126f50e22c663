package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;

/** Reads what should happen out of the words of one segment. */
final class Predicates {
  private static final EnumSet<Type> RAISING =
      EnumSet.of(Type.UP, Type.IN, Type.ADD, Type.MORE, Type.NOTENOUGH);
  private static final EnumSet<Type> LOWERING =
      EnumSet.of(Type.DOWN, Type.LESS, Type.OUT, Type.CUT, Type.TOOMUCH);

  private final Segment segment;
  private final List<Item> items;
  private final boolean[] used;
  private final Degrees degrees;
  private final List<Pred> found = new ArrayList<>();

  private Predicates(Segment segment, List<Item> items) {
    this.segment = segment;
    this.items = withTooMuch(items);
    this.used = new boolean[items.size()];
    this.degrees = new Degrees(this.items);
  }

  /** "A bit much" is too much by a bit. */
  private static List<Item> withTooMuch(List<Item> items) {
    List<Item> read = new ArrayList<>(items);
    for (int i = 1; i < read.size(); i++) {
      boolean much = read.get(i).is(Type.DEG) && read.get(i).a().equals("much");
      if (much && read.get(i - 1).is(Type.DEG)) {
        read.set(i, read.get(i).as(Type.TOOMUCH));
      }
    }
    return read;
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
    segment.tellsWhen &= found.isEmpty();
  }

  // properties: "more top on the snare", "lose the mud", "a plosive"

  private void properties() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (item.is(Type.EFFECT)) {
        effect(i);
      } else if (item.is(Type.PROP) && !used[i]) {
        property(i);
      }
    }
  }

  private void property(int i) {
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
    if (quality >= 0) {
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
    }
  }

  /** "Delay the strings by 20 ms": a verb. */
  private boolean moves(int i) {
    Amount amount = degrees.number();
    boolean time = amount != null && amount.unit().filter("ms"::equals).isPresent();
    boolean object = i + 1 < items.size() && items.get(i + 1).is(Type.ELEM);
    return time && object;
  }

  /** "Needs more edge": what is mostly a fault can be asked for. */
  private boolean wishedFor(int i, int op) {
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
  private Pred sized(String aspect, String more, String less, int quality) {
    Item item = items.get(quality);
    boolean big = item.b().equals("up") || item.b().equals("longer") || item.b().equals("wider");
    boolean fault = item.c().startsWith("bad");
    boolean grows = fault ? big : big != excess(quality);
    Pred pred = Pred.of(aspect, grows ? more : less);
    return isComparative(item) ? pred : pred.asComplaint();
  }

  /** A size or level adjective that speaks of the property itself. */
  private int qualityFor(int i) {
    String aspect = items.get(i).a();
    for (int k = 0; k < items.size(); k++) {
      Item item = items.get(k);
      if (item.is(Type.QUAL) && !used[k]) {
        boolean size =
            item.a().equals("level")
                || item.a().equals("length")
                || (item.a().equals("impact") && Math.abs(k - i) == 1)
                || (item.a().equals("reverb") && aspect.equals("reverb"));
        boolean said = isComparative(item) || modified(k) || !item.c().startsWith("good");
        if (size && said && !items.get(i).b().equals("fix") && !aspect.equals("level")) {
          return k;
        }
      }
    }
    return -1;
  }

  private int operatorFor(int i) {
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

  private boolean mentionsLet() {
    return items.stream().anyMatch(i -> i.is(Type.AUX) && i.a().equals("let"));
  }

  private void effect(int i) {
    int op = operatorFor(i);
    if (op < 0) {
      switched(i);
      return;
    }
    boolean out = LOWERING.contains(type(op)) || negatedBefore(op);
    use(op);
    add(i, Pred.of("effect", out ? "out" : "in"));
  }

  /** "Phaser off on the keys", "a telephone effect on the lead": an order without a verb. */
  private void switched(int i) {
    boolean off =
        i + 1 < items.size()
            && items.get(i + 1).is(Type.PART)
            && items.get(i + 1).a().equals("off");
    boolean last = off || items.stream().anyMatch(x -> x.is(Type.PART) && x.a().equals("off"));
    boolean told = segment.has(Type.PRAISE) || copulaBefore(items.size()) || segment.has(Type.KEEP);
    if (last) {
      useAll(Type.PART);
      add(i, Pred.of("effect", "out"));
    } else if (!told && !segment.asks && !segment.targets.isEmpty() && found.isEmpty()) {
      add(i, Pred.of("effect", "in"));
    }
  }

  // qualities: "too bright", "warmer", "boomy"

  private void qualities() {
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).is(Type.QUAL) && !used[i]) {
        quality(i);
      }
    }
  }

  private void quality(int i) {
    Item item = items.get(i);
    String kind = item.c();
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
    if (enough && (negated || lacking())) {
      add(i, Pred.of(item.a(), up).asComplaint());
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
    } else if (comparative || modifier(i, Type.MORE) >= 0) {
      use(modifier(i, Type.MORE));
      boolean observed = copulaBefore(i) && !asking();
      boolean lack = observed && (kind.startsWith("poor") || kind.startsWith("sore"));
      add(i, Pred.of(item.a(), lack ? opposite : up));
    } else if (causative(i)) {
      add(i, Pred.of(item.a(), up));
    } else if (degrees.wordBefore(i) != null) {
      add(i, Pred.of(item.a(), opposite).asComplaint());
    } else if (kind.startsWith("poor") || kind.startsWith("sore")) {
      add(i, Pred.of(item.a(), opposite).asComplaint().asGeneric());
    }
  }

  private boolean lacking() {
    for (Item item : items) {
      if (item.is(Type.AUX)) {
        return true;
      }
    }
    return false;
  }

  private static String opposite(String aspect, String direction) {
    for (String other : Vocabulary.directions(aspect)) {
      if (!other.equals(direction)) {
        return other;
      }
    }
    return direction;
  }

  /** "Make it bright", "should be wide": wished for, not complained about. */
  private boolean causative(int i) {
    for (int k = i - 1; k >= 0; k--) {
      if (items.get(k).is(Type.AUX) || items.get(k).is(Type.ADD)) {
        return modifier(i, Type.TOO) < 0 || items.get(k).is(Type.ADD);
      }
    }
    return false;
  }

  // words that say it all: "tighten", "tune", "hit harder"

  private void ready() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (item.is(Type.SAME)) {
        same(i);
      } else if (item.is(Type.PRED) && !used[i]) {
        boolean negated = negatedBefore(i);
        boolean fadeWord = item.a().equals("length") && mentionsProperty("fade");
        boolean ringWord = item.a().equals("length") && mentionsProperty("reverb");
        Pred pred = Pred.of(item.a(), item.b().split("/")[0]);
        if (fadeWord) {
          pred = Pred.of("fade", pred.direction());
        } else if (ringWord) {
          pred = Pred.of("reverb", pred.direction().equals("longer") ? "up" : "down");
        }
        int less = modifier(i, Type.LESS);
        if (!negated || less >= 0 || item.a().equals("impact")) {
          add(i, pred);
        }
      } else if (item.is(Type.SWAP)) {
        add(i, Pred.of("other", "any"));
      } else if (item.is(Type.BACKTO)) {
        add(i, Pred.of("other", "any"));
      } else if (item.is(Type.MATCH)) {
        add(i, Pred.of("level", "match"));
      } else if (item.is(Type.SETTO) && degrees.hasNumber()) {
        add(i, Pred.of("level", "set"));
      }
    }
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

  private boolean mentionsProperty(String aspect) {
    for (Item item : items) {
      if (item.is(Type.PROP) && item.a().equals(aspect)) {
        return true;
      }
    }
    return false;
  }

  private void stereo() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      boolean moved =
          nearVerb("pan")
              || nearVerb("move")
              || degrees.has()
              || near(i, Type.MORE)
              || nothingBut(i);
      if (item.is(Type.LEFT) || (item.is(Type.SIDE) && item.a().equals("left") && moved)) {
        pan(i, "left");
      } else if (item.is(Type.RIGHT) || (item.is(Type.SIDE) && moved)) {
        pan(i, "right");
      } else if (item.is(Type.CENTRE)) {
        pan(i, "centre");
      }
    }
  }

  /** "Shaker right": the part and the side, and no more. */
  private boolean nothingBut(int side) {
    for (int k = 0; k < items.size(); k++) {
      if (k != side && !items.get(k).is(Type.ELEM) && !items.get(k).is(Type.FILL)) {
        return false;
      }
    }
    return side > 0 && !segment.targets.isEmpty();
  }

  private void pan(int i, String side) {
    boolean said = modifier(i, Type.TOO) >= 0 || near(i, Type.TOOMUCH);
    if (said) {
      add(i, Pred.of("pan", side.equals("left") ? "right" : "left").asComplaint());
      return;
    }
    useAll(Type.MORE);
    useAll(Type.UP);
    useAll(Type.IN);
    add(i, Pred.of("pan", side));
  }

  // "the pad is swallowing the vocal", "can't hear the bass"

  private void masking() {
    for (int i = 0; i < items.size(); i++) {
      Type type = type(i);
      if (type == Type.COVERS && !negatedBefore(i)) {
        List<String> before = elements(0, i);
        if (before.size() > 1 && elements(i + 1, items.size()).isEmpty()) {
          // they fight each other: which one should give way?
          add(i, Pred.of("other", "any").asUnclear().asComplaint().about(before.subList(0, 1)));
          continue;
        }
        add(i, Pred.of("level", "down").asComplaint().about(before));
        if (before.isEmpty()) {
          segment.targets.clear();
        }
      } else if (type == Type.LOST) {
        List<String> before = elements(0, i);
        add(
            i,
            Pred.of("level", "up")
                .asComplaint()
                .about(before.isEmpty() ? elements(i + 1, items.size()) : before));
      } else if (type == Type.DOMINATES && !negatedBefore(i)) {
        add(i, Pred.of("level", "down").asComplaint());
      }
    }
  }

  private List<String> elements(int from, int to) {
    List<String> names = new ArrayList<>();
    for (int i = from; i < to; i++) {
      if (items.get(i).is(Type.ELEM) && segment.targets.contains(items.get(i).a())) {
        names.add(items.get(i).a());
      }
    }
    return names;
  }

  // "lose the tambourine", "bring the pad back in"

  /** "Back a bit" without a verb. */
  private boolean isBack(int i) {
    return items.get(i).is(Type.PART)
        && items.get(i).a().equals("back")
        && degrees.has()
        && found.isEmpty();
  }

  private void presence() {
    for (int i = 0; i < items.size(); i++) {
      if (used[i]) {
        continue;
      }
      Type type = type(i);
      if (type == Type.VERB && !items.get(i).a().equals("pan")) {
        particle(i);
      } else if (isBack(i)) {
        add(i, Pred.of("level", "down").asGeneric());
      } else if (type == Type.OUT || type == Type.CUT) {
        take(i);
      } else if (type == Type.IN && items.get(i).a().equals("come") && !asking()) {
        // "the strings come in": tells when, asks nothing
        segment.openEvent = true;
        segment.tellsWhen = true;
      } else if (type == Type.IN && items.stream().anyMatch(x -> x.is(Type.SIDED))) {
        add(i, Pred.of("other", "any"));
      } else if (type == Type.IN && !settled() && !negatedBefore(i)) {
        add(i, Pred.of("mute", "in"));
      } else if (type == Type.NEG && items.get(i).a().equals("no")) {
        boolean part = i + 1 < items.size() && items.get(i + 1).is(Type.ELEM);
        if (part && found.isEmpty() && !items.get(i + 1).a().equals(Vocabulary.MIX)) {
          add(i, Pred.of("mute", "out"));
        }
      }
    }
  }

  private boolean settled() {
    for (Pred pred : found) {
      if (!pred.complaint()) {
        return true;
      }
    }
    return false;
  }

  private void take(int i) {
    Amount amount = degrees.number();
    String unit = amount == null ? "" : amount.unit().orElse("");
    boolean takes = type(i) == Type.OUT;
    // "more low end out of the kick"
    boolean bare = items.get(i).end() - items.get(i).start() == 3;
    if (takes && bare && settled()) {
      return;
    }
    if (unit.equals("bars") || unit.equals("s")) {
      add(i, Pred.of("length", "shorter"));
    } else if (unit.equals("dB") || (!takes && (degrees.has() || near(i, Type.DOWN)))) {
      use(i);
      add(i, Pred.of("level", "down"));
      useAll(Type.DOWN);
    } else if (takes && !negatedBefore(i)) {
      boolean already = found.stream().anyMatch(p -> p.aspect().equals("noise"));
      if (!already) {
        boolean section = segment.targets.isEmpty() && placeAfter(items.get(i));
        add(i, section ? Pred.of("length", "shorter") : Pred.of("mute", "out").asGeneric());
      }
    } else if (!takes && segment.targets.isEmpty() && placeAfter(items.get(i))) {
      add(i, Pred.of("length", "shorter"));
    } else if (!takes && !segment.targets.isEmpty() && !settled() && !part(i)) {
      add(i, Pred.of("mute", "out"));
    }
  }

  /** "Cut the bridge": the object is a section. */
  private boolean placeAfter(Item verb) {
    List<Item> all = segment.items;
    int at = all.indexOf(verb);
    return at >= 0
        && at + 1 < all.size()
        && all.get(at + 1).is(Type.PLACE)
        && all.get(at + 1).place().is(Place.Kind.SECTIONS);
  }

  private boolean part(int i) {
    for (int k = i + 1; k < items.size(); k++) {
      if (items.get(k).is(Type.UP) || items.get(k).is(Type.DOWN)) {
        return true;
      }
    }
    return false;
  }

  private void particle(int verb) {
    for (int k = verb + 1; k < items.size() && k <= verb + 4; k++) {
      if (!items.get(k).is(Type.PART)) {
        continue;
      }
      String does = items.get(verb).a() + " " + items.get(k).a();
      if (does.equals("bring back") && degrees.has()) {
        does = "pull back";
      }
      used[k] = true;
      switch (does) {
        case "bring in", "bring back" -> {
          if (!settled()) {
            add(verb, Pred.of("mute", "in").asGeneric());
          }
        }
        case "pull back",
            "dial back",
            "pull in",
            "pull off",
            "roll off",
            "knock off",
            "knock back",
            "dial off",
            "roll back",
            "turn back" ->
            add(verb, Pred.of("level", "down").asGeneric());
        case "dial in" -> add(verb, Pred.of("level", "up").asGeneric());
        case "move back" -> add(verb, Pred.of("timing", "later"));
        default -> {}
      }
      return;
    }
  }

  // "vox +1", "more cowbell", "bring it down a touch"

  private void levels() {
    boolean level = found.stream().anyMatch(p -> p.aspect().equals("level"));
    for (int i = 0; i < items.size(); i++) {
      Type type = type(i);
      boolean aims =
          i + 1 < items.size() && items.get(i + 1).is(Type.VAGUEAIM)
              // "fatten it up"
              || i > 1 && type(i - 1) == Type.PRON && type(i - 2) == Type.PRED;
      if (used[i] || aims) {
        continue;
      }
      if (type == Type.UP && !negatedBefore(i)) {
        add(i, Pred.of("level", "up").asGeneric());
        level = true;
      } else if (type == Type.DOWN && !negatedBefore(i)) {
        add(i, Pred.of("level", "down").asGeneric());
        level = true;
      } else if (type == Type.TOOMUCH && found.isEmpty()) {
        add(i, Pred.of("level", "down").asComplaint().asGeneric());
        level = true;
      } else if ((type == Type.MORE || type == Type.NOTENOUGH) && found.isEmpty()) {
        lengthOrLevel(i);
        level = true;
      } else if (type == Type.LESS && found.isEmpty()) {
        add(i, Pred.of("level", "down").asGeneric());
        level = true;
      } else if (type == Type.ADD && found.isEmpty() && lengthUnit()) {
        lengthOrLevel(i);
      }
    }
    if (!level && found.isEmpty() && degrees.sign() != 0) {
      found.add(
          Pred.of("level", degrees.sign() > 0 ? "up" : "down").with(degrees.amountFor("level", 0)));
    }
    if (found.isEmpty() && !segment.targets.isEmpty() && mentionsAdding()) {
      found.add(Pred.of("mute", "in"));
    }
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

  // what nobody could act on

  private void vague() {
    for (int i = 0; i < items.size(); i++) {
      Item item = items.get(i);
      if (item.is(Type.DISLIKE)) {
        add(i, Pred.of("other", "any").asUnclear().asComplaint());
        return;
      }
      if (item.is(Type.PREFER) && compared()) {
        add(i, Pred.of("other", "any").asUnclear().asComplaint());
        return;
      }
      if (item.is(Type.VAGUEAIM) && asking()) {
        add(i, Pred.of("other", "any").asUnclear());
        return;
      }
    }
  }

  private boolean compared() {
    return segment.has(Type.REF)
        || segment.has(Type.VERSION)
        || segment.items.stream()
            .anyMatch(i -> i.is(Type.PLACE) && i.place().words().matches("v ?\\d+"));
  }

  // helpers

  static boolean isComparative(Item item) {
    return item.c().endsWith("+");
  }

  /** Too loud, or plainly loud. */
  private boolean excess(int quality) {
    return !isComparative(items.get(quality))
        && modifier(quality, Type.MORE) < 0
        && !causative(quality)
        && !(negatedBefore(quality) && near(quality, Type.ENOUGH));
  }

  private boolean modified(int i) {
    return modifier(i, Type.TOO) >= 0 || modifier(i, Type.MORE) >= 0 || modifier(i, Type.LESS) >= 0;
  }

  /** A modifier directly before, words of degree aside. */
  private int modifier(int i, Type wanted) {
    for (int k = i - 1; k >= 0 && k >= i - 3; k--) {
      Type type = type(k);
      if (type == wanted) {
        return k;
      }
      if (type != Type.DEG && type != Type.TOO && type != Type.MORE && type != Type.LESS) {
        return -1;
      }
    }
    return -1;
  }

  private boolean negatedBefore(int i) {
    for (int k = i - 1; k >= 0 && k >= i - 4; k--) {
      Type type = type(k);
      if (type == Type.NEG) {
        return true;
      }
      boolean between =
          type == Type.TOO
              || type == Type.DEG
              || type == Type.MORE
              || type == Type.COPULA
              || type == Type.ADD
              || type == Type.AUX
              || type == Type.QUAL
              || type == Type.UNKNOWN;
      if (!between) {
        return false;
      }
    }
    return false;
  }

  private boolean order(int i) {
    for (int k = 0; k < i; k++) {
      if (items.get(k).is(Type.NEG) && !items.get(k).a().equals("is")) {
        return true;
      }
    }
    return false;
  }

  private boolean copulaBefore(int i) {
    for (int k = 0; k < i; k++) {
      if (items.get(k).is(Type.COPULA)) {
        return true;
      }
    }
    return false;
  }

  private boolean asking() {
    for (Item item : items) {
      if (item.is(Type.AUX) || item.is(Type.ADD) || item.is(Type.MORE) || item.is(Type.NOTENOUGH)) {
        return true;
      }
    }
    return false;
  }

  private boolean near(int i, Type wanted) {
    for (int k = Math.max(0, i - 3); k < items.size() && k <= i + 2; k++) {
      if (items.get(k).is(wanted)) {
        return true;
      }
    }
    return false;
  }

  private boolean nearVerb(String verb) {
    return items.stream().anyMatch(i -> i.is(Type.VERB) && i.a().equals(verb));
  }

  private Type type(int i) {
    return items.get(i).type();
  }

  private void use(int i) {
    if (i >= 0) {
      used[i] = true;
    }
  }

  private void useAll(Type type) {
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).is(type)) {
        used[i] = true;
      }
    }
  }

  private void add(int i, Pred pred) {
    used[i] = true;
    found.add(pred.with(degrees.amountFor(pred.aspect(), i)));
  }
}

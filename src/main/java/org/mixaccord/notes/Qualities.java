package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Wishes said with adjectives: "too bright", "warmer", "boomy". */
abstract class Qualities extends Properties {
  private static final EnumSet<Type> MOVES =
      EnumSet.of(Type.MORE, Type.LESS, Type.UP, Type.DOWN, Type.OUT, Type.CUT);

  /** Adjectives of these are verbs too: "warm it up", "dry it out". */
  private static final Set<String> VERBS =
      Set.of("low mids", "reverb", "highs", "distortion", "lows");

  Qualities(Segment segment, List<Item> items) {
    super(segment, items);
  }

  void qualities() {
    for (int i = 0; i < items.size(); i++) {
      if (items.get(i).is(Type.QUAL) && !used[i]) {
        quality(i);
      }
    }
  }

  /** "Dry vocal in the bridge", "wide guitars": how it is to be, not how it is. */
  private boolean worn(int i) {
    Item item = items.get(i);
    boolean treated = Set.of("reverb", "width", "distortion").contains(item.a());
    boolean plain =
        !item.c().startsWith("bad") && !isComparative(item) && !copulaBefore(items.size());
    // "distorted vocal at 2:20" is heard, "distorted guitars please" is wished for
    boolean heard = item.a().equals("distortion") && !asking() && !segment.pleads;
    return treated
        && plain
        && !heard
        && i == 0
        && items.size() > 1
        && type(1) == Type.ELEM
        && items.get(1).start() - item.end() == 1
        && !segment.has(Type.PRAISE);
  }

  /** "Warm the pad up", "dry her out": an order to make it so. */
  private boolean ordered(int i) {
    Item item = items.get(i);
    boolean first = i == 0 || i == 1 && (type(0) == Type.AUX || type(0) == Type.ADD);
    boolean verb = VERBS.contains(item.a()) && !isComparative(item) && !item.c().startsWith("bad");
    int last = items.size() - 1;
    for (int k = i + 1; k <= last && first && verb; k++) {
      boolean object = type(k) == Type.ELEM || type(k) == Type.PRON || type(k) == Type.HER;
      boolean particle = (type(k) == Type.UP || type(k) == Type.OUT) && k > i + 1;
      if (particle && items.get(k).end() - items.get(k).start() <= "out".length()) {
        use(k);
        return true;
      }
      if (!object && type(k) != Type.SIDE) {
        return false;
      }
    }
    return false;
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
    if (item.a().equals("impact") && nearVerb("pan")) {
      // "don't pan the toms so hard"
      boolean back = modifier(i, Type.TOO) >= 0 || modifier(i, Type.LESS) >= 0 || negatedBefore(i);
      if (back || !copulaBefore(i)) {
        add(i, Pred.of("width", back ? "narrower" : "wider"));
        return;
      }
    }
    boolean moreBehind = i + 2 == items.size() && type(i + 1) == Type.MORE;
    if (moreBehind && kind.startsWith("good") && !copulaBefore(i)) {
      // "drums glued more"
      use(i + 1);
      add(i, Pred.of(item.a(), item.b()));
      return;
    }
    if (ordered(i)) {
      add(i, Pred.of(item.a(), item.b()));
      return;
    }
    int so = modifier(i, Type.TOO);
    if (so >= 0
        && items.get(so).a().equals("so")
        && item.a().equals("impact")
        && kind.startsWith("good")
        && !order(i)) {
      // "hits so hard": liked
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
    boolean should = segment.has(Type.AUX);
    boolean wished = asking() && (should || !copulaBefore(i));
    boolean be = i > 0 && type(i - 1) == Type.COPULA;
    boolean must =
        be && items.stream().limit(i).anyMatch(x -> x.is(Type.AUX) && x.a().equals("must"));
    if (bad && must && modifier(i, Type.TOO) < 0 && !negated && less < 0) {
      // "the intro should be small": wished for
      add(i, Pred.of(item.a(), opposite(item.a(), up)));
      return;
    }
    boolean more =
        modifier(i, Type.MORE) >= 0 && modifier(i, Type.TOO) < 0 && (should || !copulaBefore(i));
    if (bad && more && less < 0 && !negated) {
      // "synth more nasal please"
      use(modifier(i, Type.MORE));
      add(i, Pred.of(item.a(), opposite(item.a(), up)));
      return;
    }
    boolean made =
        i >= 2
            && type(i - 2) == Type.ADD
            && (type(i - 1) == Type.PRON || type(i - 1) == Type.ELEM)
            && !items.get(i - 2).a().equals("add");
    if (bad && (comparative || made) && less < 0 && !negated && wished) {
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
      // "half as wide"; "is half as loud" is seen
      boolean seen = copulaBefore(i) && !asking();
      add(i, seen ? Pred.of(item.a(), up).asComplaint() : Pred.of(item.a(), opposite));
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
    return segment.has(Type.AUX);
  }
}

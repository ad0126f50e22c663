package org.mixaccord.notes;

import java.util.List;
import java.util.Set;

/** Wishes for a part to go or to come: "lose the shaker", "bring the pad back in". */
abstract class Presence extends Masking {
  private static final Set<String> LOWERED =
      Set.of("roll off", "pull back", "dial back", "pull off");

  Presence(Segment segment, List<Item> items) {
    super(segment, items);
  }

  // "lose the tambourine", "bring the pad back in"

  /** "Back a bit" without a verb. */
  private boolean isBack(int i) {
    return items.get(i).is(Type.PART)
        && items.get(i).a().equals("back")
        && (degrees.has() || follows(i))
        && found.isEmpty();
  }

  /** "The build needs the riser back". */
  private boolean isWantedBack(int i) {
    boolean back = type(i) == Type.PART && items.get(i).a().equals("back");
    boolean part = i > 0 && (type(i - 1) == Type.ELEM || type(i - 1) == Type.PRON);
    int verb = i - 2;
    if (verb < 0) {
      return false;
    }
    while (verb > 0
        && (type(verb) == Type.MORE || type(verb) == Type.QUAL || type(verb) == Type.PRON)) {
      verb--;
    }
    boolean wanted = part && (type(verb) == Type.ADD || type(verb) == Type.COPULA);
    return back && wanted && asking();
  }

  private boolean isOffPlease(int i) {
    boolean off = i == 0 && type(i) == Type.PART && items.get(i).a().equals("off");
    return off && items.size() == 1 && segment.pleads;
  }

  private boolean stepBefore(int i) {
    boolean step =
        i > 0
            && items.get(i - 1).is(Type.AMOUNT)
            && items.get(i - 1).amount().unit().orElse("").equals("dB");
    return step && found.isEmpty() && i + 1 < items.size() && items.get(i + 1).is(Type.ELEM);
  }

  private boolean some() {
    return items.stream().anyMatch(x -> x.is(Type.DEG) && x.a().equals("some"));
  }

  /** "Bring the vocals forward and the guitars back". */
  private boolean follows(int i) {
    boolean joined = segment.joint == Segment.Joint.AND || segment.joint == Segment.Joint.COMMA;
    return joined && i == items.size() - 1 && i > 0 && items.get(i - 1).is(Type.ELEM);
  }

  /** "A hair back in the verse": back, in the verse. */
  private boolean backABit(int i) {
    boolean degree = i > 0 && items.get(i - 1).is(Type.DEG);
    int at = segment.items.indexOf(items.get(i));
    boolean place = at + 1 < segment.items.size() && segment.items.get(at + 1).is(Type.PLACE);
    return degree && place && items.get(i).b().equals("back");
  }

  void presence() {
    for (int i = 0; i < items.size(); i++) {
      if (used[i]) {
        continue;
      }
      Type type = type(i);
      if (type == Type.VERB && !items.get(i).a().equals("pan")) {
        particle(i);
      } else if (type == Type.UP && items.get(i).a().equals("push") && inTime()) {
        use(i);
      } else if (type == Type.UP && items.get(i).a().equals("push") && pushedBack(i)) {
        use(i);
        Amount amount = degrees.number();
        boolean time = amount != null && !amount.unit().orElse("").equals("dB");
        add(i, time ? Pred.of("timing", "later") : Pred.of("level", "down").asGeneric());
      } else if (type == Type.PART
          && items.get(i).a().equals("off")
          && items.size() == 1
          && segment.has(Type.PLACE)) {
        // "keys up in V1, off in the bridge"
        add(i, Pred.of("mute", "out").asGeneric());
      } else if (type == Type.PART && items.get(i).a().equals("off") && stepBefore(i)) {
        // "1 dB off the bass"
        add(i, Pred.of("level", "down").asGeneric());
      } else if (isOffPlease(i)) {
        add(i, Pred.of("mute", "out").asGeneric());
      } else if (isWantedBack(i)) {
        add(i, Pred.of("mute", "in"));
      } else if (isBack(i) && segment.targets.isEmpty() && some()) {
        // "put some back"
        add(i, Pred.of("mute", "in").asGeneric());
      } else if (isBack(i)) {
        add(i, Pred.of("level", "down").asGeneric());
      } else if (goes(i)) {
        add(i, Pred.of("mute", "out"));
      } else if (type == Type.OUT && i == items.size() - 1 && i > 1 && type(0) == Type.IN) {
        // "where's the cowbell gone?"
        use(i);
      } else if (type == Type.OUT && i + 1 < items.size() && type(i + 1) == Type.MORE) {
        // "I don't need more drums"
        use(i);
        use(i + 1);
      } else if (type == Type.OUT || type == Type.CUT) {
        take(i);
      } else if (type == Type.IN && items.get(i).a().equals("come") && tellsWhen()) {
        // "the strings come in": tells when, asks nothing
        segment.openEvent = true;
        segment.tellsWhen = true;
      } else if (type == Type.IN && items.stream().anyMatch(x -> x.is(Type.SIDED))) {
        add(i, Pred.of("other", "any"));
      } else if (type == Type.IN && !found.isEmpty() && segment.targets.isEmpty() && onlyFaults()) {
        // "the harsh thing is gone": good news
        found.clear();
      } else if (type == Type.IN && segment.has(Type.THING) && segment.targets.isEmpty()) {
        // "where are the stems?": asks for a file, not for a part
        use(i);
      } else if (type == Type.IN && backABit(i)) {
        add(i, Pred.of("level", "down").asGeneric());
      } else if (type == Type.IN && !settled() && !negatedBefore(i)) {
        add(i, Pred.of("mute", "in"));
      } else if (type == Type.ADD && i > 0 && isOrder(i - 1) && nothingButIt(i)) {
        // "I hear autotune. Don't want that"
        add(i, Pred.of("mute", "out").asGeneric());
      } else if (type == Type.NEG && items.get(i).a().equals("no")) {
        boolean part = i + 1 < items.size() && items.get(i + 1).is(Type.ELEM);
        boolean none = items.get(i).end() - items.get(i).start() <= "zero".length();
        if (none && part && found.isEmpty() && !items.get(i + 1).a().equals(Vocabulary.MIX)) {
          add(i, isMissed(i) ? Pred.of("mute", "in").asComplaint() : Pred.of("mute", "out"));
        }
      }
    }
  }

  /** "Why is there no bass in the intro?", but not "there should be no bass". */
  private boolean isMissed(int no) {
    List<Item> before = items.subList(0, no);
    boolean there = no > 0 && type(no - 1) == Type.COPULA || no > 1 && type(no - 2) == Type.COPULA;
    boolean why = before.stream().anyMatch(x -> x.is(Type.WH));
    boolean told = before.stream().anyMatch(x -> x.is(Type.AUX) || x.is(Type.ADD));
    return (why || there) && !told;
  }

  private boolean tellsWhen() {
    boolean timed = items.stream().anyMatch(x -> x.is(Type.QUAL) && x.a().equals("timing"));
    boolean asked = items.stream().anyMatch(x -> x.is(Type.AUX) || x.is(Type.ADD));
    return !asking() || segment.pleads && timed && !asked;
  }

  /** "Can the spoken bit go?". */
  private boolean goes(int i) {
    boolean last = i == items.size() - 1 && items.get(i).a().equals("go");
    return last && type(i) == Type.COPULA && type(0) == Type.AUX && found.isEmpty();
  }

  /** "Push them back". */
  /** "Push it later". */
  private boolean inTime() {
    return found.stream().anyMatch(p -> p.aspect().equals("timing"));
  }

  private boolean pushedBack(int i) {
    for (int k = i + 1; k < items.size() && k <= i + 3; k++) {
      if (type(k) == Type.PART && items.get(k).a().equals("back")) {
        used[k] = true;
        return true;
      }
    }
    return false;
  }

  private boolean isOrder(int i) {
    return type(i) == Type.NEG && items.get(i).a().equals("order");
  }

  private boolean nothingButIt(int want) {
    boolean it =
        want + 1 == items.size() || want + 2 == items.size() && type(want + 1) == Type.PRON;
    return it && segment.targets.isEmpty();
  }

  private boolean onlyFaults() {
    return found.stream().allMatch(Pred::complaint);
  }

  boolean settled() {
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
    if (takes && bare && nearVerb("bring") && !settled()) {
      // "bring the bass out"
      add(i, Pred.of("level", "up"));
      return;
    }
    if (takes && bare && items.stream().limit(i).anyMatch(x -> x.is(Type.DISLIKE))) {
      // "sort the kick out"
      use(i);
      return;
    }
    boolean fault =
        takes
            && i + 1 < items.size()
            && items.get(i + 1).is(Type.QUAL)
            && items.get(i + 1).c().startsWith("bad")
            && !found.isEmpty();
    if (fault) {
      // "get rid of the clipping"
      use(i);
      return;
    }
    boolean some = found.stream().anyMatch(p -> !p.aspect().equals("level"));
    if (takes && bare && (settled() || some && (used[0] || type(0) == Type.CUT))) {
      return;
    }
    boolean mutes = items.get(i).a().equals("mute");
    if ((unit.equals("bars") || unit.equals("s")) && !mutes) {
      add(i, Pred.of("length", "shorter"));
    } else if (unit.equals("dB") && segment.has(Type.NUMBER) && !takes && !segment.targets.isEmpty()
        || unit.equals("dB")
        || (!takes && (degrees.has() || near(i, Type.DOWN)))) {
      use(i);
      add(i, Pred.of("level", "down").asGeneric());
      useAll(Type.DOWN);
    } else if (takes && !negatedBefore(i)) {
      boolean already = found.stream().anyMatch(p -> p.aspect().equals("noise"));
      if (!already) {
        boolean it = segment.has(Type.PRON);
        boolean section = segment.targets.isEmpty() && !it && placeAfter(items.get(i));
        add(i, section ? Pred.of("length", "shorter") : Pred.of("mute", "out").asGeneric());
      }
    } else if (!takes && segment.targets.isEmpty() && segment.has(Type.HALF)) {
      add(i, Pred.of("length", "shorter").asGeneric());
    } else if (!takes && segment.targets.isEmpty() && placeAfter(items.get(i))) {
      add(i, Pred.of("length", "shorter"));
    } else if (!takes && !segment.targets.isEmpty() && !settled() && !part(i)) {
      add(i, Pred.of("mute", "out"));
    }
  }

  /** "Cut the bridge": the object is a section. */
  private boolean placeAfter(Item verb) {
    if (segment.within) {
      return false;
    }
    List<Item> all = segment.items;
    int at = all.indexOf(verb);
    at += at >= 0 && at + 1 < all.size() && all.get(at + 1).is(Type.PRON) ? 1 : 0;
    return at >= 0
        && at + 1 < all.size()
        && all.get(at + 1).is(Type.PLACE)
        && (all.get(at + 1).place().is(Place.Kind.SECTIONS)
            || all.get(at + 1).place().to() > all.get(at + 1).place().from());
  }

  private boolean part(int i) {
    for (int k = i + 1; k < items.size(); k++) {
      if (items.get(k).is(Type.UP) || items.get(k).is(Type.DOWN)) {
        return true;
      }
    }
    return false;
  }

  private int rangeBetween(int from, int to) {
    for (int k = from + 1; k < to; k++) {
      Item item = items.get(k);
      boolean ranged = item.is(Type.PROP) && item.b().equals("-");
      if (ranged && Vocabulary.directions(item.a()).size() > 1 && !item.a().equals("level")) {
        return k;
      }
    }
    return -1;
  }

  private void particle(int verb) {
    boolean pulls = items.get(verb).a().equals("pull") && !segment.targets.isEmpty();
    boolean whole =
        items.stream().noneMatch(x -> x.is(Type.PART) || x.is(Type.UP) || x.is(Type.DOWN));
    if (pulls && whole && degrees.hasNumber() && found.isEmpty()) {
      // "pull the sub 1.5"
      add(verb, Pred.of("level", "down"));
      return;
    }
    for (int k = verb + 1; k < items.size() && k <= verb + 4; k++) {
      if (!items.get(k).is(Type.PART)) {
        continue;
      }
      boolean upAgain = k + 1 < items.size() && type(k + 1) == Type.UP;
      if (upAgain && items.get(k).a().equals("back")) {
        // "bring the piano back up"
        used[k] = true;
        return;
      }
      String does = items.get(verb).a() + " " + items.get(k).a();
      boolean some = items.stream().anyMatch(x -> x.is(Type.DEG) && x.a().equals("some"));
      if (does.equals("bring back") && degrees.has() && !(some && segment.targets.isEmpty())) {
        does = "pull back";
      }
      used[k] = true;
      int range = LOWERED.contains(does) ? rangeBetween(verb, k) : -1;
      if (range >= 0) {
        // "roll the lows off"
        String aspect = items.get(range).a();
        found.removeIf(p -> p.aspect().equals(aspect));
        used[verb] = true;
        add(range, Pred.of(aspect, Vocabulary.directions(aspect).get(1)));
        return;
      }
      Amount step = degrees.number();
      boolean share = step != null && step.unit().orElse("").equals("%");
      if (does.equals("pull in") && share) {
        // "pull them in 30 %"
        add(verb, Pred.of("width", "narrower"));
        return;
      }
      boolean late = step != null && step.unit().orElse("").equals("ms");
      if (late && items.get(k).a().equals("back")) {
        // "pull them back 15 ms"
        found.removeIf(p -> p.aspect().equals("timing"));
        add(verb, Pred.of("timing", "later"));
        return;
      }
      boolean together = found.stream().anyMatch(p -> p.aspect().equals("width"));
      if (does.equals("pull in") && together) {
        // "pull them in closer together"
        return;
      }
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
        case "turn off" -> add(verb, Pred.of("mute", "out").asGeneric());
        case "dial in" -> add(verb, Pred.of("level", "up").asGeneric());
        case "move back" -> add(verb, Pred.of("timing", "later"));
        case "hold back" -> {
          boolean section = segment.targets.isEmpty() && segment.has(Type.PLACE);
          if (section && !degrees.hasNumber()) {
            add(verb, Pred.of("impact", "down"));
          } else if (degrees.hasNumber()) {
            Amount amount = degrees.number();
            boolean decibels = amount.unit().orElse("").equals("dB");
            add(verb, decibels ? Pred.of("level", "down") : Pred.of("timing", "later"));
          }
        }
        default -> {}
      }
      return;
    }
  }
}

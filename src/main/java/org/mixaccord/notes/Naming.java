package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;

/** Reads segments that name a part or a place and say nothing of it. */
final class Naming {
  private static final EnumSet<Type> PLAIN =
      EnumSet.of(Type.AMOUNT, Type.NUMBER, Type.PLACE, Type.FILL, Type.DEG);

  /** How far back a place in brackets reaches, in segments. */
  private static final int LAST_FEW = 3;

  private final Walk walk;

  Naming(Walk walk) {
    this.walk = walk;
  }

  void bare(int i, List<Place> named) {
    Segment segment = walk.segments.get(i);
    boolean same = segment.has(Type.SAME) && segment.joint == Segment.Joint.HEADED;
    // "V2: same"
    List<Place> own = named.isEmpty() && same ? walk.inheritedPlaces() : named;
    boolean more = segment.has(Type.UNKNOWN) || segment.has(Type.COPULA);
    List<Item> said = segment.items;
    boolean stays = said.size() > 1 && said.get(said.size() - 1).is(Type.SAME);
    // "bass same" changes nothing
    boolean unchanged = stays && said.get(said.size() - 2).is(Type.ELEM);
    // "And snare: thin" has a wish of its own
    boolean again =
        !segment.heading
            && (segment.has(Type.SAMEAGAIN)
                || segment.has(Type.ALSOTHIS) && !more
                || segment.adds
                    && (segment.items.stream().allMatch(x -> x.is(Type.ELEM)) || onlyPlaces(i))
                || segment.has(Type.SAME) && !unchanged);
    boolean amountOnly =
        segment.targets.isEmpty()
            && own.isEmpty()
            && (segment.has(Type.AMOUNT)
                || segment.has(Type.NUMBER)
                || segment.has(Type.HALF)
                || segment.has(Type.DEG));
    boolean exempt = segment.has(Type.NEG) || segment.has(Type.EXCEPT);
    boolean no =
        said.size() == 1
            && said.get(0).is(Type.NEG)
            && segment.joint == Segment.Joint.HEADED
            && !walk.carried.headElements.isEmpty();
    boolean off =
        said.size() == 1
            && said.get(0).is(Type.PART)
            && said.get(0).a().equals("off")
            && segment.joint == Segment.Joint.HEADED
            && !walk.carried.headElements.isEmpty();
    if (off) {
      // "chorus effect on the pad: off"
      boolean effect = "effect".equals(walk.carried.removable);
      for (String element : walk.carried.headElements) {
        Pred out = Pred.of(effect ? "effect" : "mute", "out");
        walk.drafts.add(new Draft(element, out, walk.inheritedPlaces(), segment, i));
      }
    } else if (no) {
      // "Chorus guitars: no."
      for (String element : walk.carried.headElements) {
        Pred doubt = Pred.of("other", "any").asUnclear().asComplaint();
        walk.drafts.add(new Draft(element, doubt, walk.inheritedPlaces(), segment, i));
      }
    } else if (isNot(segment) && i > 0 && walk.segments.get(i - 1).has(Type.PRAISE)
        || isButFor(i)) {
      for (String element : segment.targets) {
        Pred doubt = Pred.of("other", "any").asUnclear().asComplaint();
        walk.drafts.add(new Draft(element, doubt, own, segment, i));
      }
    } else if (amountOnly && segment.items.size() <= 3) {
      walk.drafts.amount(segment);
    } else if (segment.has(Type.ONLY)
        && !segment.targets.isEmpty()
        && own.isEmpty()
        && walk.drafts.narrow(segment, i)) {
      walk.carried.mention(segment.targets, segment.sentence);
      return;
    } else if (notThere(segment)) {
      for (String element : walk.carried.headElements) {
        walk.drafts.add(new Draft(element, Pred.of("mute", "out"), segment.excluded, segment, i));
      }
    } else if (otherAmount(segment, own)) {
      walk.drafts.elsewhere(segment, i, own);
    } else if (again && !walk.drafts.any() && walk.carried.lastProperty != null && !own.isEmpty()) {
      another(i, own);
    } else if (again && walk.drafts.any() && (!segment.targets.isEmpty() || !own.isEmpty())) {
      walk.drafts.again(segment, i, segment.targets, own.isEmpty() ? List.of() : own);
    } else if (!segment.excluded.isEmpty()) {
      walk.drafts.exclude(segment, i, segment.excluded);
    } else if (exempt && segment.has(Type.PRAISE)) {
      walk.carried.mention(segment.targets, segment.sentence);
    } else if (exempt && segment.has(Type.ELEM) && walk.drafts.any()) {
      walk.drafts.spare(segment, i, segment.targets);
      return;
    } else if (exempt && notThis(segment)) {
      walk.drafts.keep(new Draft(segment.targets.get(0), null, own, segment, i));
    } else if (justThese(segment, own) && !placesOf(own).isEmpty()) {
      Pred out = Pred.of("mute", "out");
      walk.drafts.add(new Draft(Vocabulary.MIX, out, placesOf(own), segment, i));
    } else if (onlyThere(segment, own)) {
      for (String element : segment.targets) {
        Draft draft = new Draft(element, Pred.of("mute", "out"), List.of(), segment, i);
        draft.excluded.addAll(own);
        walk.drafts.add(draft);
      }
    } else if (segment.has(Type.ONLY) && !own.isEmpty() && segment.targets.isEmpty()) {
      restrict(i, own);
    } else if (!segment.targets.isEmpty() && own.isEmpty() && backward(i)) {
      walk.drafts.lend(segment, i, segment.targets);
    } else if (!own.isEmpty() && timeBehind(i, own)) {
      walk.drafts.lendPlaces(segment, i, own);
    } else if (!own.isEmpty() && segment.targets.isEmpty() && placeBackward(i)) {
      walk.drafts.lendPlaces(segment, i, own);
    } else if (!own.isEmpty()) {
      forwardPlace(segment, own);
      segment.leads = !segment.has(Type.PRAISE);
    }
    segment.leads |= segment.heading;
    if (segment.heading && !segment.targets.isEmpty()) {
      walk.carried.headElements = segment.targets;
    }
    boolean aside = segment.tellsWhen && walk.carried.elementSentence == segment.sentence;
    walk.carried.mention(aside ? List.of() : segment.targets, segment.sentence);
  }

  /** "Tambourine: yes in the choruses, no in the verses". */
  private boolean notThere(Segment segment) {
    Item first = segment.items.get(0);
    return first.is(Type.NEG)
        && first.a().equals("no")
        && segment.items.size() == 2
        && !segment.excluded.isEmpty()
        && !walk.carried.headElements.isEmpty();
  }

  /** "The vocal is lovely. The hats aren't". */
  private static boolean isNot(Segment segment) {
    Item last = segment.items.get(segment.items.size() - 1);
    boolean named = !segment.targets.isEmpty() && segment.items.size() <= 3;
    return named && last.is(Type.NEG) && last.a().equals("is");
  }

  /** "All good apart from the snare in the bridge". */
  private boolean isButFor(int i) {
    Segment segment = walk.segments.get(i);
    if (i == 0 || segment.joint != Segment.Joint.BUT || segment.targets.isEmpty()) {
      return false;
    }
    Segment before = walk.segments.get(i - 1);
    boolean all = before.targets.isEmpty() || before.targets.contains(Vocabulary.MIX);
    boolean bare = segment.items.stream().allMatch(x -> x.is(Type.ELEM) || x.is(Type.PLACE));
    return before.has(Type.PRAISE) && all && bare;
  }

  /** "Not the drums!" */
  private static boolean notThis(Segment segment) {
    boolean not = segment.items.get(0).is(Type.NEG) && segment.items.get(0).a().equals("not");
    return not && segment.targets.size() == 1 && segment.items.size() == 2;
  }

  /** "Vox up 1, 1.5 in the outro". */
  private boolean otherAmount(Segment segment, List<Place> own) {
    boolean number = segment.has(Type.AMOUNT) || segment.has(Type.NUMBER);
    boolean nothingElse = segment.items.stream().allMatch(x -> PLAIN.contains(x.type()));
    return number
        && nothingElse
        && !own.isEmpty()
        && segment.joint != Segment.Joint.SENTENCE
        && walk.drafts.any()
        && walk.drafts.lastSentence() == segment.sentence;
  }

  private List<Place> placesOf(List<Place> own) {
    return own.isEmpty() ? walk.inheritedPlaces() : own;
  }

  /** "Just piano and voice in the bridge": all the others are out there. */
  private boolean justThese(Segment segment, List<Place> own) {
    boolean goesOn = walk.drafts.any() && walk.drafts.lastSentence() == segment.sentence;
    // "strip out the drums, just pad and voice left"; "up in C2, only the lead in C3"
    boolean which = own.isEmpty() && walk.drafts.lastIsGone();
    boolean told = goesOn && (segment.targets.size() < 2 || which);
    return namesWhoStays(segment) && !told;
  }

  /** "Just piano …", where no part is named before. */
  private static boolean namesWhoStays(Segment segment) {
    int k = 0;
    while (k < segment.items.size() && !segment.items.get(k).is(Type.ONLY)) {
      if (segment.items.get(k).is(Type.ELEM) || segment.items.get(k).is(Type.COPULA)) {
        return false;
      }
      k++;
    }
    return k + 1 < segment.items.size() && segment.items.get(k + 1).is(Type.ELEM);
  }

  /** "Tambourine only in the choruses": out everywhere else. */
  private static boolean onlyThere(Segment segment, List<Place> own) {
    boolean known = !own.isEmpty() && own.stream().allMatch(p -> p.is(Place.Kind.SECTIONS));
    boolean plain =
        !segment.has(Type.PROP)
            && !segment.has(Type.PRAISE)
            && (!segment.has(Type.COPULA) || segment.has(Type.AUX));
    boolean all = false;
    for (int k = 1; k + 1 < segment.items.size(); k++) {
      // "could the intro be just guitar"
      all |=
          segment.items.get(k).is(Type.ONLY)
              && segment.items.get(k - 1).is(Type.COPULA)
              && segment.items.get(k + 1).is(Type.ELEM);
    }
    boolean there = known && plain && !all && !namesWhoStays(segment);
    return there && segment.has(Type.ONLY) && !segment.targets.isEmpty();
  }

  private void forwardPlace(Segment segment, List<Place> own) {
    Place last = own.get(own.size() - 1);
    boolean until = last.open() == Place.Open.UNTIL;
    // "great till 2:50, then …" speaks of what follows; so does "love it in the intro, …once"
    walk.carried.untilPlaces = until ? own : List.of();
    walk.carried.sentencePlaces = until ? List.of(walk.resolver.after(last)) : own;
    walk.carried.praisedPlaces = segment.has(Type.PRAISE) ? own : List.of();
  }

  /** "The throw in V1 is great, can we have one in V2 as well". */
  private void another(int i, List<Place> own) {
    String aspect = walk.carried.lastProperty;
    String element =
        walk.carried.elements.isEmpty() ? Vocabulary.MIX : walk.carried.elements.get(0);
    boolean voice = aspect.equals("delay") && walk.carried.elements.isEmpty();
    walk.drafts.add(
        new Draft(
            voice ? "vocals" : element,
            Pred.of(aspect, Vocabulary.directions(aspect).get(0)),
            own,
            walk.segments.get(i),
            i));
  }

  private void restrict(int i, List<Place> own) {
    if (walk.drafts.any()) {
      walk.drafts.restrict(walk.segments.get(i), i, own);
    } else {
      Draft draft =
          new Draft(
              Vocabulary.MIX, Pred.of("other", "any").asUnclear(), own, walk.segments.get(i), i);
      walk.drafts.add(draft);
    }
  }

  /** Parts named after what should happen: "an extra push, vocal and drums". */
  private boolean backward(int i) {
    Segment segment = walk.segments.get(i);
    if (segment.her) {
      // "… drier, it's the one moment he gets"
      return false;
    }
    boolean alone = segment.joint == Segment.Joint.SENTENCE && segment.items.size() == 1;
    if (i == 0
        || segment.heading
        || (walk.segments.get(i - 1).sentence != segment.sentence && !alone)) {
      return false;
    }
    boolean open = walk.drafts.openIn(i - 1);
    boolean lastOne =
        i + 1 >= walk.segments.size() || walk.segments.get(i + 1).sentence != segment.sentence;
    boolean nextHasOwn =
        !lastOne
            && (!walk.segments.get(i + 1).targets.isEmpty()
                || walk.segments.get(i + 1).preds.isEmpty());
    return open && (lastOne || nextHasOwn);
  }

  /** "Crunchier bass in C1. And in C2." */
  private boolean onlyPlaces(int i) {
    Segment segment = walk.segments.get(i);
    boolean ends =
        i + 1 == walk.segments.size() || walk.segments.get(i + 1).sentence != segment.sentence;
    boolean near = segment.sentence - walk.drafts.lastSentence() == 1;
    return ends && near && segment.items.stream().allMatch(x -> x.is(Type.PLACE));
  }

  /** "Solo guitar drier. 3:00 to 3:10." */
  private boolean timeBehind(int i, List<Place> own) {
    Segment segment = walk.segments.get(i);
    boolean alone =
        segment.items.size() == 1
            && i + 1 == walk.segments.size()
            && !segment.heading
            && own.get(0).is(Place.Kind.TIME);
    return alone && i > 0 && walk.drafts.placelessSince(i - 1, segment.sentence - 1);
  }

  private boolean placeBackward(int i) {
    Segment segment = walk.segments.get(i);
    if (i == 0 || segment.heading || walk.segments.get(i - 1).sentence != segment.sentence) {
      return false;
    }
    boolean lastOne =
        i + 1 >= walk.segments.size() || walk.segments.get(i + 1).sentence != segment.sentence;
    boolean nextPlaced = !lastOne && walk.segments.get(i + 1).placeLeads;
    int since = segment.joint == Segment.Joint.BRACKET ? i - LAST_FEW : i - 1;
    boolean open = walk.drafts.placelessSince(since, segment.sentence);
    return open && (lastOne || nextPlaced);
  }
}

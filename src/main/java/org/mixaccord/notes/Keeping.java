package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Reads segments that ask to leave something as it is. */
final class Keeping {
  private static final Set<String> OF_THE_VOICE = Set.of("delay", "breath", "sibilance", "tuning");

  private static final Set<String> NOISES = Set.of("noise", "breath");

  private static final Set<String> NO_DEEDS =
      Set.of("forget", "know", "worry", "mind", "believe", "remember", "understand", "recall");

  private static final EnumSet<Type> OBJECTS = EnumSet.of(Type.PRON, Type.HER, Type.ELEM);

  private final Walk walk;

  Keeping(Walk walk) {
    this.walk = walk;
  }

  /** "Please don't turn them down": asked to stay, by naming what must not be done. */
  static boolean protects(Segment segment) {
    boolean order = segment.items.stream().anyMatch(x -> x.is(Type.NEG) && x.a().equals("order"));
    boolean moves =
        segment.hasAny(EnumSet.of(Type.UP, Type.DOWN, Type.OUT, Type.CUT)) || unheardOf(segment);
    boolean made =
        order
            && segment.has(Type.PRON)
            && segment.items.stream()
                .anyMatch(x -> x.is(Type.QUAL) && x.c().endsWith("+") || isTurned(x))
            && !segment.has(Type.TOO);
    boolean section =
        !segment.places.isEmpty() && !segment.within && segment.protectedElements.isEmpty();
    boolean object = !segment.targets.isEmpty() || segment.has(Type.PRON) || section;
    return order && (moves || made) && object && segment.preds.isEmpty() && !segment.has(Type.DEG);
  }

  /** The "quieter" of "don't make it quieter". */
  private static boolean isTurned(Item item) {
    return item.is(Type.PRED) && item.a().equals("level");
  }

  /** "Don't straighten it": whatever it is, it must not be done. */
  private static boolean unheardOf(Segment segment) {
    for (int k = 0; k + 1 < segment.items.size(); k++) {
      Item item = segment.items.get(k);
      boolean order = item.is(Type.NEG) && item.a().equals("order");
      Item deed = segment.items.get(k + 1);
      if (order && deed.is(Type.UNKNOWN) && !NO_DEEDS.contains(deed.a())) {
        return k + 2 < segment.items.size() && OBJECTS.contains(segment.items.get(k + 2).type());
      }
    }
    return false;
  }

  /** "Don't change anything", and nothing was spoken of that it could mean. */
  private boolean leavesAll(Segment segment) {
    boolean rest = segment.items.stream().anyMatch(x -> x.is(Type.KEEP) && x.b().equals("else"));
    return saysAll(segment) && (rest || walk.carried.elementSentence != segment.sentence);
  }

  /** "In the last chorus leave them as they are": parts, no section. */
  private static boolean them(Segment segment) {
    return segment.items.stream()
        .anyMatch(x -> x.is(Type.PRON) && x.end() - x.start() == "them".length());
  }

  /** "Verses stay", "C2 as it is"; "don't touch C2" and "the rest of C2 stays" mean all of it. */
  private static boolean staysThere(Segment segment) {
    return segment.placeLeads
        && !segment.has(Type.PROP)
        && !segment.has(Type.PAST)
        && segment.places.stream().noneMatch(p -> p.words().contains("rest of"))
        && segment.items.stream().noneMatch(x -> x.is(Type.KEEP) && x.a().equals("touch"));
  }

  private static boolean saysAll(Segment segment) {
    return segment.items.stream().anyMatch(x -> x.is(Type.KEEP) && x.a().equals("all"));
  }

  /** "That click in the intro, please leave it": what was named as a fault is liked. */
  private void forgive(int i) {
    Segment segment = walk.segments.get(i);
    boolean it = segment.has(Type.PRON) && segment.targets.isEmpty() && segment.places.isEmpty();
    if (it && i > 0) {
      walk.drafts.changes.removeIf(
          d ->
              d.segment == i - 1
                  && d.sentence == segment.sentence
                  && d.pred.complaint()
                  && d.pred.aspect().equals("noise"));
    }
  }

  /** "Fine where they are, leave em there": as they are, no place. */
  /** "Keep the tape hiss", "the breaths stay": the word for it, or an empty string. */
  private static String noiseIn(Segment segment) {
    for (int k = 0; k < segment.items.size(); k++) {
      Item item = segment.items.get(k);
      boolean noise = item.is(Type.PROP) && NOISES.contains(item.a());
      if (noise) {
        Item before = k > 0 ? segment.items.get(k - 1) : item;
        boolean named = before.is(Type.UNKNOWN) && item.start() - before.end() == 1;
        return named ? before.a() + " " + item.c() : item.c();
      }
    }
    return "";
  }

  private static boolean ofTheVoice(Segment segment) {
    return segment.items.stream().anyMatch(x -> OF_THE_VOICE.contains(x.a()));
  }

  /** "Set it to −9 and leave it": as it is then. */
  private boolean asAskedFor(Segment segment, List<Place> own) {
    boolean it =
        segment.has(Type.PRON)
            && segment.targets.isEmpty()
            && own.isEmpty()
            && segment.items.size() <= 2;
    Pred last = walk.carried.lastPred;
    return it
        && segment.joint == Segment.Joint.AND
        && last != null
        && !last.complaint()
        && walk.carried.predSentence == segment.sentence;
  }

  private static boolean it(Segment segment) {
    return segment.has(Type.PRON) && !them(segment);
  }

  private static boolean saysAsIs(Segment segment) {
    List<Item> items = segment.items;
    int last = items.size() - 1;
    return last > 0
        && items.get(last).is(Type.PLACE)
        && items.get(last).place().is(Place.Kind.THERE)
        && items.get(last - 1).is(Type.PRON);
  }

  void keep(int i, List<Place> named) {
    Segment segment = walk.segments.get(i);
    forgive(i);
    if (segment.joint == Segment.Joint.BUT && named.isEmpty()) {
      walk.drafts.denied(segment);
    }
    boolean it = segment.has(Type.PRON) && segment.targets.isEmpty() && named.isEmpty();
    if (it && walk.drafts.keptIn(segment.sentence)) {
      // "I'm attached to that click, leave it"
      return;
    }
    if (asAskedFor(segment, named)) {
      return;
    }
    boolean idle = saysAsIs(segment);
    boolean nowhere =
        idle
            || named.stream().allMatch(p -> p.is(Place.Kind.UNKNOWN))
                && segment.places.stream().anyMatch(p -> p.is(Place.Kind.THERE));
    // "it sits well, don't change a thing there"
    List<Place> spared = named.isEmpty() && segment.has(Type.EXCEPT) ? segment.excluded : named;
    List<Place> own = nowhere ? List.of() : spared;
    List<String> elements = new ArrayList<>(segment.targets);
    List<Place> spoken =
        walk.carried.untilPlaces.isEmpty() ? walk.inheritedPlaces() : walk.carried.untilPlaces;
    // "C2: lead +1. Rest stays": the rest of the song too
    boolean ofRest =
        segment.joint == Segment.Joint.HEADED && i > 0 && walk.segments.get(i - 1).has(Type.REST);
    boolean rest =
        ofRest
            || segment.joint == Segment.Joint.SENTENCE
                && segment.items.stream().anyMatch(x -> x.is(Type.KEEP) && x.b().equals("else"));
    List<Place> places = own.isEmpty() ? rest ? List.of() : spoken : own;
    boolean praised =
        it
            && places.isEmpty()
            && segment.sentence - walk.carried.placeSentence == 1
            && i > 0
            && walk.segments.get(i - 1).has(Type.PRAISE);
    if (praised) {
      // "Love how loud the brass is in C1. Keep that"
      places = walk.carried.lastPlaces;
    }
    String noise = noiseIn(segment);
    if (elements.isEmpty() && !noise.isEmpty()) {
      elements.add(noise);
    }
    boolean heard =
        it(segment)
            && !walk.carried.noise.isEmpty()
            && segment.sentence - walk.carried.removableSentence <= 1
            && walk.carried.elementSentence < walk.carried.removableSentence;
    if (elements.isEmpty() && heard && !saysAll(segment)) {
      // "lol the cough at 0:49. Leave it in"
      elements.add(walk.carried.noise);
      places = places.isEmpty() ? walk.carried.lastPlaces : places;
    }
    String unknown = elements.isEmpty() ? UnknownParts.in(segment) : "";
    if (!unknown.isEmpty()) {
      elements.add(unknown);
    }
    if (elements.isEmpty()) {
      boolean pointed = nowhere || segment.has(Type.PRON) || segment.items.size() <= 3;
      boolean there = segment.places.stream().anyMatch(p -> p.is(Place.Kind.THERE));
      boolean sameSentence = walk.carried.elementSentence == segment.sentence;
      boolean headed =
          !walk.carried.headElements.isEmpty() && segment.joint != Segment.Joint.SENTENCE;
      boolean butStill =
          sameSentence
              && !own.isEmpty()
              && (segment.joint == Segment.Joint.BUT || segment.has(Type.PRON))
              && !segment.has(Type.PRAISE)
              && !walk.carried.elements.isEmpty()
              && walk.carried.predSentence == segment.sentence;
      boolean itself = there && segment.has(Type.PRON) || segment.within && sameSentence;
      boolean earlier =
          segment.has(Type.PRON)
              && !own.isEmpty()
              && (!segment.placeLeads || them(segment))
              && walk.carried.elementSentence == segment.sentence - 1
              && !walk.carried.elements.isEmpty();
      if (earlier && !saysAll(segment)) {
        // "don't touch the one in drop 2"
        elements.addAll(walk.carried.elements);
      } else if (saysAll(segment) && !own.isEmpty()) {
        elements.add(Vocabulary.MIX);
      } else if (butStill) {
        elements.addAll(walk.carried.elements);
      } else if (headed && !own.isEmpty()) {
        elements.addAll(walk.carried.headElements);
      } else if (itself && !segment.placeLeads && !walk.carried.elements.isEmpty()) {
        elements.addAll(walk.carried.elements);
      } else if (!own.isEmpty()
          && staysThere(segment)
          && !walk.drafts.asked(segment.sentence - 1).isEmpty()) {
        // "Bass up in the chorus, verses stay"
        elements.addAll(walk.drafts.asked(segment.sentence - 1));
      } else if (!own.isEmpty()) {
        elements.add(Vocabulary.MIX);
      } else if (leavesAll(segment)) {
        elements.add(Vocabulary.MIX);
      } else if (!pointed && !segment.has(Type.PROP)) {
        return;
      } else if (walk.carried.elementSentence == segment.sentence
          && !walk.carried.elements.isEmpty()) {
        elements.addAll(walk.carried.elements);
      } else if (!places.isEmpty()) {
        elements.add(Vocabulary.MIX);
      } else if (!walk.carried.elements.isEmpty()) {
        elements.addAll(walk.carried.elements);
      } else if (!walk.carried.lastPlaces.isEmpty()) {
        elements.add(Vocabulary.MIX);
        places = walk.carried.lastPlaces;
      } else if (segment.has(Type.PROP)) {
        elements.add(ofTheVoice(segment) ? "vocals" : Vocabulary.MIX);
      } else {
        return;
      }
    }
    if (places.isEmpty()) {
      // "muddy in verse 1, but leave its level": there
      places = walk.drafts.placesAsked(elements, segment.sentence);
    }
    if (it && i > 0 && !elements.contains(Vocabulary.MIX)) {
      // "the bass is loud, it's supposed to be, leave it"
      walk.drafts.clear(elements, segment.sentence, places);
    }
    for (String element : elements) {
      Draft draft = new Draft(element, null, places, segment, i);
      draft.start = walk.leadOf(i);
      if (own != segment.excluded) {
        draft.excluded.addAll(segment.excluded);
      }
      walk.drafts.keep(draft);
    }
    walk.carried.mention(segment.targets, segment.sentence);
  }
}

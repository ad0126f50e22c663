package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Reads a note's segments one after the other and carries parts and places between them. */
final class Interpreter {
  private static final EnumSet<Type> QUERY = EnumSet.of(Type.WH, Type.FILEQ);

  /** Longer notes say more than a name, even where nothing of it is known. */
  private static final int FEW_LETTERS = 32;

  private static final int FEW_ITEMS = 3;

  private final Walk walk;
  private final boolean repair;
  private final Keeping keeping;
  private final Naming naming;
  private final Asking asking;

  Interpreter(Segmenter.Pieces pieces, PlaceResolver resolver) {
    repair = pieces.repair();
    walk = new Walk(pieces.segments(), resolver);
    keeping = new Keeping(walk);
    naming = new Naming(walk);
    asking = new Asking(walk);
  }

  Drafts read() {
    if (isOwnWork()) {
      return walk.drafts;
    }
    boolean skipped = false;
    for (int i = 0; i < walk.segments.size(); i++) {
      Segment segment = walk.segments.get(i);
      boolean begins = i == 0 || walk.segments.get(i - 1).sentence != segment.sentence;
      if (begins) {
        walk.carried.newSentence(segment.newLine);
        skipped = isQuery(i);
        Deliveries.find(walk.segments, i, walk.drafts);
      }
      if (skipped) {
        // "whats that phaser on the bass? off please"
        remember(segment);
        walk.placesOf(segment);
        walk.carried.mention(segment.targets, segment.sentence);
      } else {
        segment(i);
      }
    }
    List<Segment> saying = walk.segments.stream().filter(s -> !isPolite(s)).toList();
    if (!walk.drafts.any() && walk.drafts.keeps.isEmpty() && saying.size() == 1) {
      onlyNamed(saying.get(0));
    }
    boolean nothing = !walk.drafts.any() && walk.drafts.keeps.isEmpty();
    if (nothing && walk.floating != null && saying.size() <= 2) {
      walk.floating.asks = NoteQuestion.About.PART;
      walk.drafts.add(walk.floating);
    }
    if (repair && nothing && walk.segments.stream().noneMatch(Interpreter::isContent)) {
      repair();
    }
    return walk.drafts;
  }

  private static boolean isContent(Segment segment) {
    boolean likes =
        segment.items.stream().anyMatch(x -> x.is(Type.PRAISE) && !x.a().equals("mild"));
    return likes || segment.has(Type.RETRACT);
  }

  /** "What did you do to the toms?? Change it": something is wrong, and nobody said what. */
  private void repair() {
    for (int i = 0; i < walk.segments.size(); i++) {
      Segment segment = walk.segments.get(i);
      boolean last = i + 1 == walk.segments.size();
      if (last || !segment.targets.isEmpty()) {
        List<String> parts = segment.targets;
        String element = parts.isEmpty() ? Vocabulary.MIX : parts.get(0);
        Pred unclear = Pred.of("other", "any").asUnclear();
        walk.drafts.add(new Draft(element, unclear, segment.places, segment, i));
        return;
      }
    }
  }

  /** "Hi Maren", "thanks". */
  private static boolean isPolite(Segment segment) {
    return segment.items.size() <= FEW_ITEMS
        && segment.items.stream().allMatch(x -> x.is(Type.PRAISE) || x.is(Type.UNKNOWN));
  }

  /** "Guitar?", "bass maybe", "more": something is wanted, and nobody could say what. */
  private void onlyNamed(Segment segment) {
    boolean wordy = segment.to - segment.from > FEW_LETTERS;
    // "vocals: perfect"
    if (segment.items.size() != 1 || segment.heading || wordy) {
      return;
    }
    Item item = segment.items.get(0);
    boolean part = item.is(Type.ELEM) && !item.a().equals(Vocabulary.MIX);
    if (part || item.is(Type.MORE) || item.is(Type.LESS) || item.is(Type.TOOMUCH)) {
      String element = part ? item.a() : Vocabulary.MIX;
      walk.drafts.add(
          new Draft(element, Pred.of("other", "any").asUnclear(), List.of(), segment, 0));
    }
  }

  /** The engineer's own list of what was done. */
  private boolean isOwnWork() {
    return walk.segments.stream()
        .limit(FEW_ITEMS)
        .anyMatch(s -> !s.items.isEmpty() && s.items.get(0).is(Type.OWNWORK));
  }

  /** A sentence that asks for an answer, not for work. */
  private boolean isQuery(int first) {
    int sentence = walk.segments.get(first).sentence;
    boolean asks = false;
    boolean query = false;
    boolean sure = false;
    boolean noise = false;
    for (int i = first;
        i < walk.segments.size() && walk.segments.get(i).sentence == sentence;
        i++) {
      Segment segment = walk.segments.get(i);
      asks |= segment.asks;
      for (int k = 0; k < segment.items.size(); k++) {
        Item item = segment.items.get(k);
        noise |=
            i == first
                && k <= 2
                && item.is(Type.PROP)
                && item.b().equals("fix")
                && item.a().equals("noise");
        boolean early = k == 0 && (i == first || item.is(Type.FILEQ));
        sure |= item.is(Type.FILEQ) && item.a().equals("asks");
        boolean why = item.a().equals("why");
        query |= QUERY.contains(item.type()) && (early || item.is(Type.FILEQ)) && !why;
      }
    }
    if (noise && !sure) {
      // "what's that clicking at 2:12?"
      return false;
    }
    return sure || query && asks || query && walk.segments.get(first).items.get(0).is(Type.WH);
  }

  /** "I thought it was too loud, but …". */
  private boolean deniedNext(int i) {
    return i + 1 < walk.segments.size()
        && walk.segments.get(i + 1).sentence == walk.segments.get(i).sentence
        && walk.segments.get(i + 1).joint == Segment.Joint.BUT;
  }

  /** "The kick is too loud. No, the kick is fine". */
  private boolean isCorrected(int i) {
    Segment segment = walk.segments.get(i);
    Segment before = i > 0 ? walk.segments.get(i - 1) : segment;
    boolean no =
        segment.items.get(0).is(Type.NEG) && segment.items.get(0).a().equals("no")
            || before.items.size() == 1 && before.has(Type.NEG)
            || segment.has(Type.INSTEAD);
    return no
        && segment.has(Type.PRAISE)
        && segment.has(Type.COPULA)
        && !segment.targets.isEmpty()
        && segment.preds.isEmpty();
  }

  /** "The bass is boomy in V1, but honestly that's fine". */
  private static boolean isForgiven(Segment segment) {
    boolean said = segment.has(Type.PRAISE) && !segment.has(Type.NEG) && !segment.keeps;
    boolean it =
        segment.has(Type.PRON)
            || segment.items.get(0).is(Type.COPULA)
            || segment.items.get(0).is(Type.PRAISE);
    return said
        && it
        && (segment.joint == Segment.Joint.BUT
            || segment.joint == Segment.Joint.AND && loves(segment))
        && segment.targets.isEmpty()
        && segment.preds.isEmpty()
        && segment.places.isEmpty();
  }

  private static boolean loves(Segment segment) {
    return segment.has(Type.PRON)
        && segment.items.stream().anyMatch(x -> x.is(Type.PRAISE) && !x.a().equals("mild"));
  }

  /** Noises, effects and properties that later words may mean: "turn it off", "less of it". */
  private void remember(Segment segment) {
    for (Item item : segment.items) {
      boolean noise = item.is(Type.PROP) && (item.a().equals("noise") || item.a().equals("breath"));
      if (noise || item.is(Type.EFFECT)) {
        walk.carried.removable = noise ? "noise" : "effect";
        walk.carried.noise = noise ? item.c() : "";
        walk.carried.removableSentence = segment.sentence;
      }
      if (item.is(Type.PROP) && item.b().equals("-")) {
        boolean rings =
            item.a().equals("length")
                && walk.carried.propertySentence == segment.sentence
                && Set.of("reverb", "delay").contains(String.valueOf(walk.carried.lastProperty));
        if (rings) {
          // "the reverb at the end, let it ring"
          continue;
        }
        walk.carried.lastProperty = item.a().equals("breath") ? null : item.a();
        walk.carried.propertySentence = segment.sentence;
      }
    }
  }

  private void segment(int i) {
    Segment segment = walk.segments.get(i);
    boolean joke = segment.items.stream().anyMatch(x -> x.is(Type.RETRACT) && x.a().equals("joke"));
    boolean named =
        segment.items.size() == 2
            && segment.items.get(0).is(Type.ELEM)
            && segment.items.get(1).is(Type.RETRACT)
            && i > 0
            && walk.segments.get(i - 1).sentence == segment.sentence;
    if (named) {
      // "too nasal, the singing I mean"
      naming.bare(i, List.of());
      return;
    }
    boolean near = segment.sentence - walk.drafts.lastSentence() <= 1;
    if (segment.has(Type.RETRACT) && (near || !joke)) {
      walk.drafts.retract(segment, i);
    }
    // "Also, all choruses except the first: bgv up"
    boolean bare =
        segment.preds.isEmpty()
            && segment.items.stream().allMatch(x -> x.is(Type.PLACE) || x.is(Type.EXCEPT));
    boolean spares = !segment.places.isEmpty() && !segment.excluded.isEmpty();
    if (spares && (segment.heading || bare)) {
      List<Place> left = walk.resolver.without(segment.places, segment.excluded);
      segment.places.clear();
      segment.places.addAll(left);
      segment.excluded.clear();
    }
    if (joke && !segment.items.get(0).is(Type.RETRACT)) {
      // "less of the singer, kidding"
      return;
    }
    List<Place> places = walk.placesOf(segment);
    boolean begins = segment.joint == Segment.Joint.SENTENCE && segment.placeLeads;
    if (begins && segment.targets.isEmpty() && !segment.within && !segment.heading) {
      walk.carried.spokenOf = places;
      walk.carried.spokenOfSentence = segment.sentence;
    } else if (!segment.targets.isEmpty() || !places.isEmpty()) {
      walk.carried.spokenOf = List.of();
    }
    if (segment.placeLeads && !segment.places.isEmpty()) {
      walk.carried.sentencePlaces = segment.places;
    }
    if (segment.heading && !segment.places.isEmpty() && segment.isBare()) {
      walk.carried.linePlaces = segment.places;
    }
    remember(segment);
    boolean thought =
        segment.items.stream().anyMatch(x -> x.is(Type.PAST) && x.a().equals("thought"));
    if (segment.blocked || thought && deniedNext(i)) {
      walk.carried.mention(segment.targets, segment.sentence);
      return;
    }
    if (segment.has(Type.THING) && walk.drafts.hasDelivery(segment.sentence)) {
      walk.carried.mention(segment.targets, segment.sentence);
      return;
    }
    if (walk.drafts.any() && isCorrected(i)) {
      walk.drafts.clear(segment.targets);
      return;
    }
    if (walk.drafts.any() && isForgiven(segment)) {
      walk.drafts.forgive(segment.sentence);
      return;
    }
    boolean exempt = segment.keeps && segment.has(Type.EXCEPT) && walk.drafts.any();
    if (exempt && segment.targets.isEmpty()) {
      List<Place> spared = new ArrayList<>(segment.excluded);
      spared.addAll(places);
      walk.drafts.exclude(segment, i, spared);
    }
    if (segment.keeps || Keeping.protects(segment)) {
      keeping.keep(i, places);
    } else if (segment.preds.isEmpty()) {
      naming.bare(i, places);
    } else {
      asking.changes(i, places);
    }
    walk.carried.mention(segment.aside, segment.sentence);
    for (String element : segment.protectedElements) {
      List<Place> where = places.isEmpty() ? walk.inheritedPlaces() : places;
      walk.drafts.keep(new Draft(element, null, where, segment, i));
    }
  }
}

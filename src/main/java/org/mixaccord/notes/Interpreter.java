package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Reads a note's segments one after the other and carries parts and places between them. */
final class Interpreter {
  private static final EnumSet<Type> QUERY = EnumSet.of(Type.WH, Type.FILEQ);
  private static final Set<String> OF_THE_MIX = Set.of("fade", "length", "noise", "delivery");

  /** What there can be more or less of on another part: "less reverb on the snare, more on her". */
  private static final Set<String> AMOUNTS_OF =
      Set.of(
          "reverb",
          "delay",
          "compression",
          "distortion",
          "lows",
          "low mids",
          "mids",
          "highs",
          "impact");

  private static final java.util.regex.Pattern OF_A_VOICE =
      java.util.regex.Pattern.compile("auto ?tune|vocod|talk ?box|formant|harmonizer|robot");
  private static final Set<String> OF_THE_VOICE = Set.of("sibilance", "tuning");

  private final List<Segment> segments;
  private final PlaceResolver resolver;
  private final Drafts drafts = new Drafts();
  private final Carried carried = new Carried();

  Interpreter(List<Segment> segments, PlaceResolver resolver) {
    this.segments = segments;
    this.resolver = resolver;
  }

  Drafts read() {
    if (isOwnWork()) {
      return drafts;
    }
    boolean skipped = false;
    for (int i = 0; i < segments.size(); i++) {
      Segment segment = segments.get(i);
      boolean begins = i == 0 || segments.get(i - 1).sentence != segment.sentence;
      if (begins) {
        carried.newSentence(segment.newLine);
        skipped = isQuery(i);
        Deliveries.find(segments, i, drafts);
      }
      if (!skipped) {
        segment(i);
      }
    }
    if (!drafts.any() && drafts.keeps.isEmpty() && segments.size() == 1) {
      onlyNamed(segments.get(0));
    }
    return drafts;
  }

  /** "Guitar?", "bass maybe", "more": something is wanted, and nobody could say what. */
  private void onlyNamed(Segment segment) {
    if (segment.items.size() != 1) {
      return;
    }
    Item item = segment.items.get(0);
    boolean part = item.is(Type.ELEM) && !item.a().equals(Vocabulary.MIX);
    if (part || item.is(Type.MORE) || item.is(Type.LESS)) {
      String element = part ? item.a() : Vocabulary.MIX;
      drafts.add(new Draft(element, Pred.of("other", "any").asUnclear(), List.of(), segment, 0));
    }
  }

  /** The engineer's own list of what was done. */
  private boolean isOwnWork() {
    return !segments.isEmpty()
        && !segments.get(0).items.isEmpty()
        && segments.get(0).items.get(0).is(Type.OWNWORK);
  }

  /** A sentence that asks for an answer, not for work. */
  private boolean isQuery(int first) {
    int sentence = segments.get(first).sentence;
    boolean asks = false;
    boolean query = false;
    boolean sure = false;
    for (int i = first; i < segments.size() && segments.get(i).sentence == sentence; i++) {
      Segment segment = segments.get(i);
      asks |= segment.asks;
      for (int k = 0; k < segment.items.size(); k++) {
        Item item = segment.items.get(k);
        boolean early = k == 0 && (i == first || item.is(Type.FILEQ));
        sure |= item.is(Type.FILEQ) && item.a().equals("asks");
        boolean why = item.a().equals("why");
        query |= QUERY.contains(item.type()) && (early || item.is(Type.FILEQ)) && !why;
      }
    }
    return sure || query && asks || query && segments.get(first).items.get(0).is(Type.WH);
  }

  private void segment(int i) {
    Segment segment = segments.get(i);
    if (segment.has(Type.RETRACT)) {
      drafts.retract(segment, i);
    }
    if (segment.heading && !segment.places.isEmpty() && !segment.excluded.isEmpty()) {
      List<Place> left = resolver.without(segment.places, segment.excluded);
      segment.places.clear();
      segment.places.addAll(left);
      segment.excluded.clear();
    }
    List<Place> places = placesOf(segment);
    if (segment.placeLeads && !segment.places.isEmpty()) {
      carried.sentencePlaces = segment.places;
    }
    if (segment.heading && !segment.places.isEmpty() && segment.isBare()) {
      carried.linePlaces = segment.places;
    }
    for (Item item : segment.items) {
      if (item.is(Type.PROP) && item.b().equals("-")) {
        carried.lastProperty = item.a().equals("breath") ? null : item.a();
        carried.propertySentence = segment.sentence;
      }
    }
    if (segment.blocked) {
      carried.mention(segment.targets, segment.sentence);
      return;
    }
    if (segment.has(Type.THING) && drafts.hasDelivery(segment.sentence)) {
      carried.mention(segment.targets, segment.sentence);
      return;
    }
    if (segment.keeps || protects(segment)) {
      keep(i, places);
    } else if (segment.preds.isEmpty()) {
      bare(i, places);
    } else {
      changes(i, places);
    }
    for (String element : segment.protectedElements) {
      drafts.keep(new Draft(element, null, places, segment, i));
    }
  }

  /** "Please don't turn them down": asked to stay, by naming what must not be done. */
  private static boolean protects(Segment segment) {
    boolean order = segment.items.stream().anyMatch(x -> x.is(Type.NEG) && x.a().equals("order"));
    boolean moves = segment.hasAny(EnumSet.of(Type.UP, Type.DOWN, Type.OUT, Type.CUT));
    boolean object = !segment.targets.isEmpty() || segment.has(Type.PRON);
    return order && moves && object && segment.preds.isEmpty() && !segment.has(Type.DEG);
  }

  private List<Place> placesOf(Segment segment) {
    List<Place> own = new ArrayList<>();
    for (Place place : segment.places) {
      if (place.is(Place.Kind.THEREAFTER)) {
        if (!carried.lastPlaces.isEmpty()) {
          own.add(resolver.after(carried.lastPlaces.get(carried.lastPlaces.size() - 1)));
        }
      } else if (place.is(Place.Kind.THERE)) {
        boolean known = !carried.lastPlaces.isEmpty();
        own.addAll(
            known ? carried.lastPlaces : List.of(Place.plain(Place.Kind.UNKNOWN, place.words())));
      } else {
        own.add(place);
      }
    }
    if (!own.isEmpty()) {
      carried.lastPlaces = own;
    }
    return own;
  }

  private List<Place> inheritedPlaces() {
    return carried.sentencePlaces.isEmpty() ? carried.linePlaces : carried.sentencePlaces;
  }

  // keeps

  private void keep(int i, List<Place> named) {
    Segment segment = segments.get(i);
    boolean nowhere =
        named.stream().allMatch(p -> p.is(Place.Kind.UNKNOWN))
            && segment.places.stream().anyMatch(p -> p.is(Place.Kind.THERE));
    // "it sits well, don't change a thing there"
    List<Place> own = nowhere ? List.of() : named;
    List<String> elements = new ArrayList<>(segment.targets);
    List<Place> places = own.isEmpty() ? inheritedPlaces() : own;
    if (elements.isEmpty()) {
      boolean pointed = nowhere || segment.has(Type.PRON) || segment.items.size() <= 3;
      boolean there = segment.places.stream().anyMatch(p -> p.is(Place.Kind.THERE));
      boolean sameSentence = carried.elementSentence == segment.sentence;
      boolean headed = !carried.headElements.isEmpty() && segment.joint != Segment.Joint.SENTENCE;
      boolean itself = there && segment.has(Type.PRON) || segment.within && sameSentence;
      if (headed && !own.isEmpty()) {
        elements.addAll(carried.headElements);
      } else if (itself && !segment.placeLeads && !carried.elements.isEmpty()) {
        elements.addAll(carried.elements);
      } else if (!own.isEmpty()) {
        elements.add(Vocabulary.MIX);
      } else if (!pointed && !segment.has(Type.PROP)) {
        return;
      } else if (carried.elementSentence == segment.sentence && !carried.elements.isEmpty()) {
        elements.addAll(carried.elements);
      } else if (!places.isEmpty()) {
        elements.add(Vocabulary.MIX);
      } else if (!carried.elements.isEmpty()) {
        elements.addAll(carried.elements);
      } else if (!carried.lastPlaces.isEmpty()) {
        elements.add(Vocabulary.MIX);
        places = carried.lastPlaces;
      } else {
        return;
      }
    }
    for (String element : elements) {
      Draft draft = new Draft(element, null, places, segment, i);
      draft.start = leadOf(i);
      draft.excluded.addAll(segment.excluded);
      drafts.keep(draft);
    }
    carried.mention(segment.targets, segment.sentence);
  }

  // segments that name something and say nothing of it

  private void bare(int i, List<Place> named) {
    Segment segment = segments.get(i);
    boolean same = segment.has(Type.SAME) && segment.joint == Segment.Joint.HEADED;
    // "V2: same"
    List<Place> own = named.isEmpty() && same ? inheritedPlaces() : named;
    boolean more = segment.has(Type.UNKNOWN) || segment.has(Type.COPULA);
    boolean again =
        segment.has(Type.SAMEAGAIN)
            || segment.has(Type.ALSOTHIS) && !more
            || segment.has(Type.SAME);
    boolean amountOnly =
        segment.targets.isEmpty()
            && own.isEmpty()
            && (segment.has(Type.AMOUNT) || segment.has(Type.NUMBER) || segment.has(Type.DEG));
    boolean exempt = segment.has(Type.NEG) || segment.has(Type.EXCEPT);
    if (amountOnly && segment.items.size() <= 3) {
      drafts.amount(segment);
    } else if (again && !drafts.any() && carried.lastProperty != null && !own.isEmpty()) {
      another(i, own);
    } else if (again && drafts.any() && (!segment.targets.isEmpty() || !own.isEmpty())) {
      drafts.again(segment, i, segment.targets, own.isEmpty() ? List.of() : own);
    } else if (!segment.excluded.isEmpty()) {
      drafts.exclude(segment, i, segment.excluded);
    } else if (exempt && !segment.targets.isEmpty() && drafts.any()) {
      drafts.spare(segment, i, segment.targets);
      return;
    } else if (onlyThere(segment, own)) {
      for (String element : segment.targets) {
        Draft draft = new Draft(element, Pred.of("mute", "out"), List.of(), segment, i);
        draft.excluded.addAll(own);
        drafts.add(draft);
      }
    } else if (segment.has(Type.ONLY) && !own.isEmpty() && segment.targets.isEmpty()) {
      restrict(i, own);
    } else if (!segment.targets.isEmpty() && own.isEmpty() && backward(i)) {
      drafts.lend(segment, i, segment.targets);
    } else if (!own.isEmpty() && segment.targets.isEmpty() && placeBackward(i)) {
      drafts.lendPlaces(segment, i, own);
    } else if (!own.isEmpty()) {
      forwardPlace(segment, own);
      segment.leads = !segment.has(Type.PRAISE);
    }
    segment.leads |= segment.heading;
    if (segment.heading && !segment.targets.isEmpty()) {
      carried.headElements = segment.targets;
    }
    boolean aside = segment.tellsWhen && carried.elementSentence == segment.sentence;
    carried.mention(aside ? List.of() : segment.targets, segment.sentence);
  }

  /** "Tambourine only in the choruses": out everywhere else. */
  private static boolean onlyThere(Segment segment, List<Place> own) {
    boolean known = !own.isEmpty() && own.stream().allMatch(p -> p.is(Place.Kind.SECTIONS));
    boolean plain =
        !segment.has(Type.PROP) && !segment.has(Type.PRAISE) && !segment.has(Type.COPULA);
    return known && plain && segment.has(Type.ONLY) && !segment.targets.isEmpty();
  }

  private void forwardPlace(Segment segment, List<Place> own) {
    Place last = own.get(own.size() - 1);
    boolean until = last.open() == Place.Open.UNTIL;
    // "great till 2:50, then …" speaks of what follows; so does "love it in the intro, …once"
    carried.sentencePlaces = until ? List.of(resolver.after(last)) : own;
    carried.praisedPlaces = segment.has(Type.PRAISE) ? own : List.of();
  }

  /** "The throw in V1 is great, can we have one in V2 as well". */
  private void another(int i, List<Place> own) {
    String aspect = carried.lastProperty;
    String element = carried.elements.isEmpty() ? Vocabulary.MIX : carried.elements.get(0);
    boolean voice = aspect.equals("delay") && carried.elements.isEmpty();
    drafts.add(
        new Draft(
            voice ? "vocals" : element,
            Pred.of(aspect, Vocabulary.directions(aspect).get(0)),
            own,
            segments.get(i),
            i));
  }

  private void restrict(int i, List<Place> own) {
    if (drafts.any()) {
      drafts.restrict(segments.get(i), i, own);
    } else {
      Draft draft =
          new Draft(Vocabulary.MIX, Pred.of("other", "any").asUnclear(), own, segments.get(i), i);
      drafts.add(draft);
    }
  }

  /** Parts named after what should happen: "an extra push, vocal and drums". */
  private boolean backward(int i) {
    Segment segment = segments.get(i);
    boolean alone = segment.joint == Segment.Joint.SENTENCE && segment.items.size() == 1;
    if (i == 0 || segment.heading || (segments.get(i - 1).sentence != segment.sentence && !alone)) {
      return false;
    }
    boolean open = drafts.openIn(i - 1);
    boolean lastOne = i + 1 >= segments.size() || segments.get(i + 1).sentence != segment.sentence;
    boolean nextHasOwn =
        !lastOne && (!segments.get(i + 1).targets.isEmpty() || segments.get(i + 1).preds.isEmpty());
    return open && (lastOne || nextHasOwn);
  }

  private boolean placeBackward(int i) {
    Segment segment = segments.get(i);
    if (i == 0 || segment.heading || segments.get(i - 1).sentence != segment.sentence) {
      return false;
    }
    boolean lastOne = i + 1 >= segments.size() || segments.get(i + 1).sentence != segment.sentence;
    boolean nextPlaced = !lastOne && segments.get(i + 1).placeLeads;
    return drafts.placelessIn(i - 1) && (lastOne || nextPlaced);
  }

  // changes

  private void changes(int i, List<Place> own) {
    Segment segment = segments.get(i);
    boolean shared = false;
    for (Pred read : segment.preds) {
      Pred pred = refine(segment, read);
      boolean implied = pred.targets().isEmpty() && segment.targets.isEmpty();
      List<String> elements = elementsFor(i, pred, own);
      if (elements.isEmpty()) {
        continue;
      }
      List<Place> places = own.isEmpty() ? placesFor(elements, implied) : own;
      for (String element : elements) {
        Draft draft = new Draft(element, pred, places, segment, i);
        draft.impliedElement = implied;
        if (implied && pointsAtNothing(segment, pred, element)) {
          draft.asks = NoteQuestion.About.PART;
        }
        draft.impliedPlace = own.isEmpty();
        draft.excluded.addAll(segment.excluded);
        draft.start = leadOf(i);
        settlePlace(draft, own);
        drafts.add(draft);
      }
      shared = true;
      if (!implied || carried.elements.isEmpty()) {
        List<String> named = new ArrayList<>(elements);
        named.remove(Vocabulary.MIX);
        carried.mention(named, segment.sentence);
      }
      carried.lastPred = pred;
      carried.predSentence = segment.sentence;
    }
    boolean closes = segment.items.get(segment.items.size() - 1).is(Type.PLACE);
    if (shared && !own.isEmpty() && closes && segment.joint == Segment.Joint.AND) {
      drafts.sharePlaces(i, segment.sentence, own);
    }
  }

  /** "Turn it down", and nothing was named before it. */
  private boolean pointsAtNothing(Segment segment, Pred pred, String element) {
    boolean moves = pred.aspect().equals("level") || pred.aspect().equals("mute");
    return moves
        && pred.generic()
        && !pred.complaint()
        && segment.has(Type.PRON)
        && element.equals(Vocabulary.MIX)
        && carried.elements.isEmpty();
  }

  /** Where the words begin, a heading before them included. */
  private int leadOf(int i) {
    int start = segments.get(i).from;
    for (int k = i - 1; k >= 0 && segments.get(k).leads; k--) {
      if (segments.get(k).sentence != segments.get(i).sentence) {
        break;
      }
      start = segments.get(k).from;
    }
    return start;
  }

  /** "The bass is boomy, pull it down": the remedy belongs to the fault named before. */
  private Pred refine(Segment segment, Pred pred) {
    Pred last = carried.lastPred;
    boolean tail =
        pred.aspect().equals("length")
            && (segment.has(Type.PRON)
                || segment.has(Type.WH)
                || segment.items.size() <= 2 && !segment.placeLeads)
            && segment.targets.isEmpty()
            && carried.lastProperty != null
            && Set.of("reverb", "delay", "fade").contains(carried.lastProperty)
            && segment.sentence - carried.propertySentence <= 1;
    if (tail && carried.lastProperty.equals("fade")) {
      return pred.turned("fade", pred.direction());
    }
    if (tail) {
      return pred.turned(carried.lastProperty, pred.direction().equals("longer") ? "up" : "down");
    }
    boolean mute = pred.aspect().equals("mute");
    boolean removable =
        last != null
            && Set.of("noise", "reverb", "delay", "effect", "width").contains(last.aspect());
    boolean refers =
        pred.generic()
            && (pred.aspect().equals("level") || mute && removable)
            && segment.targets.isEmpty()
            && last != null
            && last.complaint()
            && carried.predSentence == segment.sentence
            && !segment.placeLeads
            && !last.aspect().equals("level")
            && !last.aspect().equals("other");
    if (refers) {
      return pred.turned(last.aspect(), last.direction()).with(pred.amount());
    }
    boolean moreOfIt =
        segment.upon
            && pred.generic()
            && pred.aspect().equals("level")
            && last != null
            && carried.predSentence == segment.sentence
            && AMOUNTS_OF.contains(last.aspect());
    if (moreOfIt) {
      return pred.turned(last.aspect(), pred.direction());
    }
    boolean fade =
        (pred.generic() || segment.has(Type.PRON))
            && pred.aspect().equals("length")
            && segment.targets.isEmpty()
            && last != null
            && last.aspect().equals("fade");
    return fade ? pred.turned("fade", pred.direction()) : pred;
  }

  private List<Place> placesFor(List<String> elements, boolean implied) {
    if (!carried.sentencePlaces.isEmpty()) {
      return carried.sentencePlaces;
    }
    if (implied && carried.sentence - drafts.lastSentence() <= 1) {
      List<Place> before = drafts.lastPlaces(elements);
      if (!before.isEmpty()) {
        return before;
      }
    }
    return carried.linePlaces;
  }

  private void settlePlace(Draft draft, List<Place> own) {
    Segment segment = segments.get(draft.segment);
    if (segment.openEvent && own.isEmpty() && !carried.praisedPlaces.isEmpty()) {
      // "love it in the intro, lose it once the beat comes in"
      draft.places = new ArrayList<>(List.of(resolver.after(carried.praisedPlaces.get(0))));
      return;
    }
    boolean atStart =
        segment.items.stream().anyMatch(x -> x.is(Type.PRED) && x.b().endsWith("/intro"));
    if (atStart && draft.places.isEmpty()) {
      draft.places = new ArrayList<>(resolver.ofKind("intro"));
    }
    if (draft.pred.aspect().equals("fade")) {
      List<Place> outro = resolver.ofKind("outro");
      boolean whole =
          draft.places.stream().allMatch(p -> p.is(Place.Kind.SECTIONS)) && !outro.isEmpty();
      if (whole && (draft.places.size() != 1 || draft.places.get(0).sections().size() > 1)) {
        draft.places = new ArrayList<>(outro);
      }
    }
  }

  /** "Leave the drums in C1, C2 a little more": more of what was to be left alone elsewhere. */
  private List<String> keptJustBefore(Segment segment, Pred pred) {
    if (drafts.keeps.isEmpty() || !segment.placeLeads || !pred.generic() || pred.complaint()) {
      return List.of();
    }
    Draft last = drafts.keeps.get(drafts.keeps.size() - 1);
    boolean near = segment.sentence - last.sentence <= 1;
    boolean elsewhere = !last.places.isEmpty();
    boolean part = !last.element.equals(Vocabulary.MIX);
    return near && elsewhere && part ? List.of(last.element) : List.of();
  }

  private List<String> elementsFor(int i, Pred pred, List<Place> own) {
    Segment segment = segments.get(i);
    if (!pred.targets().isEmpty()) {
      return pred.targets();
    }
    if (!segment.targets.isEmpty()) {
      return segment.targets;
    }
    String unknown = UnknownParts.in(segment);
    if (!unknown.isEmpty()) {
      return List.of(unknown);
    }
    boolean sameSentence = carried.elementSentence == segment.sentence;
    boolean itself = segment.items.stream().anyMatch(x -> x.is(Type.IN) && x.a().equals("it"));
    boolean pointed = segment.has(Type.PRON) || itself;
    boolean nowhere = own.isEmpty() && inheritedPlaces().isEmpty();
    if (pred.generic() && pred.complaint() && nowhere && !pointed && carried.elements.isEmpty()) {
      return List.of();
    }
    boolean someone = segment.has(Type.SOMEONE);
    if (OF_THE_VOICE.contains(pred.aspect()) && carried.elements.isEmpty() && !someone) {
      return List.of("vocals");
    }
    boolean sung =
        pred.aspect().equals("effect")
            && segment.items.stream()
                .anyMatch(x -> x.is(Type.EFFECT) && OF_A_VOICE.matcher(x.a()).find());
    if (sung && carried.elements.isEmpty()) {
      return List.of("vocals");
    }
    boolean headed = !carried.headElements.isEmpty() && segment.joint != Segment.Joint.SENTENCE;
    if (OF_THE_MIX.contains(pred.aspect())
        && !headed
        && !((pointed || pred.generic()) && sameSentence && !carried.elements.isEmpty())) {
      return NoiseSource.of(segment, pred);
    }
    if (pred.aspect().equals("delay") && !(pointed || sameSentence)) {
      return List.of("vocals");
    }
    if (!carried.headElements.isEmpty() && !sameSentence) {
      return carried.headElements;
    }
    List<String> kept = keptJustBefore(segment, pred);
    if (!kept.isEmpty() && !own.isEmpty()) {
      return kept;
    }
    if (sameSentence
        && !carried.elements.isEmpty()
        && (pointed
            || !segment.placeLeads
            || !own.isEmpty()
                && segment.joint != Segment.Joint.SENTENCE
                && carried.lastPred != null
                && pred.generic())) {
      return carried.elements;
    }
    if (pointed && !segment.placeLeads && !carried.elements.isEmpty()) {
      return carried.elements;
    }
    boolean fragment =
        own.isEmpty()
            && carried.sentencePlaces.isEmpty()
            && !segment.has(Type.COPULA)
            && segment.sentence - carried.elementSentence <= 1;
    boolean back = segment.has(Type.BACKTO);
    if ((fragment || back) && !carried.elements.isEmpty()) {
      return carried.elements;
    }
    boolean floating = pred.generic() && own.isEmpty() && carried.sentencePlaces.isEmpty();
    if (floating && !pointed) {
      boolean follows =
          !carried.elements.isEmpty() && segment.sentence - carried.elementSentence <= 1;
      return follows && pred.amount() != null ? carried.elements : List.of();
    }
    boolean preferred = segment.has(Type.PREFER);
    boolean range = segment.has(Type.PROP);
    if (pred.unclear() && !pointed && own.isEmpty() && !preferred && !range) {
      return List.of();
    }
    boolean voice = OF_THE_VOICE.contains(pred.aspect()) && !someone;
    return List.of(voice ? "vocals" : Vocabulary.MIX);
  }

  /** What is carried from one segment to the next. */
  private static final class Carried {
    List<String> elements = List.of();
    List<String> headElements = List.of();
    List<Place> sentencePlaces = List.of();
    List<Place> linePlaces = List.of();
    List<Place> lastPlaces = List.of();
    List<Place> praisedPlaces = List.of();
    Pred lastPred;
    String lastProperty;
    int propertySentence = -1;
    int elementSentence = -1;
    int predSentence = -1;
    int sentence = -1;

    void newSentence(boolean newLine) {
      sentence++;
      sentencePlaces = List.of();
      praisedPlaces = List.of();
      if (newLine) {
        linePlaces = List.of();
        headElements = List.of();
      }
    }

    void mention(List<String> named, int inSentence) {
      if (!named.isEmpty()) {
        elements = List.copyOf(named);
        elementSentence = inSentence;
      }
    }
  }
}

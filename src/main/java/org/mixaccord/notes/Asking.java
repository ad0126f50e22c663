package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Reads segments that ask for something to be done. */
final class Asking {
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

  private static final EnumSet<Type> BARE_MORE =
      EnumSet.of(
          Type.MORE, Type.LESS, Type.AUX, Type.DEG, Type.PLACE, Type.PRON, Type.COPULA, Type.ADD);

  private static final EnumSet<Type> BARE_OUT = EnumSet.of(Type.OUT, Type.AUX, Type.PART);

  private final Walk walk;
  private final Subjects subjects;

  Asking(Walk walk) {
    this.walk = walk;
    this.subjects = new Subjects(walk);
  }

  void changes(int i, List<Place> own) {
    Segment segment = walk.segments.get(i);
    walk.at = i;
    boolean shared = false;
    for (Pred read : segment.preds) {
      Pred pred = refine(segment, read);
      boolean implied = pred.targets().isEmpty() && segment.targets.isEmpty();
      if (implied && likens(segment, pred)) {
        continue;
      }
      boolean reason = implied && isReason(i, pred);
      if (reason) {
        walk.reason = i;
      }
      if (reason || coversRaised(segment, pred) || implied && hurtsByLevel(segment, pred)) {
        continue;
      }
      List<String> elements = subjects.of(i, pred, own);
      if (elements.isEmpty()) {
        continue;
      }
      boolean either = segment.either && elements.size() == 2 && pred.complaint();
      if (either) {
        elements = List.of(Vocabulary.MIX);
      }
      List<Place> anew =
          implied && own.isEmpty() ? walk.drafts.placesTakenBack(segment, elements) : List.of();
      List<Place> places =
          own.isEmpty() ? anew.isEmpty() ? placesFor(elements, implied) : anew : own;
      for (String element : elements) {
        Draft draft = new Draft(element, pred, places, segment, i);
        draft.impliedElement = implied;
        draft.lone = segment.items.size() == 1;
        if (either || implied && pointsAtNothing(segment, pred, element)) {
          draft.asks = NoteQuestion.About.PART;
        }
        draft.impliedPlace = own.isEmpty();
        draft.excluded.addAll(segment.excluded);
        draft.start = walk.leadOf(i);
        settlePlace(draft, own);
        if (segment.or && implied && own.isEmpty() && walk.drafts.eitherWay(draft)) {
          draft.pred = Pred.of("other", "any").asUnclear();
          draft.asks = NoteQuestion.About.WISH;
        }
        walk.drafts.add(draft);
      }
      shared = true;
      if (!implied || walk.carried.elements.isEmpty()) {
        List<String> named = new ArrayList<>(elements);
        named.remove(Vocabulary.MIX);
        walk.carried.mention(named, segment.sentence);
      }
      walk.carried.lastPred = pred;
      walk.carried.predSentence = segment.sentence;
    }
    boolean closes = segment.items.get(segment.items.size() - 1).is(Type.PLACE);
    if (shared && !own.isEmpty() && closes && segment.joint == Segment.Joint.AND) {
      walk.drafts.sharePlaces(i, segment.sentence, own);
    }
  }

  /** "Pan the hat to the right, it's fighting the acoustic": says why. */
  private boolean isReason(int i, Pred pred) {
    Segment segment = walk.segments.get(i);
    Pred last = walk.carried.lastPred;
    boolean hides = segment.has(Type.COVERS) && segment.has(Type.PRON);
    int reach = hides ? 1 : 0;
    boolean goesOn = walk.reason == i - 1 && segment.joint != Segment.Joint.SENTENCE;
    return pred.complaint()
        && (goesOn
            || segment.has(Type.PRON)
            || segment.items.get(0).is(Type.COVERS)
            || segment.items.get(0).is(Type.LOST) && segment.targets.isEmpty()
            || segment.items.get(0).is(Type.COPULA) && segment.has(Type.TOOMUCH))
        && last != null
        && (!last.complaint() || segment.has(Type.COVERS) && !last.aspect().equals("level"))
        && !last.unclear()
        && !(last.aspect().equals(pred.aspect()) && last.direction().equals(pred.direction()))
        && segment.sentence - walk.carried.predSentence <= reach
        && segment.sentence - walk.carried.elementSentence <= reach
        && segment.places.isEmpty();
  }

  /** "Drier in the verses, like on the demo": says how dry. */
  private boolean likens(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    return segment.has(Type.BACKTO)
        && pred.aspect().equals("other")
        && !pred.unclear()
        && segment.joint != Segment.Joint.SENTENCE
        && segment.items.size() == 1
        && last != null
        && !last.complaint()
        && !last.unclear()
        && walk.carried.predSentence == segment.sentence;
  }

  /** "The hats are too loud, they're killing me": says how much. */
  private boolean hurtsByLevel(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    return pred.aspect().equals("harshness")
        && pred.complaint()
        && segment.has(Type.PRON)
        && segment.has(Type.PROP)
        && segment.places.isEmpty()
        && last != null
        && last.aspect().equals("level")
        && last.direction().equals("down")
        && segment.sentence - walk.carried.predSentence <= 1;
  }

  /** "Piano up, the guitars cover it": says why. */
  private boolean coversRaised(Segment segment, Pred pred) {
    boolean covers =
        segment.has(Type.COVERS) && pred.complaint() && pred.direction().equals("down");
    boolean it = segment.has(Type.PRON) || segment.has(Type.HER);
    return covers && it && walk.drafts.raised(walk.carried.elements, segment.sentence);
  }

  /** "Turn it down", and nothing was named before it. */
  private boolean pointsAtNothing(Segment segment, Pred pred, String element) {
    boolean moves = pred.aspect().equals("level") || pred.aspect().equals("mute");
    boolean hides = segment.has(Type.COVERS) && pred.complaint() && segment.places.isEmpty();
    return moves
        && (pred.generic() && !pred.complaint() || hides)
        && (segment.has(Type.PRON) || hides)
        && element.equals(Vocabulary.MIX)
        && walk.carried.elements.isEmpty();
  }

  /** "The bass is boomy, pull it down": the remedy belongs to the fault named before. */
  private Pred refine(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    boolean tail =
        pred.aspect().equals("length")
            && (segment.has(Type.PRON)
                || segment.has(Type.WH)
                || segment.items.size() <= 2 && !segment.placeLeads)
            && segment.targets.isEmpty()
            && walk.carried.lastProperty != null
            && Set.of("reverb", "delay", "fade").contains(walk.carried.lastProperty)
            && segment.sentence - walk.carried.propertySentence <= 1;
    if (tail && walk.carried.lastProperty.equals("fade")) {
      return pred.turned("fade", pred.direction());
    }
    if (tail) {
      return pred.turned(
          walk.carried.lastProperty, pred.direction().equals("longer") ? "up" : "down");
    }
    boolean sooner =
        pred.aspect().equals("timing")
            && segment.has(Type.PRON)
            && segment.targets.isEmpty()
            && "fade".equals(walk.carried.lastProperty)
            && walk.carried.propertySentence == segment.sentence;
    if (sooner) {
      // "the fade is too long, finish it two seconds sooner"
      return pred.turned("fade", pred.direction().equals("earlier") ? "shorter" : "longer");
    }
    boolean mute = pred.aspect().equals("mute");
    boolean removable =
        last != null
            && Set.of("noise", "reverb", "delay", "effect", "width").contains(last.aspect());
    boolean degree = pred.amount() != null && pred.amount().word().isPresent();
    boolean eased = says(segment, Type.DOWN, "ease");
    // "boxy around 400, take that out": the fault, not the part
    boolean that = mute && says(segment, Type.OUT, "that");
    int since = segment.sentence - walk.carried.predSentence;
    // "clear it out a touch" takes nothing away for good
    boolean refers =
        (pred.generic() || mute && degree || that)
            && (pred.aspect().equals("level") || mute && (removable || degree || that))
            && segment.targets.isEmpty()
            && last != null
            && last.complaint()
            && (mute || goesAlong(pred, last))
            && (since == 0 || since == 1 && eased)
            && !segment.placeLeads
            && !last.aspect().equals("level")
            && !last.aspect().equals("other");
    if (refers) {
      return pred.turned(last.aspect(), last.direction()).with(pred.amount());
    }
    boolean cleared =
        pred.aspect().equals("distortion")
            && pred.direction().equals("down")
            && segment.targets.isEmpty()
            && last != null
            && last.complaint()
            && since == 0
            && Set.of("low mids", "lows", "mids", "reverb").contains(last.aspect());
    if (cleared) {
      // "the guitars get muddy, clean that up a bit"
      return pred.turned(last.aspect(), last.direction());
    }
    boolean cleaned =
        pred.aspect().equals("distortion")
            && segment.targets.isEmpty()
            && last != null
            && last.aspect().equals("noise")
            && segment.sentence - walk.carried.predSentence <= 1;
    if (cleaned) {
      // "there is a hum, can it be cleaned up"
      return Pred.of("noise", "fix");
    }
    boolean gone =
        mute
            && removable
            && segment.has(Type.PRON)
            && segment.targets.isEmpty()
            && last.complaint()
            && since <= 1;
    if (gone) {
      // "Is the hum on purpose? if it isn't, get rid of it"
      return pred.turned(last.aspect(), last.direction());
    }
    String liked = walk.carried.lastProperty;
    boolean removed =
        mute
            && pred.direction().equals("out")
            && segment.targets.isEmpty()
            && walk.carried.removable != null
            && segment.sentence - walk.carried.removableSentence <= 1
            && (last == null
                || walk.carried.predSentence < walk.carried.removableSentence
                || last.unclear());
    if (removed) {
      // "Big breath at 1:33. Remove please", "that tremolo makes me seasick, turn it off"
      boolean noise = walk.carried.removable.equals("noise");
      return noise ? Pred.of("noise", "fix") : Pred.of("effect", "out");
    }
    boolean restored =
        mute
            && pred.direction().equals("in")
            && segment.targets.isEmpty()
            && pred.amount() != null
            && segment.sentence - walk.carried.propertySentence <= 1
            && Set.of("sibilance", "harshness", "lows", "highs", "mids")
                .contains(String.valueOf(liked));
    if (restored) {
      // "you took the esses out, put some back"
      return pred.turned(liked, "up");
    }
    boolean moved =
        mute
            && pred.direction().equals("in")
            && says(segment, Type.ADD, "add")
            && segment.has(Type.PRON)
            && liked != null
            && AMOUNTS_OF.contains(liked)
            && walk.carried.propertySentence == segment.sentence;
    if (moved) {
      // "take the reverb off the bvs, put it on the lead"
      return pred.turned(liked, "up");
    }
    boolean moreOfLiked =
        liked != null
            && segment.sentence - walk.carried.propertySentence <= (segment.has(Type.PRON) ? 1 : 0)
            && AMOUNTS_OF.contains(liked)
            && pred.generic()
            && pred.aspect().equals("level")
            && segment.items.stream().allMatch(x -> BARE_MORE.contains(x.type()));
    if (moreOfLiked) {
      // "the reverb is lovely, more please"; "less of it in the verse, more in the chorus"
      return pred.turned(liked, pred.direction());
    }
    boolean moreOfIt =
        segment.upon
            && pred.generic()
            && pred.aspect().equals("level")
            && last != null
            && walk.carried.predSentence == segment.sentence
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

  /** "Boomy, pull it down"; "the drums drag, bring them up" asks for two things. */
  private static boolean goesAlong(Pred move, Pred fault) {
    List<String> ways = Vocabulary.directions(fault.aspect());
    return !ways.contains("up") || move.direction().equals(fault.direction());
  }

  private static boolean says(Segment segment, Type type, String detail) {
    return segment.items.stream().anyMatch(x -> x.is(type) && x.a().equals(detail));
  }

  private List<Place> placesFor(List<String> elements, boolean implied) {
    if (!walk.carried.sentencePlaces.isEmpty()) {
      return walk.carried.sentencePlaces;
    }
    Segment last = walk.segments.get(walk.at);
    boolean pointed =
        implied
            && (last.has(Type.PRON)
                || last.items.stream().allMatch(x -> BARE_OUT.contains(x.type())))
            && last.sentence - walk.carried.placeSentence == 1
            && walk.drafts.lastSentence() < walk.carried.placeSentence;
    if (pointed) {
      // "You know that sound in V2? Less of it"
      return walk.carried.lastPlaces;
    }
    if (implied && walk.carried.sentence - walk.drafts.lastSentence() <= 1) {
      List<Place> before = walk.drafts.lastPlaces(elements);
      if (!before.isEmpty()) {
        return before;
      }
    }
    return walk.carried.linePlaces;
  }

  private void settlePlace(Draft draft, List<Place> own) {
    Segment segment = walk.segments.get(draft.segment);
    if (segment.openEvent && own.isEmpty() && !walk.carried.praisedPlaces.isEmpty()) {
      // "love it in the intro, lose it once the beat comes in"
      draft.places =
          new ArrayList<>(List.of(walk.resolver.after(walk.carried.praisedPlaces.get(0))));
      return;
    }
    boolean atStart =
        segment.items.stream().anyMatch(x -> x.is(Type.PRED) && x.b().endsWith("/intro"));
    if (atStart && draft.places.isEmpty()) {
      draft.places = new ArrayList<>(walk.resolver.ofKind("intro"));
    }
    if (draft.pred.aspect().equals("fade")) {
      boolean in = segment.items.stream().anyMatch(x -> x.is(Type.PROP) && x.c().equals("fade in"));
      List<Place> outro = walk.resolver.ofKind(in ? "intro" : "outro");
      boolean whole =
          draft.places.stream().allMatch(p -> p.is(Place.Kind.SECTIONS)) && !outro.isEmpty();
      if (whole && (draft.places.size() != 1 || draft.places.get(0).sections().size() > 1)) {
        draft.places = new ArrayList<>(outro);
      }
    }
  }
}

package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;

/** Reads segments that ask for something to be done. */
final class Asking {
  private static final EnumSet<Type> BARE_OUT = EnumSet.of(Type.OUT, Type.AUX, Type.PART);

  /** How many sentences a section stays spoken of. */
  private static final int REACH = 2;

  private final Walk walk;
  private final Subjects subjects;
  private final Remedies remedies;

  Asking(Walk walk) {
    this.walk = walk;
    this.subjects = new Subjects(walk);
    this.remedies = new Remedies(walk);
  }

  void changes(int i, List<Place> own) {
    Segment segment = walk.segments.get(i);
    walk.at = i;
    if (saysHowMuch(segment)) {
      walk.drafts.amount(segment);
      return;
    }
    boolean shared = false;
    for (Pred read : segment.preds) {
      Pred pred = remedies.meant(segment, read);
      boolean implied = pred.targets().isEmpty() && segment.targets.isEmpty();
      if (implied && likens(segment, pred)) {
        continue;
      }
      if (implied && putsBack(segment, pred)) {
        walk.drafts.bringBack(segment.sentence - 1);
        continue;
      }
      if (implied && deniesFault(segment, pred)) {
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
        boolean moves = segment.has(Type.UP) || segment.has(Type.DOWN);
        if (moves && pred.generic() && !pred.complaint() && pred.amount() != null) {
          walk.floating = new Draft(Vocabulary.MIX, pred, own, segment, i);
        }
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
        Draft draft = new Draft(element, heardOn(element, pred), places, segment, i);
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
      } else if (elements.equals(walk.carried.elements)) {
        walk.carried.elementSentence = segment.sentence;
      }
      walk.carried.lastPred = pred;
      walk.carried.predSentence = segment.sentence;
    }
    boolean closes = segment.items.get(segment.items.size() - 1).is(Type.PLACE);
    // "kick up and the bass is too loud in C2" says where the bass is
    boolean fault = !segment.targets.isEmpty() && segment.preds.stream().anyMatch(Pred::complaint);
    boolean goesAlong = shared && segment.joint == Segment.Joint.AND && !fault;
    if (goesAlong && !own.isEmpty() && closes) {
      walk.drafts.sharePlaces(i, segment, own);
    }
  }

  /** "Give them mids, +2": how much of what was asked just before. */
  private boolean saysHowMuch(Segment segment) {
    Pred last = walk.carried.lastPred;
    boolean signed =
        last != null && segment.items.size() == 1 && segment.items.get(0).signed() != 0;
    boolean follows =
        segment.joint == Segment.Joint.COMMA && walk.carried.predSentence == segment.sentence;
    boolean longer =
        signed
            && segment.items.get(0).is(Type.AMOUNT)
            && segment.items.get(0).signed() > 0
            && segment.sentence - walk.carried.predSentence == 1
            && last.amount() == null
            && last.direction().equals("longer");
    if (longer) {
      // "a longer fade. +10 s"
      return true;
    }
    boolean up = signed && segment.items.get(0).signed() > 0;
    return signed
        && follows
        && (last.amount() == null || last.amount().word().isPresent())
        && !last.aspect().equals("level")
        && last.direction().equals(up ? "up" : "down");
  }

  /** "The hat is spitty": what has no words has no esses. */
  private static Pred heardOn(String element, Pred pred) {
    boolean struck = pred.aspect().equals("sibilance") && Homographs.UNPITCHED.contains(element);
    return struck && !element.equals(Vocabulary.MIX)
        ? pred.turned("harshness", pred.direction())
        : pred;
  }

  /** "Pan the hat to the right, it's fighting the acoustic": says why. */
  private boolean isReason(int i, Pred pred) {
    Segment segment = walk.segments.get(i);
    Pred last = walk.carried.lastPred;
    boolean hides = segment.has(Type.COVERS) && segment.has(Type.PRON);
    boolean unheard =
        segment.items.get(0).is(Type.LOST) && segment.targets.isEmpty() && !segment.her;
    int reach = hides || unheard ? 1 : 0;
    boolean goesOn = walk.reason == i - 1 && segment.joint != Segment.Joint.SENTENCE;
    return pred.complaint()
        && (goesOn
            || segment.has(Type.PRON)
            || segment.items.get(0).is(Type.COVERS)
            || unheard
            || segment.items.get(0).is(Type.COPULA) && segment.has(Type.TOOMUCH))
        && last != null
        && (!last.complaint() || segment.has(Type.COVERS) && !last.aspect().equals("level"))
        && !last.unclear()
        && !(last.aspect().equals(pred.aspect()) && last.direction().equals(pred.direction()))
        && segment.sentence - walk.carried.predSentence <= reach
        && segment.sentence - walk.carried.elementSentence <= reach
        && segment.places.isEmpty();
  }

  /** "Why is the harmonica out? Put it back". */
  private boolean putsBack(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    return segment.has(Type.BACKTO)
        && segment.items.size() <= 2
        && pred.aspect().equals("other")
        && last != null
        && last.aspect().equals("mute")
        && segment.sentence - walk.carried.predSentence <= 1;
  }

  /** "Pad too wide, the club is mono": says why, and asks for no width. */
  private boolean deniesFault(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    return pred.complaint()
        && last != null
        && last.complaint()
        && last.aspect().equals(pred.aspect())
        && !last.direction().equals(pred.direction())
        && walk.carried.predSentence == segment.sentence
        && segment.joint == Segment.Joint.COMMA
        && !segment.has(Type.TOO)
        && !segment.has(Type.TOOMUCH)
        && !segment.has(Type.NOTENOUGH)
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
        && walk.carried.sentencePlaces.isEmpty()
        && walk.carried.elements.isEmpty();
  }

  private List<Place> placesFor(List<String> elements, boolean implied) {
    if (!walk.carried.sentencePlaces.isEmpty()) {
      return walk.carried.sentencePlaces;
    }
    Segment last = walk.segments.get(walk.at);
    boolean pointed =
        implied
            && (last.points() || last.items.stream().allMatch(x -> BARE_OUT.contains(x.type())))
            && last.sentence - walk.carried.placeSentence == 1
            && walk.drafts.lastSentence() < walk.carried.placeSentence;
    if (pointed) {
      // "You know that sound in V2? Less of it"
      return walk.carried.lastPlaces;
    }
    boolean ofThatPart =
        implied
            && last.placeLeads == false
            && last.joint == Segment.Joint.SENTENCE
            && elements.equals(walk.carried.elements)
            && walk.carried.placeSentence == last.sentence - 1
            && walk.carried.elementSentence == last.sentence - 1
            && walk.drafts.lastSentence() < last.sentence - 1;
    if (ofThatPart) {
      // "The bvs in the bridge are ragged. Tighten them up"
      return walk.carried.lastPlaces;
    }
    if (implied && walk.carried.sentence - walk.drafts.lastSentence() <= 1) {
      List<Place> before = walk.drafts.lastPlaces(elements);
      if (!before.isEmpty()) {
        return before;
      }
    }
    boolean ofTheSection =
        implied
            && elements.equals(List.of(Vocabulary.MIX))
            && last.sentence - walk.carried.spokenOfSentence <= REACH
            && walk.carried.linePlaces.isEmpty();
    return ofTheSection ? walk.carried.spokenOf : walk.carried.linePlaces;
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

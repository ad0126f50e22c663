package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Puts what was found together: one change for each thing asked for, however often it was said. */
final class Settling {
  private static final Set<String> FULLNESS = Set.of("lows", "low mids");

  private static final Set<String> HOW = Set.of("impact", "mids", "highs", "lows", "low mids");

  private Settling() {}

  static List<Draft> changes(Drafts drafts, PlaceResolver resolver) {
    namePartsBehind(drafts.changes);
    List<Draft> merged = new ArrayList<>();
    Map<String, List<Draft>> same = new HashMap<>();
    boolean delivery = false;
    for (Draft draft : drafts.changes) {
      if (draft.pred.aspect().equals("delivery")) {
        if (delivery) {
          continue;
        }
        delivery = true;
      }
      String wish = draft.element + "|" + draft.pred.aspect() + "|" + draft.pred.direction();
      List<Draft> alike = same.computeIfAbsent(wish, w -> new ArrayList<>());
      Draft into = alike.isEmpty() ? null : alike.get(alike.size() - 1);
      if (into != null && mergeable(into, draft, resolver)) {
        merge(into, draft);
      } else {
        alike.add(draft);
        merged.add(draft);
      }
    }
    dropVague(merged);
    merged.removeIf(d -> d.pred.complaint() && merged.stream().anyMatch(o -> cures(o, d)));
    merged.removeIf(d -> told(d, merged));
    merged.removeIf(d -> merged.stream().anyMatch(o -> saysWhich(o, d)));
    merged.removeIf(d -> merged.stream().anyMatch(o -> nudges(o, d)));
    merged.removeIf(d -> merged.stream().anyMatch(o -> outOfTune(d, o)));
    merged.removeIf(d -> merged.stream().anyMatch(o -> namesCure(o, d)));
    return merged;
  }

  /** "Less verb, more dry on the lead": the part is named once, behind both. */
  private static void namePartsBehind(List<Draft> changes) {
    for (int i = 0; i + 1 < changes.size(); i++) {
      Draft first = changes.get(i);
      Draft second = changes.get(i + 1);
      boolean open = first.impliedElement && first.element.equals(Vocabulary.MIX);
      boolean lone =
          open
              && first.lone
              && !second.impliedElement
              && second.segment == first.segment + 1
              && second.sentence == first.sentence
              && first.pred.targets().isEmpty()
              && first.places.isEmpty() == second.places.isEmpty();
      if (lone) {
        // "drier and punchier drums"
        first.element = second.element;
        first.places = second.places;
        continue;
      }
      boolean alike =
          !second.impliedElement
              && first.sentence == second.sentence
              && first.pred.aspect().equals(second.pred.aspect())
              && !Set.of("level", "other").contains(first.pred.aspect());
      if (open && alike) {
        first.element = second.element;
      }
    }
  }

  /** "Too far left, bring it to the middle": the second says what to do about the first. */
  private static boolean cures(Draft other, Draft fault) {
    boolean next = other.sentence == fault.sentence + 1 && drags(other, fault);
    return other != fault
        && (other.sentence == fault.sentence || next)
        && other.element.equals(fault.element)
        && (supersedes(other, fault)
            || saysHow(fault.pred, other.pred)
            || other.pred.aspect().equals(fault.pred.aspect()))
        && (!other.pred.direction().equals(fault.pred.direction())
            || !other.pred.aspect().equals(fault.pred.aspect()))
        && !other.pred.complaint()
        && (other.impliedElement || other.pred.aspect().equals("pan") || fault.impliedElement);
  }

  /** "Thin, give it body": the cure of the same fault in other words. */
  private static boolean namesCure(Draft fault, Draft cure) {
    return cure != fault
        && fault.pred.complaint()
        && !cure.pred.complaint()
        && cure.impliedElement
        && cure.sentence == fault.sentence
        && cure.start >= fault.start
        && cure.element.equals(fault.element)
        && cure.pred.direction().equals(fault.pred.direction())
        && FULLNESS.contains(cure.pred.aspect())
        && FULLNESS.contains(fault.pred.aspect());
  }

  /**
   * "Feels soft, can it punch more?", "it disappears, so some more mids on it", "a bit sharp, could
   * lose some top": the cure says how.
   */
  private static boolean saysHow(Pred fault, Pred cure) {
    boolean level = fault.aspect().equals("level");
    boolean raised = level && fault.direction().equals("up");
    boolean blunted = fault.aspect().equals("harshness") && cure.aspect().equals("highs");
    return fault.direction().equals(cure.direction())
        && (raised && HOW.contains(cure.aspect())
            || level && cure.aspect().equals("impact")
            || blunted);
  }

  /** "They sound flat, can they be tuned?": flat in pitch. */
  private static boolean outOfTune(Draft flat, Draft tuned) {
    return flat.pred.complaint()
        && flat.pred.aspect().equals("impact")
        && tuned.pred.aspect().equals("tuning")
        && tuned.element.equals(flat.element)
        && Math.abs(tuned.sentence - flat.sentence) <= 1;
  }

  /** "Just organ and voice there, take the drums out": which of the others are meant. */
  private static boolean saysWhich(Draft part, Draft rest) {
    return part != rest
        && rest.element.equals(Vocabulary.MIX)
        && !part.element.equals(Vocabulary.MIX)
        && rest.pred.equals(Pred.of("mute", "out"))
        && part.pred.aspect().equals("mute")
        && part.pred.direction().equals("out")
        && part.sentence == rest.sentence
        && part.start > rest.start;
  }

  /** "They aren't locked in verse 1, nudge the bass 5 ms later": how to lock them, there. */
  private static boolean nudges(Draft nudge, Draft loose) {
    boolean cure =
        nudge != loose
            && loose.pred.complaint()
            && loose.pred.aspect().equals("timing")
            && loose.pred.direction().equals("tighter")
            && nudge.pred.aspect().equals("timing")
            && !nudge.pred.direction().equals("tighter")
            && nudge.sentence == loose.sentence
            && nudge.start > loose.start;
    if (cure && nudge.places.isEmpty()) {
      nudge.places = loose.places;
    }
    return cure;
  }

  /** "Both are on the left, send the shaker to the right": the other one is where it was. */
  private static boolean told(Draft seen, List<Draft> all) {
    return seen.pred.aspect().equals("pan")
        && seen.pred.complaint()
        && all.stream()
            .anyMatch(
                o ->
                    o != seen
                        && Math.abs(o.sentence - seen.sentence) <= 1
                        && o.pred.aspect().equals("pan")
                        && !o.pred.complaint());
  }

  /** "The pad eats everything, cut its lows", "hits a wrong note, mute it": what to do about it. */
  private static boolean supersedes(Draft remedy, Draft fault) {
    boolean masks =
        !fault.pred.targets().isEmpty()
            && fault.pred.aspect().equals("level")
            && (fault.pred.direction().equals("down") || remedy.segment == fault.segment + 1);
    boolean away = remedy.pred.aspect().equals("mute") && remedy.pred.direction().equals("out");
    boolean wild =
        fault.pred.aspect().equals("compression") && remedy.pred.aspect().equals("timing");
    boolean why = away && fault.impliedElement;
    return (why || remedy.start >= fault.start && remedy.impliedElement)
        && !remedy.pred.unclear()
        && !remedy.pred.aspect().equals("other")
        && (masks || away || drags(remedy, fault) || wild);
  }

  /** "The intro drags. Chop 8 bars". */
  private static boolean drags(Draft remedy, Draft fault) {
    return fault.pred.aspect().equals("timing")
        && (fault.element.equals(Vocabulary.MIX) || fault.sentence == remedy.sentence)
        && remedy.pred.aspect().equals("length");
  }

  private static boolean mergeable(Draft a, Draft b, PlaceResolver resolver) {
    if (a.places.isEmpty() != b.places.isEmpty() && otherStep(a.pred, b.pred)) {
      // "vox up 1, 1.5 in the outro"
      return false;
    }
    if (a.places.isEmpty() || b.places.isEmpty()) {
      return a.excluded.isEmpty() || b.excluded.isEmpty();
    }
    boolean goesOn = a.sentence == b.sentence || a.places.equals(b.places);
    if (b.impliedElement && b.impliedPlace && goesOn) {
      return true;
    }
    if (a.sentence == b.sentence && resolver.lies(b.places, a.places)) {
      return true;
    }
    return resolver.resolve(a.places, a.excluded).equals(resolver.resolve(b.places, b.excluded));
  }

  private static boolean otherStep(Pred a, Pred b) {
    boolean numbers =
        a.amount() != null
            && b.amount() != null
            && a.amount().value().isPresent()
            && b.amount().value().isPresent();
    return numbers && !a.amount().equals(b.amount());
  }

  private static void merge(Draft into, Draft other) {
    Amount old = into.pred.amount();
    Amount fresh = other.pred.amount();
    boolean better =
        fresh != null && (old == null || fresh.value().isPresent() || old.word().isPresent());
    if (better) {
      into.pred = into.pred.with(fresh);
    }
    boolean named = !other.impliedElement || !other.element.equals(Vocabulary.MIX);
    if (!other.pred.unclear() && named) {
      into.asks = null;
    }
    boolean moment = other.places.stream().anyMatch(p -> p.is(Place.Kind.TIME));
    if (into.places.isEmpty() || moment) {
      into.places = other.places;
    }
    into.excluded.addAll(other.excluded);
    if (other.sentence == into.sentence) {
      into.end = Math.max(into.end, other.end);
    }
  }

  private static String voice(String element) {
    return element.equals("lead vocal") ? "vocals" : element;
  }

  /** A vague complaint beside a clear request for the same part says nothing more. */
  private static void dropVague(List<Draft> merged) {
    // "kick and sub are fighting, pull the sub down"
    merged.removeIf(
        d ->
            d.pred.unclear()
                && !d.pred.targets().isEmpty()
                && merged.stream()
                    .anyMatch(
                        o ->
                            o != d
                                && o.sentence == d.sentence
                                && o.start > d.start
                                && !o.pred.unclear()));
    Map<String, Integer> clear = new HashMap<>();
    for (Draft draft : merged) {
      if (!draft.pred.unclear()) {
        clear.merge(voice(draft.element), 1, Integer::sum);
      }
    }
    merged.removeIf(d -> d.pred.unclear() && d.asks != null && clear.containsKey(voice(d.element)));
    merged.removeIf(
        d ->
            d.pred.unclear()
                && d.element.equals(Vocabulary.MIX)
                && merged.stream()
                    .anyMatch(o -> o != d && o.sentence == d.sentence && handOver(d, o)));
  }

  /** "The groove feels stiff, did the shaker get quantised?": the doubt and the place move over. */
  private static boolean handOver(Draft vague, Draft to) {
    if (to.pred.aspect().equals("other")) {
      to.asks = NoteQuestion.About.WISH;
    }
    if (to.places.isEmpty()) {
      to.places = vague.places;
    }
    return true;
  }
}

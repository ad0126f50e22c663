package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.List;

/** The changes and keeps found so far, and the ways later words of a note alter them. */
final class Drafts {
  final List<Draft> changes = new ArrayList<>();
  final List<Draft> keeps = new ArrayList<>();

  /** What was taken back last; "I mean up" says it anew and not where. */
  private final List<Draft> takenBack = new ArrayList<>();

  List<Place> placesTakenBack(Segment segment, List<String> elements) {
    for (Draft draft : takenBack) {
      if (draft.sentence == segment.sentence && elements.contains(draft.element)) {
        return draft.places;
      }
    }
    return List.of();
  }

  void add(Draft draft) {
    changes.add(draft);
  }

  void keep(Draft draft) {
    keeps.add(draft);
  }

  boolean any() {
    return !changes.isEmpty();
  }

  boolean hasDelivery(int sentence) {
    for (int i = changes.size() - 1; i >= 0 && changes.get(i).sentence >= sentence; i--) {
      if (changes.get(i).pred.aspect().equals("delivery")) {
        return true;
      }
    }
    return false;
  }

  int lastSentence() {
    return changes.isEmpty() ? -10 : changes.get(changes.size() - 1).sentence;
  }

  /** Places of the last request about these parts, for a remedy that follows its complaint. */
  List<Place> lastPlaces(List<String> elements) {
    if (changes.isEmpty()) {
      return List.of();
    }
    Draft last = changes.get(changes.size() - 1);
    return elements.isEmpty() || elements.contains(last.element) ? last.places : List.of();
  }

  private List<Draft> lastBatch() {
    List<Draft> batch = new ArrayList<>();
    for (int i = changes.size() - 1; i >= 0; i--) {
      Draft draft = changes.get(i);
      if (!batch.isEmpty() && draft.segment != batch.get(0).segment) {
        break;
      }
      batch.add(0, draft);
    }
    return batch;
  }

  /** Takes back what was asked last: in this sentence, or else in the one before. */
  void retract(Segment segment, int at) {
    takenBack.clear();
    if (changes.isEmpty()) {
      return;
    }
    takenBack.addAll(lastBatch());
    int sentence = changes.get(changes.size() - 1).sentence;
    if (sentence == segment.sentence) {
      changes.removeAll(lastBatch());
    } else {
      changes.removeIf(
          d ->
              d.sentence == sentence
                  || sentence - d.sentence == 1 && takenBack.stream().anyMatch(d::sameWish));
    }
  }

  /** Whether one of these parts was asked up in this sentence or the one before. */
  boolean raised(List<String> elements, int sentence) {
    return changes.stream()
        .anyMatch(
            d ->
                sentence - d.sentence <= 1
                    && elements.contains(d.element)
                    && d.pred.aspect().equals("level")
                    && d.pred.direction().equals("up"));
  }

  /** "Guitars up. No, only the electric": what was asked is asked of these parts alone. */
  boolean narrow(Segment segment, int at) {
    List<Draft> before = takenBack.isEmpty() ? lastBatch() : List.copyOf(takenBack);
    if (before.isEmpty() || segment.sentence - before.get(0).sentence > 1) {
      return false;
    }
    Draft like = before.get(0);
    if (like.pred.aspect().equals("mute")) {
      // "no drums, only piano": says what is left
      return false;
    }
    changes.removeAll(before);
    for (String element : segment.targets) {
      Draft draft = new Draft(element, like.pred, like.places, segment, at);
      draft.start = Math.min(like.start, draft.start);
      changes.add(draft);
    }
    return true;
  }

  /** Where something was asked of these parts in the same sentence. */
  List<Place> placesAsked(List<String> elements, int sentence) {
    for (Draft draft : changes) {
      if (draft.sentence == sentence && elements.contains(draft.element)) {
        return draft.places;
      }
    }
    return List.of();
  }

  /** What was said to be out since this sentence is wanted back. */
  void bringBack(int sentence) {
    for (Draft draft : changes) {
      boolean out = draft.pred.aspect().equals("mute") && draft.pred.direction().equals("out");
      if (draft.sentence >= sentence && out) {
        draft.pred = draft.pred.turned("mute", "in");
      }
    }
  }

  /** The one part something was asked of there, since this sentence; none if there are more. */
  List<String> asked(int sentence) {
    List<String> parts = changes.stream().map(d -> d.element).distinct().toList();
    Draft last = changes.isEmpty() ? null : changes.get(changes.size() - 1);
    boolean one =
        last != null
            && parts.size() == 1
            && last.sentence >= sentence
            && !last.places.isEmpty()
            && !last.element.equals(Vocabulary.MIX);
    return one ? parts : List.of();
  }

  boolean keptIn(int sentence) {
    return !keeps.isEmpty() && keeps.get(keeps.size() - 1).sentence == sentence;
  }

  /** "Louder or quieter, I can't tell": takes back the first; whether there was one. */
  boolean eitherWay(Draft second) {
    for (int i = changes.size() - 1; i >= 0 && changes.get(i).sentence == second.sentence; i--) {
      Draft first = changes.get(i);
      boolean opposite =
          first.element.equals(second.element)
              && first.pred.aspect().equals(second.pred.aspect())
              && !first.pred.direction().equals(second.pred.direction());
      if (opposite) {
        changes.remove(i);
        second.places = second.places.isEmpty() ? first.places : second.places;
        return true;
      }
    }
    return false;
  }

  /** "He wants the vocal louder but I don't, so leave the vocal alone". */
  void denied(Segment keep) {
    changes.removeIf(
        d ->
            d.sentence == keep.sentence
                && keep.targets.contains(d.element)
                && d.pred.aspect().equals("level")
                && d.pred.amount() == null
                && d.places.isEmpty()
                && !d.pred.complaint());
  }

  /** Faults of these parts were none. */
  void clear(List<String> elements) {
    changes.removeIf(d -> elements.contains(d.element) && d.pred.complaint());
  }

  /** Faults of these parts in one sentence were none; those of other places still are. */
  void clear(List<String> elements, int sentence, List<Place> places) {
    changes.removeIf(
        d ->
            d.sentence == sentence
                && elements.contains(d.element)
                && d.pred.complaint()
                && (d.places.isEmpty() || places.isEmpty() || d.places.equals(places)));
  }

  /** Faults of this sentence are liked after all. */
  void forgive(int sentence) {
    changes.removeIf(d -> d.sentence == sentence && d.pred.complaint());
  }

  /** "And the snare too", "same for the toms", "chorus 2 same bass thing". */
  void again(Segment segment, int at, List<String> elements, List<Place> places) {
    if (changes.isEmpty()) {
      return;
    }
    for (String element : elements) {
      for (int i = changes.size() - 1; i >= 0; i--) {
        if (changes.get(i).element.equals(element)) {
          changes.get(i).places.addAll(places);
          return;
        }
      }
    }
    for (Draft draft : lastBatch()) {
      if (elements.isEmpty()) {
        draft.places.addAll(places);
      }
      for (String element : elements) {
        Draft copy =
            new Draft(element, draft.pred, places.isEmpty() ? draft.places : places, segment, at);
        copy.asks = draft.asks;
        boolean known = changes.stream().anyMatch(d -> d.sameWish(copy) && d.segment == at);
        if (!known) {
          changes.add(copy);
        }
      }
    }
  }

  /** "Bass up 1. No wait, make that 2": what was taken back, by another amount. */
  private void anew(Segment segment) {
    for (Draft draft : takenBack) {
      Amount amount = new Degrees(segment.items).amountFor(draft.pred.aspect(), 0);
      if (amount != null) {
        draft.pred = draft.pred.with(amount);
        draft.end = Math.max(draft.end, segment.to);
        changes.add(draft);
      }
    }
    takenBack.clear();
  }

  /** "…, just a touch": how much of what was asked before. */
  void amount(Segment segment) {
    if (segment.has(Type.INSTEAD) && !takenBack.isEmpty()) {
      anew(segment);
      return;
    }
    for (Draft draft : lastBatch()) {
      Amount amount = new Degrees(segment.items).amountFor(draft.pred.aspect(), 0);
      boolean late =
          segment.sentence - draft.sentence == 1
              && draft.pred.amount() == null
              && (segment.has(Type.AMOUNT) || segment.items.size() == 1 && segment.has(Type.DEG));
      if ((draft.sentence == segment.sentence || late) && amount != null) {
        draft.pred = draft.pred.with(amount);
        draft.end = Math.max(draft.end, segment.to);
      }
    }
  }

  /** The same wish again in another place, by another amount. */
  void elsewhere(Segment segment, int at, List<Place> places) {
    boolean one =
        segment.joint == Segment.Joint.AND
            && lastBatch().stream().allMatch(d -> d.pred.amount() == null && !d.places.isEmpty());
    if (one) {
      // "down in C1 and C2 by 1.5 dB"
      lastBatch().forEach(d -> d.places.addAll(places));
      amount(segment);
      return;
    }
    for (Draft draft : lastBatch()) {
      Amount amount = new Degrees(segment.items).amountFor(draft.pred.aspect(), 0);
      changes.add(new Draft(draft.element, draft.pred.with(amount), places, segment, at));
    }
  }

  void exclude(Segment segment, int at, List<Place> places) {
    for (Draft draft : changes) {
      if (draft.sentence == segment.sentence || draft.sentence == lastSentence()) {
        draft.excluded.addAll(places);
        draft.end = Math.max(draft.end, segment.to);
      }
    }
  }

  /** "Not the guitars": no part of the request before, and to be left alone there. */
  void spare(Segment segment, int at, List<String> elements) {
    List<Draft> batch = lastBatch();
    List<Place> places = batch.get(0).places;
    changes.removeIf(d -> d.segment == batch.get(0).segment && elements.contains(d.element));
    for (String element : elements) {
      keeps.add(new Draft(element, null, places, segment, at));
    }
  }

  /** "Just the first one". */
  void restrict(Segment segment, int at, List<Place> places) {
    List<Draft> batch = new ArrayList<>(lastBatch());
    String element = batch.isEmpty() ? "" : batch.get(0).element;
    for (Draft draft : changes) {
      boolean listed = draft.sentence == segment.sentence && draft.excluded.isEmpty();
      boolean open = draft.places.isEmpty() && (listed || draft.element.equals(element));
      if (open && segment.sentence - draft.sentence <= 2 && !batch.contains(draft)) {
        batch.add(draft);
      }
    }
    for (Draft draft : batch) {
      draft.places = new ArrayList<>(places);
      draft.end = Math.max(draft.end, segment.to);
    }
  }

  boolean openIn(int segment) {
    for (Draft draft : lastBatch()) {
      if (draft.segment == segment && draft.impliedElement) {
        return true;
      }
    }
    return false;
  }

  /** Whether what was asked last, in this segment or behind it, still has no place. */
  boolean placelessSince(int segment, int sentence) {
    for (Draft draft : lastBatch()) {
      boolean since = draft.segment >= segment && draft.sentence == sentence;
      if (since && draft.places.isEmpty()) {
        return true;
      }
    }
    return false;
  }

  /** Gives the request before the parts named after it. */
  void lend(Segment segment, int at, List<String> elements) {
    List<Draft> batch = lastBatch();
    changes.removeAll(batch);
    Draft like = batch.get(0);
    for (String element : elements) {
      Draft draft = new Draft(element, like.pred, like.places, segment, like.segment);
      draft.start = like.start;
      draft.asks = like.asks;
      draft.excluded.addAll(like.excluded);
      changes.add(draft);
    }
  }

  void lendPlaces(Segment segment, int at, List<Place> places) {
    for (Draft draft : lastBatch()) {
      draft.places = new ArrayList<>(places);
      draft.end = Math.max(draft.end, segment.to);
    }
  }

  /** Whether what was asked last takes something away. */
  boolean lastIsGone() {
    Pred last = changes.isEmpty() ? null : changes.get(changes.size() - 1).pred;
    return last != null && last.aspect().equals("mute") && last.direction().equals("out");
  }

  /** "Kick up and snare down in the chorus": both there. */
  void sharePlaces(int at, Segment segment, List<Place> places) {
    int sentence = segment.sentence;
    String aspect = "";
    for (int i = changes.size() - 1; i >= 0; i--) {
      Draft draft = changes.get(i);
      if (draft.segment == at) {
        aspect = draft.pred.aspect();
        continue;
      }
      if (draft.segment != at - 1 || draft.sentence != sentence || !draft.places.isEmpty()) {
        return;
      }
      if (segment.apart && !aspect.equals(draft.pred.aspect())) {
        // "the bass up a touch, and less reverb on the organ in the bridge"
        return;
      }
      boolean whole = draft.element.equals(Vocabulary.MIX) && !draft.impliedElement;
      if (whole) {
        // "some lows off the whole mix, and the claps out of C1"
        return;
      }
      draft.places = new ArrayList<>(places);
    }
  }
}

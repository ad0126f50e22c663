package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.List;

/** A note on its way from its first segment to its last: what was read and what is carried on. */
final class Walk {
  final List<Segment> segments;
  final PlaceResolver resolver;
  final Drafts drafts = new Drafts();
  final Carried carried = new Carried();

  /** Index of the segment that is read. */
  int at;

  /** Index of the segment that only said why, so that what goes on from it does too. */
  int reason = -9;

  /** A wish for nothing that was named: "up 1 dB please"; or null. */
  Draft floating;

  Walk(List<Segment> segments, PlaceResolver resolver) {
    this.segments = segments;
    this.resolver = resolver;
  }

  List<Place> placesOf(Segment segment) {
    List<Place> own = new ArrayList<>();
    for (Place place : segment.places) {
      if (place.is(Place.Kind.THEREAFTER)) {
        if (!carried.lastPlaces.isEmpty()) {
          own.add(resolver.after(carried.lastPlaces.get(carried.lastPlaces.size() - 1)));
        }
      } else if (place.is(Place.Kind.ELSEWHERE)) {
        own.addAll(resolver.elsewhere(carried.lastPlaces));
      } else if (place.is(Place.Kind.THEREBEFORE)) {
        if (!carried.lastPlaces.isEmpty()) {
          own.add(carried.lastPlaces.get(0).until());
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
      carried.placeSentence = segment.sentence;
    }
    return own;
  }

  List<Place> inheritedPlaces() {
    return carried.sentencePlaces.isEmpty() ? carried.linePlaces : carried.sentencePlaces;
  }

  /** Where the words begin, a heading before them included. */
  int leadOf(int i) {
    int start = segments.get(i).from;
    for (int k = i - 1; k >= 0 && segments.get(k).leads; k--) {
      if (segments.get(k).sentence != segments.get(i).sentence) {
        break;
      }
      start = segments.get(k).from;
    }
    return start;
  }
}

package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.List;

/** A change or keep while the note is still being read. */
final class Draft {
  String element;
  Pred pred;
  List<Place> places;
  List<Place> excluded = new ArrayList<>();
  NoteQuestion.About asks;
  boolean impliedElement;
  boolean impliedPlace;

  /** One word alone asked for it, its part may stand behind: "drier and punchier drums". */
  boolean lone;

  int segment;
  int sentence;
  int start;
  int end;

  Draft(String element, Pred pred, List<Place> places, Segment from, int segment) {
    this.element = element;
    this.pred = pred;
    this.places = new ArrayList<>(places);
    this.segment = segment;
    this.sentence = from.sentence;
    this.start = from.from;
    this.end = from.to;
    this.asks = pred != null && pred.unclear() ? NoteQuestion.About.WISH : null;
  }

  boolean sameWish(Draft other) {
    return element.equals(other.element)
        && pred.aspect().equals(other.pred.aspect())
        && pred.direction().equals(other.pred.direction());
  }
}

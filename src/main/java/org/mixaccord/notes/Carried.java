package org.mixaccord.notes;

import java.util.List;

/** What is carried from one segment to the next. */
final class Carried {
  List<String> elements = List.of();
  List<String> headElements = List.of();
  List<Place> sentencePlaces = List.of();
  List<Place> linePlaces = List.of();
  List<Place> lastPlaces = List.of();
  List<Place> praisedPlaces = List.of();

  /** What a sentence says of "everything up to the bridge" itself, and not of what follows. */
  List<Place> untilPlaces = List.of();

  /**
   * A section that a sentence spoke of, and of no part: "the outro is too much. Make it smaller".
   */
  List<Place> spokenOf = List.of();

  int spokenOfSentence = -9;
  Pred lastPred;
  String lastProperty;

  /** A noise or an effect that was named, for "take it out" and "turn it off". */
  String removable;

  /** The word for a noise that was named last. */
  String noise = "";

  int removableSentence = -9;
  int propertySentence = -1;
  int elementSentence = -1;
  int predSentence = -1;
  int placeSentence = -1;
  int sentence = -1;

  void newSentence(boolean newLine) {
    sentence++;
    sentencePlaces = List.of();
    praisedPlaces = List.of();
    untilPlaces = List.of();
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

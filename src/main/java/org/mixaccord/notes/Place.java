package org.mixaccord.notes;

import java.util.List;

/**
 * A place as one phrase of a note names it.
 *
 * @param kind how it is named
 * @param sections indexes into the song's sections, in song order
 * @param names sections of a song whose form is not known, as said
 * @param from begin in seconds, for a stretch of time
 * @param to its end
 * @param words the words, lower case
 * @param sectionKind which kind of section it names; empty for none
 * @param open how it reaches beyond what it names
 */
record Place(
    Kind kind,
    List<Integer> sections,
    List<String> names,
    double from,
    double to,
    String words,
    String sectionKind,
    Open open) {
  enum Kind {
    SECTIONS,
    NAMES,
    TIME,
    WHOLE,
    /** Named, but the song has no such place. */
    UNKNOWN,
    /** "From then on": what follows the place spoken of before. */
    THEREAFTER,
    /** "There": where it was spoken of before. */
    THERE,
    /** "Everywhere else": all but the place spoken of before. */
    ELSEWHERE,
    /** "Everything before it": what leads up to the place spoken of before. */
    THEREBEFORE
  }

  enum Open {
    NO,
    /** "Until the bridge". */
    UNTIL,
    /** "Choruses 2 and 4" of a song that has three; a time that is after its end. */
    PARTLY
  }

  static Place ofSections(List<Integer> sections, String words, String sectionKind) {
    return new Place(Kind.SECTIONS, sections, List.of(), 0, 0, words, sectionKind, Open.NO);
  }

  static Place ofNames(List<String> names, String words, String sectionKind) {
    return new Place(Kind.NAMES, List.of(), names, 0, 0, words, sectionKind, Open.NO);
  }

  static Place time(double from, double to, String words) {
    double begin = Math.max(0, from);
    return new Place(
        Kind.TIME, List.of(), List.of(), begin, Math.max(begin, to), words, "", Open.NO);
  }

  static Place plain(Kind kind, String words) {
    return new Place(kind, List.of(), List.of(), 0, 0, words, "", Open.NO);
  }

  /** A time or bar that is not in the song. */
  static Place noTime(String words) {
    return plain(Kind.UNKNOWN, words).partly();
  }

  boolean isNoTime() {
    return open == Open.PARTLY && !is(Kind.SECTIONS) && !is(Kind.NAMES);
  }

  Place named(String said) {
    return new Place(kind, sections, names, from, to, said, sectionKind, open);
  }

  Place until() {
    return new Place(kind, sections, names, from, to, words, sectionKind, Open.UNTIL);
  }

  Place partly() {
    return new Place(kind, sections, names, from, to, words, sectionKind, Open.PARTLY);
  }

  boolean is(Kind other) {
    return kind == other;
  }
}

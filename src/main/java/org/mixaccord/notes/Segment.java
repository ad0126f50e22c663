package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;

/** A part of a sentence between two joints: at most one thought. */
final class Segment {
  /** How it hangs on the one before. */
  enum Joint {
    SENTENCE,
    COMMA,
    AND,
    BUT,
    BRACKET,
    /** After a colon or a dash that follows a heading. */
    HEADED
  }

  final List<Item> items = new ArrayList<>();
  Joint joint = Joint.SENTENCE;
  boolean heading;

  /** Only names what the next segment speaks of; its words belong to that. */
  boolean leads;

  /** A comma stands before its "and". */
  boolean apart;

  /** Joined by "or" to the one before. */
  boolean or;

  /** Names parts of which one is meant: "the trumpet or the sax". */
  boolean either;

  /** A sentence that begins with "and". */
  boolean adds;

  boolean asks;
  boolean newLine;
  int sentence;

  /** The words it owns in the note, fillers included. */
  int from = -1;

  int to = -1;

  // filled by analysis
  final List<Pred> preds = new ArrayList<>();
  final List<String> targets = new ArrayList<>();
  final List<Place> places = new ArrayList<>();
  final List<Place> excluded = new ArrayList<>();
  final List<String> protectedElements = new ArrayList<>();
  boolean keeps;
  boolean blocked;
  boolean openEvent;

  /** "The strings come in": only says when. */
  boolean tellsWhen;

  boolean placeLeads;

  /** Says "in" before its place, so that the place is no object: "leave it in the bridge". */
  boolean within;

  /** A sung word stands for who sings it. */
  boolean quoted;

  /** Joined to praise: "lovely and dry". */
  boolean praised;

  /** Joined to a wish: "… be narrow in the verse and wide in the chorus". */
  boolean wished;

  /** "Mute her there": whoever was spoken of. */
  boolean her;

  /** Parts named in what only says why: "… because the drums are so dry". */
  final List<String> aside = new ArrayList<>();

  /** "More on the vocal": more of what was spoken of, there. */
  boolean upon;

  /** Ends with "please", which is no item of its own then. */
  boolean pleads;

  boolean has(Type type) {
    if (type == Type.AUX && pleads) {
      return true;
    }
    for (Item item : items) {
      if (item.type() == type) {
        return true;
      }
    }
    return false;
  }

  boolean hasAny(EnumSet<Type> types) {
    for (Item item : items) {
      if (types.contains(item.type())) {
        return true;
      }
    }
    return false;
  }

  /** "It", "do something about that": speaks of what was spoken of. */
  boolean points() {
    return has(Type.PRON)
        || items.stream().anyMatch(x -> x.is(Type.DISLIKE) && x.a().equals("that"));
  }

  boolean hasPlease() {
    return pleads || items.stream().anyMatch(x -> x.is(Type.AUX) && x.a().equals("please"));
  }

  void own(Item item) {
    from = from < 0 ? item.start() : Math.min(from, item.start());
    to = Math.max(to, item.end());
  }

  boolean isBare() {
    return preds.isEmpty() && !keeps;
  }
}

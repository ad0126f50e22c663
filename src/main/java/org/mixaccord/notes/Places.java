package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/**
 * Joins the words that name a place ("the second half of both verses", "bars 17-20", "from 1:40
 * on") into one item each.
 */
final class Places extends SectionPhrases {
  private final Clock clock;
  private final List<Item> out = new ArrayList<>();

  private Places(String text, NoteContext context, SectionNames names, List<Item> items) {
    super(text, context, names, items);
    this.clock = new Clock(context);
  }

  static List<Item> join(String text, NoteContext context, SectionNames names, List<Item> tagged) {
    Places places = new Places(text, context, names, tagged);
    int i = 0;
    while (i < tagged.size()) {
      i = places.step(i);
    }
    return places.out;
  }

  private int step(int i) {
    Found found = at(i).orElse(null);
    if (found == null) {
      Item item = items.get(i);
      out.add(item.is(Type.THERE) ? item.as(Type.FILL) : isForward(i) ? forward(i) : item);
      return i + 1;
    }
    if (!found.place().sectionKind().isEmpty()) {
      lastKind = found.place().sectionKind();
    }
    if (found.place().is(Place.Kind.SECTIONS)) {
      lastPlace = found.place();
    }
    if (sung) {
      out.add(Item.mark(Type.QUOTE, "", items.get(i).start(), items.get(i).end()));
      sung = false;
    }
    out.add(Item.place(found.place(), items.get(i).start(), items.get(found.next() - 1).end()));
    return found.next();
  }

  /** "There please". */
  private boolean isPlease(int i) {
    return items.get(i).a().equals("please")
        && (i + 1 == items.size() || JOINTS.contains(type(i + 1)));
  }

  private boolean isForward(int i) {
    return is(i, Type.ONWARD) && words(i, i + 1).equals("forward");
  }

  /** "Bring it forward", "too forward": not onward in time. */
  private Item forward(int i) {
    Item item = items.get(i);
    boolean too = i > 0 && (is(i - 1, Type.TOO) || is(i - 1, Type.DEG) && is(i - 2, Type.TOO));
    Lexicon.Entry entry =
        too
            ? new Lexicon.Entry(Type.QUAL, "level", "up", "sore")
            : new Lexicon.Entry(Type.UP, "-", "-", "");
    return Item.of(entry, item.start(), item.end());
  }

  private Optional<Found> at(int i) {
    Optional<Found> timed = timed(i);
    if (timed.isPresent()) {
      return timed;
    }
    switch (type(i)) {
      case WHOLE:
        return place(Place.plain(Place.Kind.WHOLE, words(i, i + 1)), i + 1);
      case THEN:
        return place(Place.plain(Place.Kind.THEREAFTER, words(i, i + 1)), i + 1);
      case ELSEWHERE:
        return place(Place.plain(Place.Kind.ELSEWHERE, words(i, i + 1)), i + 1);
      case THEREBEFORE:
        return place(Place.plain(Place.Kind.THEREBEFORE, words(i, i + 1)), i + 1);
      case VAGUEPLACE:
        boolean beside = is(i + 1, Type.AFTER) || is(i + 1, Type.BEFORE);
        Optional<Found> whose = beside ? bare(skip(i + 2)) : Optional.empty();
        // "that bit after the solo" could be anything
        int end = whose.map(Found::next).orElse(i + 1);
        return place(Place.plain(Place.Kind.UNKNOWN, words(i, i + 1)), end);
      case THERE:
        boolean closes =
            i > 0
                && (i + 1 == items.size()
                    || JOINTS.contains(type(i + 1))
                    || is(i + 1, Type.AUX) && isPlease(i + 1)
                    || is(i - 1, Type.ELEM) && (is(i + 1, Type.COPULA) || is(i + 1, Type.KEEP)));
        return closes
            ? place(Place.plain(Place.Kind.THERE, words(i, i + 1)), i + 1)
            : Optional.empty();
      case FROM:
        return from(i);
      case UNTIL:
        return bare(skip(i + 1)).map(f -> new Found(f.place().until(), f.next()));
      case AFTER:
        return bare(skip(i + 1)).map(f -> new Found(after(f.place()), f.next()));
      case BEFORE:
        // "everything before the first chorus"
        boolean that = is(i + 1, Type.FILL) && words(i + 1, i + 2).equals("that");
        boolean alone = that && (i + 2 >= items.size() || JOINTS.contains(type(i + 2)));
        if (alone && (i == 0 || is(i - 1, Type.STOP))) {
          // "Before that, the stab is too loud"
          return place(Place.plain(Place.Kind.THEREBEFORE, words(i, i + 2)), i + 2);
        }
        boolean all = i > 0 && is(i - 1, Type.ELEM) && items.get(i - 1).a().equals("mix");
        return bare(skip(i + 1))
            .map(f -> new Found(all ? f.place().until() : before(i, f.place()), f.next()));
      default:
        return bare(i);
    }
  }

  /** "From X", "from X on", "from X to Y". */
  private Optional<Found> from(int i) {
    Optional<Found> begin = bare(skip(i + 1));
    if (begin.isEmpty()) {
      return begin;
    }
    int next = begin.get().next();
    Place first = begin.get().place();
    int to = skip(next);
    if (is(to, Type.TO) || is(to, Type.UNTIL) || is(to, Type.DASH)) {
      Optional<Found> end = bare(skip(to + 1));
      if (end.isPresent()) {
        return place(between(first, end.get().place()), end.get().next());
      }
    }
    if (is(next, Type.ON) || is(next, Type.ONWARD)) {
      return place(onward(first), next + 1);
    }
    // "cut 2 bars from the solo" is no stretch; "from the bridge the drums …" is
    boolean begins =
        items.get(i).a().equals("start")
            || i == 0
            || is(i - 1, Type.STOP)
            || is(i - 1, Type.MARK)
            || is(i - 1, Type.CONJ);
    return place(begins && first.is(Place.Kind.SECTIONS) ? onward(first) : first, next);
  }

  /** "The fill before the chorus" is heard at the end of what comes before the chorus. */
  private Place before(int i, Place place) {
    // "late going into the bridge" is heard where it begins
    boolean at = words(i, i + 1).endsWith("into");
    // "before the second line of verse 1"
    boolean within = place.words().contains(" of ");
    if (at || within || !place.is(Place.Kind.SECTIONS) || place.sections().contains(0)) {
      return place;
    }
    List<Integer> ahead = place.sections().stream().map(s -> s - 1).toList();
    return Place.ofSections(ahead, place.words(), "");
  }

  private Place after(Place place) {
    if (place.is(Place.Kind.SECTIONS)) {
      int last = Collections.max(place.sections());
      return last + 1 < names.size() ? followingFrom(last + 1, place) : place;
    }
    return place;
  }

  private Optional<Found> timed(int i) {
    return clock
        .at(items, i)
        .map(f -> f.place().isNoTime() ? f.named(words(i, f.next())) : f)
        .map(f -> new Found(f.place(), f.next()));
  }
}

package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Reads sections with their numbers and ordinals: "both choruses", "V1-V2", "the last two". */
abstract class SectionPhrases extends PlaceWords {
  private static final Set<String> SUNG =
      Set.of("line", "lines", "word", "words", "syllable", "phrase", "phrases");
  final SectionNames names;

  /** The kind of section named last, for "the second one". */
  String lastKind = "";

  /** The sections named last, for "that chorus" and "the first half" without a name. */
  Place lastPlace;

  /** Whether what was read speaks of a sung line. */
  boolean sung;

  /** A place and the index of the item after it. */
  record Found(Place place, int next) {}

  /** "The end of the start of V2": nobody goes deeper. */
  private static final int DEEPEST = 4;

  private int within;
  private final Slices slices;

  SectionPhrases(String text, NoteContext context, SectionNames names, List<Item> items) {
    super(text, items);
    this.names = names;
    this.slices = new Slices(names, context.bars());
  }

  static Optional<Found> place(Place place, int next) {
    return Optional.of(new Found(place, next));
  }

  /** A section with its numbers and ordinals, without a preposition. */
  Optional<Found> bare(int i) {
    if (i >= items.size()) {
      return Optional.empty();
    }
    if (is(i, Type.SECTIONLIT)) {
      return place(
          Place.ofSections(List.of(Integer.parseInt(items.get(i).a())), words(i, i + 1), ""),
          i + 1);
    }
    if (is(i, Type.VAGUEPLACE)) {
      return place(Place.plain(Place.Kind.UNKNOWN, words(i, i + 1)), i + 1);
    }
    return section(i);
  }

  private Optional<Found> section(int begin) {
    WantedSections wanted = new WantedSections();
    int i = begin;
    while (i < items.size() && i - begin < LONGEST && !is(i, Type.SECTION)) {
      if (is(i, Type.ORD)) {
        wanted.ordinals.add(Integer.parseInt(items.get(i).a()));
      } else if (is(i, Type.LASTW)) {
        wanted.fromLast = Integer.parseInt(items.get(i).a());
      } else if (is(i, Type.ALLW)) {
        wanted.all = true;
      } else if (is(i, Type.NUMWORD)
          && !items.get(i).a().equals("1")
          && (wanted.fromLast > 0 || wanted.ordinals.contains(1) || wanted.all)) {
        wanted.count = Integer.parseInt(items.get(i).a());
      } else if (is(i, Type.NUMBER) && wanted.fromLast > 0 && items.get(i).value() < 9) {
        wanted.count = (int) items.get(i).value();
      } else if (is(i, Type.AMOUNT) && wanted.edgeNamed() != 0 && slice(i) > i) {
        // "the last four bars of the bridge"
        wanted.edge = items.get(i).amount();
        wanted.half = wanted.edgeNamed();
        wanted.ordinals.clear();
        wanted.fromLast = 0;
        i = slice(i) - 1;
      } else if (isSlice(i) && i > begin && slice(i) > i) {
        // "the second half of", "the last line of": the section it is a slice of is the place
        wanted.edge = Slices.single(words(i, i + 1));
        wanted.half =
            wanted.edge != null
                ? wanted.edgeNamed()
                : words(i, i + 1).equals("half") ? wanted.halfNamed() : 0;
        wanted.sung |= SUNG.contains(words(i, i + 1));
        wanted.ordinals.clear();
        wanted.fromLast = 0;
        wanted.all = false;
        i = slice(i) - 1;
      } else if (i > begin && (is(i, Type.CONJ) && is(skip(i + 1), Type.ORD) || isArticle(i))) {
        i = skip(is(i, Type.CONJ) ? i + 1 : i);
        continue;
      } else {
        break;
      }
      i++;
    }
    if (is(i, Type.SECTION)) {
      sung |= wanted.sung;
      return numbered(begin, i, wanted)
          .map(f -> new Found(slices.of(f.place(), wanted.half, wanted.edge), f.next()));
    }
    boolean halfOfIt =
        is(i, Type.SLICE)
            && words(i, i + 1).equals("half")
            && wanted.halfNamed() != 0
            && slices.single(lastPlace);
    if (halfOfIt) {
      // "bridge: drums out in the first half"
      return place(slices.of(lastPlace, wanted.halfNamed(), null), i + 1);
    }
    boolean relative =
        (!wanted.ordinals.isEmpty() || wanted.fromLast > 0 || wanted.all)
            && !lastKind.isEmpty()
            && (relativeFollows(i) || exceptBefore(begin) || inBefore(begin) && closes(i));
    Optional<Found> bare = i == begin ? bareNumber(begin) : Optional.empty();
    if (bare.isPresent()) {
      return bare;
    }
    boolean pattern = wanted.all && wanted.ordinals.contains(2);
    if (!relative || i == begin || pattern) {
      // "push every second one later"
      return Optional.empty();
    }
    int end = is(i, Type.ONEW) || (is(i, Type.NUMWORD) && items.get(i).a().equals("1")) ? i + 1 : i;
    Place meant = resolve(lastKind, wanted, begin, end);
    // "the third one" may be anything where there is no third
    return meant.is(Place.Kind.UNKNOWN) ? Optional.empty() : place(meant, end);
  }

  /** "Louder in 2", after a section of that kind was named. */
  private Optional<Found> bareNumber(int i) {
    boolean counted =
        is(i, Type.NUMBER)
            && items.get(i).signed() == 0
            && items.get(i).value() >= 1
            && items.get(i).value() <= names.ofKind(lastKind).size()
            && items.get(i).value() == Math.rint(items.get(i).value());
    boolean listed = i > 1 && is(i - 1, Type.CONJ) && is(i - 2, Type.NUMBER) && inBefore(i - 2);
    if (!counted || lastKind.isEmpty() || !(inBefore(i) || listed) || !closes(i + 1)) {
      return Optional.empty();
    }
    WantedSections wanted = new WantedSections();
    wanted.ordinals.add((int) items.get(i).value());
    return place(resolve(lastKind, wanted, i, i + 1), i + 1);
  }

  private boolean relativeFollows(int i) {
    return is(i, Type.ONEW) || (is(i, Type.NUMWORD) && items.get(i).a().equals("1"));
  }

  private boolean isSlice(int i) {
    return is(i, Type.SLICE) || is(i, Type.BARW) || is(i, Type.BEATW);
  }

  private int slice(int i) {
    int next = i + 1;
    boolean of = false;
    while (next < items.size() && next - i < LONGEST && isArticle(next)) {
      of |= is(next, Type.OF) || items.get(next).a().equals("of");
      next++;
    }
    return of ? next : i;
  }

  /** "At the end of each line", "of the lines": of none of the song's sections. */
  private boolean ofEach(int i) {
    boolean each = is(i, Type.ALLW) && is(i + 1, Type.SLICE);
    return each || is(i, Type.SLICE) && words(i, i + 1).endsWith("s");
  }

  private Optional<Found> numbered(int begin, int at, WantedSections wanted) {
    Item section = items.get(at);
    int next = at + 1;
    boolean edge = section.a().equals("outro") || section.a().equals("intro");
    if (edge && skip(next) > next && within < DEEPEST) {
      // "the end of V2" is V2
      within++;
      Optional<Found> of = section(skip(next));
      within--;
      if (of.isPresent()) {
        return of;
      }
      if (ofEach(skip(next))) {
        return Optional.empty();
      }
    }
    if (!section.b().isEmpty()) {
      wanted.numbers.add(Integer.parseInt(section.b()));
    } else if (isNumber(next)
        && (bracketed(begin)
            || !(is(next + 1, Type.MARK) && items.get(next + 1).a().equals(")")))) {
      // "(verse 1)", but not "bridge 2) claps"
      wanted.numbers.add(number(next));
      next++;
    }
    while (!wanted.numbers.isEmpty()) {
      int joint = next;
      boolean comma = is(joint, Type.MARK) && !items.get(joint).a().equals("(");
      boolean and = is(joint, Type.CONJ) && !items.get(joint).a().equals("but");
      boolean range = is(joint, Type.DASH) || is(joint, Type.TO);
      boolean glued = section.b().isEmpty() || range;
      if (!(comma || and || range)) {
        break;
      }
      int second = comma && is(joint + 1, Type.CONJ) ? joint + 2 : joint + 1;
      boolean sameKindSign =
          is(second, Type.SECTION)
              && items.get(second).a().equals(section.a())
              && !items.get(second).b().isEmpty();
      int value;
      if (isNumber(second) && glued && !amountFollows(second + 1)) {
        value = number(second);
      } else if (sameKindSign && range) {
        value = Integer.parseInt(items.get(second).b());
      } else {
        break;
      }
      int previous = wanted.numbers.get(wanted.numbers.size() - 1);
      for (int n = range ? previous + 1 : value; n <= value; n++) {
        wanted.numbers.add(n);
      }
      next = second + 1;
    }
    Place place =
        wanted.plain() && pointed(begin, section.a())
            ? lastPlace
            : resolve(section.a(), wanted, begin, next);
    boolean span =
        (is(next, Type.DASH) || is(next, Type.TO))
            && place.is(Place.Kind.SECTIONS)
            && is(skip(next + 1), Type.SECTION)
            && !items.get(skip(next + 1)).a().equals(section.a());
    boolean to = span && (items.get(next).end() - items.get(next).start() > 1 || gluedDash(next));
    if (to && within < DEEPEST) {
      within++;
      Optional<Found> end = section(skip(next + 1));
      within--;
      if (end.isPresent()) {
        return place(between(place, end.get().place()), end.get().next());
      }
    }
    if (is(next, Type.ONWARD)) {
      return place(onward(place), next + 1);
    }
    return place(place, next);
  }

  /** "That build", after one was named. */
  private boolean pointed(int begin, String kind) {
    boolean that = is(begin - 1, Type.FILL) && words(begin - 1, begin).equals("that");
    return that && lastPlace != null && lastPlace.sectionKind().equals(kind);
  }

  private boolean bracketed(int begin) {
    int before = begin - 1;
    while (before >= 0 && begin - before < LONGEST && !is(before, Type.MARK)) {
      before--;
    }
    return is(before, Type.MARK) && items.get(before).a().equals("(");
  }

  private boolean gluedDash(int dash) {
    return dash + 1 < items.size() && items.get(dash).end() == items.get(dash + 1).start();
  }

  private boolean amountFollows(int i) {
    return is(i, Type.MARK) && items.get(i).a().equals("%");
  }

  private boolean isNumber(int i) {
    return is(i, Type.NUMWORD)
        || (is(i, Type.NUMBER)
            && items.get(i).signed() == 0
            && items.get(i).value() >= 1
            && items.get(i).value() <= 30
            && items.get(i).value() == Math.rint(items.get(i).value()));
  }

  private int number(int i) {
    return is(i, Type.NUMWORD) ? Integer.parseInt(items.get(i).a()) : (int) items.get(i).value();
  }

  private Place resolve(String kind, WantedSections wanted, int begin, int end) {
    String said = words(begin, end);
    if (names.isEmpty()) {
      return Place.ofNames(saidNames(kind, wanted, begin, end), said, kind);
    }
    List<Integer> same = names.ofKind(kind);
    if (same.isEmpty()) {
      return Place.plain(Place.Kind.UNKNOWN, said);
    }
    List<Integer> found = wanted.among(names, kind);
    int wantedNumbers = wanted.numbers.size() + wanted.ordinals.size();
    boolean partly = wanted.fromLast == 0 && wanted.count == 0 && found.size() < wantedNumbers;
    if (partly && !found.isEmpty()) {
      return Place.ofSections(found, said, kind).partly();
    }
    return found.isEmpty()
        ? new Place(Place.Kind.UNKNOWN, List.of(), List.of(), 0, 0, said, kind, Place.Open.NO)
        : Place.ofSections(found, said, kind);
  }

  /** Names of sections nobody has set, as said: "chorus 2", "last verse". */
  private List<String> saidNames(String kind, WantedSections wanted, int begin, int end) {
    int at = begin;
    while (at < end && !is(at, Type.SECTION)) {
      at++;
    }
    if (at >= end) {
      return List.of(words(begin, end));
    }
    String section = words(at, at + 1);
    if (!wanted.numbers.isEmpty() && items.get(at).b().isEmpty()) {
      List<String> each = new ArrayList<>();
      String one = section.replaceAll("(chorus|hook|bridge|build|solo|drop)(es|s)$", "$1");
      one = one.replaceAll("(verse|refrain|prechorus)s$", "$1").replaceAll("choruses$", "chorus");
      for (int n : wanted.numbers) {
        each.add(one + " " + n);
      }
      return each;
    }
    if (wanted.fromLast > 0 || !wanted.ordinals.isEmpty()) {
      return List.of(words(begin, at + 1));
    }
    if (section.matches(".*['\u2019]s$")) {
      section = section.substring(0, section.length() - 2);
    }
    if (section.startsWith("the ")) {
      section = section.substring(4);
    }
    return List.of(section);
  }

  Place between(Place first, Place last) {
    if (first.is(Place.Kind.SECTIONS) && last.is(Place.Kind.SECTIONS)) {
      boolean sameKind =
          first.sectionKind().equals(last.sectionKind()) && !first.sectionKind().isEmpty();
      int from = Collections.min(first.sections());
      int to = Collections.max(last.sections());
      List<Integer> all = new ArrayList<>();
      for (int s = from; s <= to; s++) {
        if (!sameKind || names.ofKind(first.sectionKind()).contains(s)) {
          all.add(s);
        }
      }
      if (all.isEmpty()) {
        // "C1-V1": no stretch, but these two
        all.addAll(last.sections());
        all.addAll(first.sections());
      }
      return Place.ofSections(all, first.words(), sameKind ? first.sectionKind() : "");
    }
    List<String> both = new ArrayList<>(first.names());
    both.addAll(last.names());
    return Place.ofNames(both, first.words(), first.sectionKind());
  }

  Place onward(Place place) {
    if (place.is(Place.Kind.SECTIONS)) {
      return followingFrom(Collections.min(place.sections()), place);
    }
    return place;
  }

  Place followingFrom(int first, Place place) {
    List<Integer> rest = new ArrayList<>();
    for (int s = first; s < names.size(); s++) {
      rest.add(s);
    }
    return Place.ofSections(rest, place.words(), "");
  }
}

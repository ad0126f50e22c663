package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** Turns what was found into the reading that is handed out. */
final class ReadingBuilder {
  private static final Pattern POINTED =
      Pattern.compile(
          "\\b(that|this|the (?!whole|entire|same|only|main|first|second|third|last|next|real)\\w+) "
              + "(one|thing|sound)\\b|^(\\W*\\w+){0,2}\\W*\\b(?<!like )(something|somebody|someone)\\b"
              + "|\\bthe one (in|on|at|that|with)\\b|\\b(?:the|our) (quiet|loud|low|high) one\\b"
              + "|\\b(more|less) of (that|this|those|these)\\b");
  private static final Pattern ONE_OF =
      Pattern.compile(
          "\\bsome of (?:the|our|my) (drums|guitars|vocals|strings|keys|synths|mics|percussion|brass)\\b|"
              + "\\bone of them\\b|\\bone of (?:the|our|my) (\\w+ )?\\w+s\\b"
              + "|\\b(?:the|our|my) other (guitar|synth|mic|vocal|singer|part|keyboard|piano|track)\\b");

  private final String text;
  private final NoteContext context;
  private final PlaceResolver resolver;

  ReadingBuilder(String text, NoteContext context, PlaceResolver resolver) {
    this.text = text;
    this.context = context;
    this.resolver = resolver;
  }

  Reading build(NoteReader.Parsed parsed) {
    List<RequestedChange> changes = new ArrayList<>();
    Segmenter.Pieces pieces = parsed.pieces();
    for (Draft draft : new Certainty(parsed.settled(), pieces.segments(), text).sure()) {
      for (Where where : resolver.resolve(draft.places, draft.excluded)) {
        changes.add(change(draft, where));
      }
    }
    Contradictions.mark(changes);
    List<RequestedKeep> keeps = new ArrayList<>();
    Set<String> kept = new HashSet<>();
    for (Draft draft : parsed.keeps()) {
      for (Where where : resolver.resolve(draft.places, draft.excluded)) {
        if (kept.add(draft.element + where)) {
          keeps.add(new RequestedKeep(draft.element, where, words(draft), draft.start, draft.end));
        }
      }
    }
    Contradictions.markKept(changes, keeps);
    return new Reading(changes, keeps, Remarks.of(text, pieces, changes, keeps));
  }

  private RequestedChange change(Draft draft, Where where) {
    Optional<NoteQuestion> question = Optional.empty();
    Optional<Place> missing =
        draft.places.stream().filter(p -> p.is(Place.Kind.UNKNOWN)).findFirst();
    Optional<Place> partly = draft.places.stream().filter(ReadingBuilder::isNowhere).findFirst();
    boolean noTime = partly.map(Place::isNoTime).orElse(false);
    if (noTime || partly.isPresent() && where.fromSeconds().isEmpty()) {
      question = Optional.of(Questions.place(partly.get().words(), context));
    } else if (missing.isPresent() && where.isWholeSong()) {
      question = Optional.of(Questions.place(missing.get().words(), context));
    } else if (draft.asks == NoteQuestion.About.WISH) {
      question = Optional.of(Questions.wish(draft.element));
    } else if (draft.asks == NoteQuestion.About.PLACE && where.isWholeSong()) {
      question = Optional.of(Questions.place("", context));
    } else if (draft.asks == NoteQuestion.About.PART || isUnnamed(draft)) {
      question = Optional.of(Questions.part(context));
    }
    return new RequestedChange(
        draft.element,
        draft.pred.aspect(),
        draft.pred.direction(),
        Optional.ofNullable(draft.pred.amount()),
        where,
        question,
        words(draft),
        draft.start,
        draft.end);
  }

  /** "Chorus 4" of a song that has three, alone or beside one it has; a time after the end. */
  private static boolean isNowhere(Place place) {
    boolean none = place.is(Place.Kind.UNKNOWN) && !place.sectionKind().isEmpty();
    return none || place.open() == Place.Open.PARTLY;
  }

  /** "Turn that one up", "one of the guitars": a part is meant, and nobody could say which. */
  private boolean isUnnamed(Draft draft) {
    String said = words(draft).toLowerCase(Locale.ROOT);
    boolean noise = draft.pred.aspect().equals("noise");
    // "make the solo one bar longer" points at nothing
    boolean sized = draft.pred.aspect().equals("length") && draft.pred.amount() != null;
    boolean nothingNamed =
        !sized && draft.element.equals(Vocabulary.MIX) && POINTED.matcher(said).find();
    return !noise && (nothingNamed || ONE_OF.matcher(said).find());
  }

  private String words(Draft draft) {
    return text.substring(draft.start, draft.end);
  }
}

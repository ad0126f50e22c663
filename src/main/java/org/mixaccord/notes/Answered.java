package org.mixaccord.notes;

import java.util.List;
import java.util.Optional;
import org.mixaccord.notes.NoteQuestion.About;

/** Puts an author's answer into the change it was asked about. */
final class Answered {
  private Answered() {}

  static void apply(
      RequestedChange asked,
      String words,
      NoteContext context,
      List<RequestedChange> changes,
      List<RequestedKeep> keeps) {
    About about = asked.question().orElseThrow().about();
    // the part is put before the answer, so that "louder" has something to be about
    Reading alone = NoteReader.read(words, context);
    Reading joined = NoteReader.read(asked.element() + ": " + words, context);
    Where place = placeIn(words, context).orElse(asked.where());
    if (!joined.keeps().isEmpty() && joined.changes().isEmpty()) {
      keeps.add(
          new RequestedKeep(
              asked.element(), asked.where(), asked.text(), asked.start(), asked.end()));
      return;
    }
    if (about == About.PART) {
      part(asked, words, context, changes);
      return;
    }
    if (about == About.PLACE && joined.changes().isEmpty()) {
      boolean told = placeIn(words, context).isPresent() || saysWholeSong(words, context);
      changes.add(with(asked, asked.aspect(), asked.direction(), asked.amount(), place, told));
      return;
    }
    List<RequestedChange> read =
        alone.changes().isEmpty() || alone.changes().get(0).element().equals(Vocabulary.MIX)
            ? joined.changes()
            : alone.changes();
    if (read.isEmpty() || read.get(0).question().isPresent()) {
      changes.add(asked);
      return;
    }
    for (RequestedChange wish : read) {
      changes.add(
          new RequestedChange(
              wish.element(),
              wish.aspect(),
              wish.direction(),
              wish.amount().isPresent() ? wish.amount() : asked.amount(),
              wish.where().isWholeSong() ? asked.where() : wish.where(),
              Optional.empty(),
              asked.text(),
              asked.start(),
              asked.end()));
    }
  }

  /** The same wish for the parts that the answer names, where and as much as it says. */
  private static void part(
      RequestedChange asked, String words, NoteContext context, List<RequestedChange> changes) {
    List<RequestedChange> parts = NoteReader.read(words + " up", context).changes();
    boolean named = parts.stream().anyMatch(part -> !part.element().equals(Vocabulary.MIX));
    if (!named) {
      changes.add(
          with(
              asked,
              asked.aspect(),
              asked.direction(),
              asked.amount(),
              asked.where(),
              saysWholeSong(words, context)));
      return;
    }
    for (RequestedChange part : parts) {
      changes.add(
          new RequestedChange(
              part.element(),
              asked.aspect(),
              asked.direction(),
              part.amount().or(asked::amount),
              part.where().isWholeSong() ? asked.where() : part.where(),
              Optional.empty(),
              asked.text(),
              asked.start(),
              asked.end()));
    }
  }

  private static RequestedChange with(
      RequestedChange asked,
      String aspect,
      String direction,
      Optional<Amount> amount,
      Where where,
      boolean answered) {
    return new RequestedChange(
        asked.element(),
        aspect,
        direction,
        amount,
        where,
        answered ? Optional.empty() : asked.question(),
        asked.text(),
        asked.start(),
        asked.end());
  }

  private static Optional<Where> placeIn(String words, NoteContext context) {
    Reading probe = NoteReader.read("bass up 1 dB " + words, context);
    return probe.changes().stream()
        .map(RequestedChange::where)
        .filter(w -> !w.isWholeSong())
        .findFirst();
  }

  private static boolean saysWholeSong(String words, NoteContext context) {
    SectionNames names = new SectionNames(context.sections());
    return Places.join(words, context, names, Tagger.tag(words, context, Lexicon.of(context)))
        .stream()
        .anyMatch(
            i ->
                i.is(Type.PLACE) && i.place().is(Place.Kind.WHOLE)
                    || i.is(Type.ELEM) && i.a().equals(Vocabulary.MIX));
  }
}

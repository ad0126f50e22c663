package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Reads what somebody wrote about a bounce: splits it into requested changes, keeps and remarks.
 *
 * <p>Works by word tables, a splitter of clauses and rules that carry parts and places from one
 * clause to the next; nothing is learnt and nothing random, so the same text always reads the same.
 * Cost is linear in the text's length. Upper and lower case and the kind of quotation marks make no
 * difference.
 */
public final class NoteReader {
  private NoteReader() {}

  /**
   * Reads a note.
   *
   * @param text the note; any text at all, also empty or in a language the tables do not know
   * @param context what is known of the song
   * @return the reading; every word of the note that carries meaning lies in the span of a change,
   *     a keep or a remark. Never throws for any text
   */
  public static Reading read(String text, NoteContext context) {
    Parsed parsed = parse(text, context);
    return new ReadingBuilder(text, context, parsed.resolver()).build(parsed);
  }

  /**
   * A note on its way to its reading.
   *
   * @param pieces its clauses, each with what it says
   * @param settled the changes found, sure or not
   * @param keeps what is to stay
   * @param resolver turns the places named into where it is
   */
  record Parsed(
      Segmenter.Pieces pieces, List<Draft> settled, List<Draft> keeps, PlaceResolver resolver) {}

  static Parsed parse(String text, NoteContext context) {
    SectionNames names = new SectionNames(context.sections());
    Lexicon lexicon = Lexicon.of(context);
    String speaker = Speaker.of(text, lexicon);
    List<Item> tagged = Tagger.tag(text, context, lexicon);
    Segmenter.Pieces pieces = Segmenter.split(Places.join(text, context, names, tagged));
    analyse(pieces.segments(), text, speaker);
    PlaceResolver resolver = new PlaceResolver(context, names);
    Drafts drafts = new Interpreter(pieces, resolver).read();
    List<Draft> changes = Settling.changes(drafts, resolver);
    Unsure.ask(changes, text);
    return new Parsed(pieces, changes, drafts.keeps, resolver);
  }

  private static void analyse(List<Segment> segments, String text, String speaker) {
    Segment before = null;
    for (Segment segment : segments) {
      boolean joined =
          before != null
              && segment.joint == Segment.Joint.AND
              && before.sentence == segment.sentence;
      segment.wished = joined && (before.wished || before.has(Type.AUX));
      boolean lauded = joined && before.items.get(before.items.size() - 1).is(Type.PRAISE);
      segment.praised = lauded && segment.items.stream().allMatch(x -> x.is(Type.QUAL));
      before = segment;
      Analysis.of(segment, text, speaker);
    }
  }

  /**
   * Reads a note again with its author's answers.
   *
   * <p>An answer fills what its question was about: the place, the part, or what should happen;
   * "leave it as it is" turns the change into a keep. What an answer does not say stays as it was
   * read. An answer that cannot be read leaves its question open.
   *
   * @param text the note, unchanged
   * @param context what is known of the song
   * @param answers answers to the questions of {@link #read}, in any order
   * @return the reading with the answered questions gone
   */
  public static Reading readAgain(String text, NoteContext context, List<NoteAnswer> answers) {
    Reading reading = read(text, context);
    List<RequestedChange> changes = new ArrayList<>();
    List<RequestedKeep> keeps = new ArrayList<>(reading.keeps());
    for (RequestedChange change : reading.changes()) {
      Optional<NoteAnswer> answer =
          change.question().isEmpty()
              ? Optional.empty()
              : answers.stream()
                  .filter(a -> a.start() == change.start() && a.end() == change.end())
                  .findFirst();
      if (answer.isEmpty()) {
        changes.add(change);
      } else {
        Answered.apply(change, answer.get().words(), context, changes, keeps);
      }
    }
    return new Reading(changes, keeps, reading.remarks());
  }
}

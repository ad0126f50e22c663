package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.changes.ChangeRules;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.notes.NoteAnswer;
import org.mixaccord.notes.NoteContext;
import org.mixaccord.songs.SongDoor;

/** Questions that go back to whoever wrote something unclear, and what their answers change. */
@ApplicationScoped
public class QuestionDesk {
  private static final int ANSWER_CHARS = 2000;

  /** An answer: one of the choices, own words, or none. */
  public record Answer(String choice, String text, Boolean skip) {}

  private final Sheet sheet;
  private final Readings readings;

  QuestionDesk(Sheet sheet, Readings readings) {
    this.sheet = sheet;
    this.readings = readings;
  }

  /** The questions of a song the caller may see, oldest first. */
  @Transactional
  public List<Question> list(String songId, boolean openOnly) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.SEE_LIST);
    return Question.of(in.song()).stream()
        .filter(q -> q.note().maySee(in.access()) && !(openOnly && q.answered()))
        .toList();
  }

  /** Whom a question is put to: the note's author, or who stands in for them. */
  public static Optional<String> askedOf(Question question, org.mixaccord.accounts.Access reader) {
    return WaitingOnDesk.answerer(question.note(), reader);
  }

  /** Takes an answer and reads the note again with it. */
  @Transactional
  public List<Change> answer(String questionId, Answer answer) {
    Question question =
        Question.<Question>findByIdOptional(questionId).orElseThrow(Doorkeeper::notFound);
    SongDoor.ToSong in = sheet.write(question.song().id());
    in.access().require(Act.SEE_LIST);
    Note note = question.note();
    if (!note.maySee(in.access())) {
      throw Doorkeeper.notFound();
    }
    Sheet.check(
        ChangeRules.answer(
            question.answered(), Sheet.actor(in.access(), note, note.author().id())));
    Optional<String> words = words(question, answer);
    Instant now = sheet.now();
    List<Change> waiting =
        question.changes().stream()
            .map(id -> Change.<Change>findById(id))
            .filter(c -> c.state() == ChangeState.UNCLEAR)
            .toList();
    List<Change> touched = new ArrayList<>(waiting);
    if (words.isPresent()) {
      question.answer(words.get(), in.access().person(), now);
      touched.addAll(apply(question, waiting, words.get(), now));
    } else {
      question.skip(in.access().person(), now);
      waiting.forEach(c -> c.become(ChangeState.ASKED, null, null, now));
    }
    sheet.tell(
        in.access(),
        in.song(),
        Happening.open(
                "question",
                words.isPresent() ? "question-answered" : "question-skipped",
                question.id(),
                in.access().person().name()
                    + words
                        .map(w -> " answered " + Sheet.quote(w) + ".")
                        .orElse(" left a question open; it is taken as it was read."))
            .behindNote(note.id()));
    return touched;
  }

  private static Optional<String> words(Question question, Answer answer) {
    if (Boolean.TRUE.equals(answer.skip())) {
      return Optional.empty();
    }
    if (answer.choice() != null) {
      return Optional.of(
          question
              .choice(answer.choice())
              .orElseThrow(
                  () ->
                      WireJson.invalid("choice", "Choose one of the answers, or write your own.")));
    }
    if (answer.text() == null || answer.text().isBlank()) {
      throw WireJson.invalid("text", "Send a choice, a text, or skip.");
    }
    if (answer.text().length() > ANSWER_CHARS) {
      throw WireJson.invalid("text", "An answer may have at most " + ANSWER_CHARS + " letters.");
    }
    return Optional.of(answer.text().strip());
  }

  /** Puts the answer into the changes that wait for it; returns changes that came of it anew. */
  private List<Change> apply(Question question, List<Change> waiting, String words, Instant now) {
    Note note = question.note();
    NoteContext context = readings.context(note.song(), note.bounce());
    List<NoteAnswer> answers =
        waiting.stream()
            .map(c -> new NoteAnswer(c.asked().start(), c.asked().end(), words))
            .toList();
    Readings.Drawn drawn = readings.readAgain(note.text(), context, answers);
    List<Change> made = new ArrayList<>();
    List<Change.Asked> said = new ArrayList<>();
    for (Change change : waiting) {
      List<Readings.ReadChange> mine =
          drawn.changes().stream().filter(r -> sameWords(r.asked(), change)).toList();
      if (mine.isEmpty()) {
        goneByAnswer(change, drawn, words, now);
        continue;
      }
      Change.Asked first = NoteDesk.placed(mine.get(0).asked(), note);
      if (said.stream().anyMatch(s -> sameWish(s, first))) {
        // Both sides of a contradiction now say the same: one of them is enough.
        change.become(ChangeState.WITHDRAWN, null, "answered: " + words, now);
        continue;
      }
      said.add(first);
      Optional<Readings.Ask> still = mine.get(0).question();
      if (still.isPresent() && !still.get().text().equals(question.text())) {
        change.say(first);
        Question.ask(note, 0, still.get().text(), still.get().choices(), List.of(change), now);
        continue;
      }
      // An answer the reader cannot use still is an answer: the engineer reads it as it stands.
      change.say(first);
      change.become(ChangeState.ASKED, null, null, now);
      mine.stream()
          .skip(1)
          .forEach(
              more ->
                  made.add(
                      Change.draw(
                          note,
                          drawn.changes().size(),
                          NoteDesk.placed(more.asked(), note),
                          ChangeState.ASKED,
                          change.round())));
    }
    return made;
  }

  /** The answer made it something to leave alone, or the writer had put it in other words. */
  private static void goneByAnswer(Change change, Readings.Drawn drawn, String words, Instant now) {
    Optional<Readings.ReadKeep> keep =
        drawn.keeps().stream()
            .filter(k -> k.element().equals(change.element()) && k.text().equals(change.text()))
            .findFirst();
    if (keep.isPresent()) {
      Keep.draw(change.note(), 0, keep.get().element(), keep.get().where(), keep.get().text());
      change.become(ChangeState.WITHDRAWN, null, "answered: " + words, now);
    } else {
      change.become(ChangeState.ASKED, null, null, now);
    }
  }

  private static boolean sameWords(Change.Asked read, Change change) {
    return read.start() == change.asked().start() && read.end() == change.asked().end();
  }

  private static boolean sameWish(Change.Asked one, Change.Asked other) {
    return one.element().equals(other.element())
        && one.aspect().equals(other.aspect())
        && one.direction().equals(other.direction())
        && one.where().equals(other.where());
  }
}

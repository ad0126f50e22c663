package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Role;
import org.mixaccord.changes.ChangeRules;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.notes.Leftover;
import org.mixaccord.notes.Where;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.SongDoor;

/** Takes notes in, shows them where they belong, and hands a band's notes over. */
@ApplicationScoped
public class NoteDesk {
  /**
   * A note to be written.
   *
   * @param behalfOf the person (or member) it belongs to, or null for the writer
   * @param reading the reading as the writer corrected it, or null
   */
  public record NewNote(
      String text,
      String bounce,
      Double from,
      Double to,
      String behalfOf,
      Boolean engineerOnly,
      JsonNode reading,
      Boolean line) {}

  /** What was drawn from a note, by id. */
  public record Written(
      String id, List<String> changes, List<String> keeps, List<String> questions) {}

  /** A note and where it lies on the bounce it is shown on. */
  public record ShownNote(
      Note note,
      Places.Shown shown,
      List<String> changes,
      List<String> keeps,
      List<String> unread) {}

  /** Notes handed over to the engineer. */
  public record HandedOver(List<String> notes, int round) {}

  private final Sheet sheet;
  private final Readings readings;
  private final Places places;

  NoteDesk(Sheet sheet, Readings readings, Places places) {
    this.sheet = sheet;
    this.readings = readings;
    this.places = places;
  }

  /** Keeps a note and draws from it what it asks for. */
  @Transactional
  public Written write(String songId, NewNote sent) {
    SongDoor.ToSong in = sheet.write(songId);
    Access access = in.access();
    access.require(Act.WRITE_NOTE);
    String text = Note.checked(sent.text());
    Person author = author(access, sent.behalfOf());
    AboutMix about = about(in, author, sent.bounce(), sent.from(), sent.to());
    Bounce bounce = about.bounce();
    Readings.Drawn drawn =
        sent.reading() == null || sent.reading().isNull()
            ? readings.read(text, readings.context(in.song(), bounce))
            : readings.corrected(sent.reading(), text, in.song(), bounce);
    if (author.id().equals(access.person().id()) && access.may(Act.WORK_LIST)) {
      drawn = drawn.unasked();
    }
    if (Boolean.TRUE.equals(sent.line())) {
      access.require(Act.WORK_LIST);
      drawn = drawn.atLeastALine(text);
    }
    boolean forEngineer = Boolean.TRUE.equals(sent.engineerOnly());
    boolean gathered =
        access.project().gatherNotes() && !forEngineer && access.member().role() != Role.ENGINEER;
    Note note =
        Note.write(
            bounce,
            author,
            access.person(),
            text,
            about.from(),
            about.to(),
            forEngineer,
            gathered,
            sheet.now());
    Written written = draw(note, drawn, in.song().roundForNewNotes());
    String who =
        author.id().equals(access.person().id())
            ? author.name()
            : author.name() + " (written down by " + access.person().name() + ")";
    sheet.tell(
        access,
        in.song(),
        Happening.open("note", "note-written", note.id(), who + " wrote " + Sheet.quote(text) + ".")
            .about(bounce.id())
            .behindNote(note.id()));
    for (String question : written.questions()) {
      tellQuestion(access, note, question);
    }
    return written;
  }

  void tellQuestion(Access access, Note note, String question) {
    sheet.tell(
        access,
        note.song(),
        Happening.open(
                "question",
                "question-asked",
                question,
                note.author().name() + " was asked something about " + Sheet.quote(note.text()))
            .about(note.bounce().id())
            .behindNote(note.id()));
  }

  static Written draw(Note note, Readings.Drawn drawn, int round) {
    List<String> changes = new ArrayList<>();
    Map<Readings.Ask, List<List<Change>>> asks = new LinkedHashMap<>();
    int position = 0;
    for (Readings.ReadChange read : drawn.changes()) {
      ChangeState state = read.question().isPresent() ? ChangeState.UNCLEAR : ChangeState.ASKED;
      Change change = Change.draw(note, position++, placed(read.asked(), note), state, round);
      changes.add(change.id());
      read.question()
          .ifPresent(
              ask -> {
                List<List<Change>> groups = asks.computeIfAbsent(ask, key -> new ArrayList<>());
                // One question settles a contradiction; two unclear wishes are two questions.
                if (groups.isEmpty() || !ask.aboutSeveral()) {
                  groups.add(new ArrayList<>());
                }
                groups.get(groups.size() - 1).add(change);
              });
    }
    List<String> keeps = new ArrayList<>();
    for (Readings.ReadKeep keep : drawn.keeps()) {
      keeps.add(
          Keep.draw(note, keeps.size(), keep.element(), placed(keep.where(), note), keep.text())
              .id());
    }
    List<String> questions = new ArrayList<>();
    asks.forEach(
        (ask, groups) ->
            groups.forEach(
                about ->
                    questions.add(
                        Question.ask(
                                note, questions.size(), ask.text(), ask.choices(), about, note.at())
                            .id())));
    return new Written(note.id(), changes, keeps, questions);
  }

  /** Where the words name no place, the place of the note is meant. */
  static Change.Asked placed(Change.Asked asked, Note note) {
    return asked.at(placed(asked.where(), note));
  }

  private static Where placed(Where where, Note note) {
    if (!where.isWholeSong() || note.fromSeconds().isEmpty()) {
      return where;
    }
    double from = note.fromSeconds().getAsDouble();
    return Where.between(from, note.toSeconds().orElse(from));
  }

  private static Bounce bounce(SongDoor.ToSong in, String id) {
    if (id == null) {
      return Bounce.newestMain(in.song(), in.access())
          .orElseThrow(
              () ->
                  new ProblemException(
                      Problem.NO_BOUNCE, "There is no mix yet that a note could be about."));
    }
    return bounceOf(in, id);
  }

  /** A bounce of the song that the caller may hear. */
  static Bounce bounceOf(SongDoor.ToSong in, String id) {
    return Bounce.<Bounce>findByIdOptional(id)
        .filter(b -> b.song().id().equals(in.song().id()) && b.mayBeHeardBy(in.access()))
        .orElseThrow(Doorkeeper::notFound);
  }

  /** The mix a note of this author is about, and the place on it. */
  AboutMix about(SongDoor.ToSong in, Person author, String bounceId, Double from, Double to) {
    Bounce bounce = bounce(in, bounceId);
    checkPlace(bounce, from, to);
    return new AboutMix(bounce, from, to).as(author, in, places);
  }

  private static void checkPlace(Bounce bounce, Double from, Double to) {
    if (from == null && to == null) {
      return;
    }
    double end =
        bounce.facts().map(f -> f.seconds() + SongPlaces.PAST_END_SECONDS).orElse(Double.MAX_VALUE);
    if (from == null || !(from >= 0) || (to != null && !(to >= from))) {
      throw WireJson.invalid("from", "A place begins at 0:00 or later and ends after it begins.");
    }
    if (!(from <= end) || (to != null && !(to <= end))) {
      throw WireJson.invalid("to", "That place lies past the end of the mix.");
    }
  }

  static Person author(Access access, String behalfOf) {
    if (behalfOf == null) {
      return access.person();
    }
    return access
        .people()
        .ofPerson(behalfOf)
        .or(() -> access.people().member(behalfOf))
        .map(Member::person)
        .orElseThrow(
            () ->
                WireJson.invalid(
                    "behalfOf", "A note can only be written for somebody in the project."));
  }

  /**
   * The notes of a song the caller may see, oldest first.
   *
   * @param bounceId the bounce whose time line they are shown on; null for each note's own
   */
  @Transactional
  public List<ShownNote> list(String songId, String bounceId) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.SEE_LIST);
    Optional<Bounce> onto =
        bounceId == null ? Optional.empty() : Optional.of(bounceOf(in, bounceId));
    Map<String, List<String>> changes = new LinkedHashMap<>();
    Map<String, List<String>> read = new LinkedHashMap<>();
    Change.of(in.song())
        .forEach(
            c -> {
              add(changes, c.note(), c.id());
              add(read, c.note(), c.text());
            });
    Map<String, List<String>> keeps = new LinkedHashMap<>();
    Keep.of(in.song())
        .forEach(
            k -> {
              add(keeps, k.note(), k.id());
              add(read, k.note(), k.text());
            });
    return Note.of(in.song()).stream()
        .filter(note -> note.maySee(in.access()))
        .map(
            note ->
                new ShownNote(
                    note,
                    shown(note, onto.orElse(note.bounce())),
                    changes.getOrDefault(note.id(), List.of()),
                    keeps.getOrDefault(note.id(), List.of()),
                    Leftover.of(
                        note.memoLine().orElse(note.text()),
                        read.getOrDefault(note.id(), List.of()))))
        .toList();
  }

  private static void add(Map<String, List<String>> byNote, Note note, String id) {
    byNote.computeIfAbsent(note.id(), key -> new ArrayList<>()).add(id);
  }

  private Places.Shown shown(Note note, Bounce onto) {
    OptionalDouble from = note.fromSeconds();
    return from.isEmpty()
        ? Places.Shown.SONG
        : places.show(
            note.bounce(), onto, from.getAsDouble(), note.toSeconds().orElse(from.getAsDouble()));
  }

  /** The keeps that hold, as far as the caller may see their notes. */
  @Transactional
  public List<Keep> keeps(String songId) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.SEE_LIST);
    return Keep.of(in.song()).stream().filter(k -> k.note().maySee(in.access())).toList();
  }

  /** A keep no longer holds; for its author, or the last word with a reason. */
  @Transactional
  public void withdrawKeep(String keepId, String reason) {
    Keep keep = Keep.<Keep>findByIdOptional(keepId).orElseThrow(Doorkeeper::notFound);
    SongDoor.ToSong in = sheet.write(keep.song().id());
    in.access().require(Act.SEE_LIST);
    if (!keep.note().maySee(in.access())) {
      throw Doorkeeper.notFound();
    }
    ChangeState state = keep.holds() ? ChangeState.ASKED : ChangeState.WITHDRAWN;
    Sheet.check(
        ChangeRules.move(
            org.mixaccord.changes.ChangeFacts.of(state),
            ChangeState.WITHDRAWN,
            Sheet.actor(in.access(), keep.note(), keep.note().author().id()),
            reason != null));
    keep.withdraw(in.access().person(), sheet.now());
    sheet.tell(
        in.access(),
        in.song(),
        Happening.open(
                "change",
                "keep-withdrawn",
                keep.id(),
                Sheet.quote(keep.text())
                    + " need no longer be left alone"
                    + (reason == null ? "." : ": " + reason))
            .behindNote(keep.note().id()));
  }

  /** The band hands its gathered notes over. */
  @Transactional
  public HandedOver handOver(String songId) {
    SongDoor.ToSong in = sheet.write(songId);
    in.access().require(Act.SEND_GATHERED);
    if (!in.access().project().gatherNotes()) {
      throw new ProblemException(
          Problem.WRONG_STATE, "Notes go straight to the engineer here; nothing is gathered.");
    }
    List<Note> gathered = Note.gathered(in.song());
    if (gathered.isEmpty()) {
      throw new ProblemException(
          Problem.WRONG_STATE, "There are no notes that have not been handed over.");
    }
    Instant now = sheet.now();
    int round = in.song().roundForNewNotes();
    for (Note note : gathered) {
      note.handOver(now);
      Change.of(note).forEach(change -> change.putInto(round));
    }
    sheet.tell(
        in.access(),
        in.song(),
        Happening.open(
            "note",
            "notes-sent",
            in.song().id(),
            in.access().person().name()
                + " handed over "
                + (gathered.size() == 1 ? "1 note." : gathered.size() + " notes.")));
    return new HandedOver(gathered.stream().map(Note::id).toList(), round);
  }

  /** “I’m on it”: later notes go to the next round. */
  @Transactional
  public int closeRound(String songId) {
    SongDoor.ToSong in = sheet.write(songId);
    in.access().require(Act.CLOSE_ROUND);
    Song song = in.song();
    song.closeRound(sheet.now());
    sheet.tell(
        in.access(),
        song,
        Happening.open(
            "change",
            "round-closed",
            song.id(),
            in.access().person().name() + " is on the list of round " + song.round() + "."));
    return song.roundForNewNotes();
  }
}

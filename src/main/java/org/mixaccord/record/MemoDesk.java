package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.util.Locale;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Role;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.SongDoor;

/** Notes that are spoken: kept as they are, and written down by the engineer after listening. */
@ApplicationScoped
public class MemoDesk {
  /** Where a memo belongs. */
  public record Spot(
      String bounce, Double from, Double to, String behalfOf, boolean engineerOnly) {}

  private final Sheet sheet;
  private final Readings readings;
  private final NoteDesk notes;

  MemoDesk(Sheet sheet, Readings readings, NoteDesk notes) {
    this.sheet = sheet;
    this.readings = readings;
    this.notes = notes;
  }

  /** Ends the request unless the caller may leave a memo there. */
  @Transactional
  public Access check(String songId, Spot spot) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.WRITE_NOTE);
    about(in, spot);
    in.access().person().name();
    return in.access();
  }

  private AboutMix about(SongDoor.ToSong in, Spot spot) {
    Person author = NoteDesk.author(in.access(), spot.behalfOf());
    return notes.about(in, author, spot.bounce(), spot.from(), spot.to());
  }

  /** Keeps a memo as a note. */
  @Transactional
  public Note keep(String songId, Spot spot, Note.Memo memo) {
    SongDoor.ToSong in = sheet.write(songId);
    Access access = in.access();
    access.require(Act.WRITE_NOTE);
    AboutMix about = about(in, spot);
    Person author = NoteDesk.author(access, spot.behalfOf());
    boolean gathered =
        access.project().gatherNotes()
            && !spot.engineerOnly()
            && access.member().role() != Role.ENGINEER;
    long whole = Math.round(memo.seconds());
    String text = String.format(Locale.ROOT, "Voice memo, %d:%02d", whole / 60, whole % 60);
    Note note =
        Note.write(
            about.bounce(),
            author,
            access.person(),
            text,
            about.from(),
            about.to(),
            spot.engineerOnly(),
            gathered,
            sheet.now());
    note.spoken(memo);
    sheet.tell(
        access,
        in.song(),
        Happening.open("note", "note-spoken", note.id(), author.name() + " left a voice memo.")
            .about(about.bounce().id())
            .behindNote(note.id()));
    return note;
  }

  /** What was spoken, for whoever may see the note. */
  @Transactional
  public Note.Memo memo(String noteId) {
    Note note = note(noteId);
    SongDoor.ToSong in = sheet.read(note.song().id());
    in.access().require(Act.SEE_LIST);
    visible(note, in.access());
    return note.memo().orElseThrow(Doorkeeper::notFound);
  }

  /** Writes down what is asked in a memo; it is read like a note, and belongs to who spoke. */
  @Transactional
  public NoteDesk.Written line(String noteId, String text) {
    Note note = note(noteId);
    SongDoor.ToSong in = sheet.write(note.song().id());
    in.access().require(Act.SEE_LIST);
    visible(note, in.access());
    in.access().require(Act.WORK_LIST);
    if (note.memo().isEmpty()) {
      throw Doorkeeper.notFound();
    }
    if (note.memoLine().isPresent()) {
      throw new ProblemException(
          Problem.WRONG_STATE,
          "Its line has been written. Put right what was read, or add a line of your own.");
    }
    String line = Note.checked(text);
    note.writeLine(line);
    NoteDesk.Written written =
        NoteDesk.draw(
            note,
            readings.read(line, readings.context(in.song(), note.bounce())),
            in.song().roundForNewNotes());
    sheet.tell(
        in.access(),
        in.song(),
        Happening.open(
                "note",
                "memo-written",
                note.id(),
                in.access().person().name()
                    + " wrote down what "
                    + note.author().name()
                    + " said: "
                    + Sheet.quote(line)
                    + ".")
            .about(note.bounce().id())
            .behindNote(note.id()));
    written.questions().forEach(question -> notes.tellQuestion(in.access(), note, question));
    return written;
  }

  private static Note note(String id) {
    return Note.<Note>findByIdOptional(id).orElseThrow(Doorkeeper::notFound);
  }

  private static void visible(Note note, Access access) {
    if (!note.maySee(access)) {
      throw Doorkeeper.notFound();
    }
  }
}

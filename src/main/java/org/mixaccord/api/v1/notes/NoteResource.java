package org.mixaccord.api.v1.notes;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.mixaccord.accounts.Caller;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.notes.BarGrid;
import org.mixaccord.notes.NoteContext;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.BarsOnRecord;
import org.mixaccord.record.Note;
import org.mixaccord.record.NoteDesk;
import org.mixaccord.record.Readings;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.SongDoor;

/** Notes as written, how they are read, and handing them over. */
@Path("/api/v1")
public class NoteResource {
  /**
   * A text to be read without keeping it.
   *
   * @param bounce a mix whose bars are meant, in place of one tempo; null for the tempo sent
   */
  public record ToRead(
      String text,
      List<Section> sections,
      Double tempoBpm,
      Integer beatsPerBar,
      Double firstBarSeconds,
      List<String> elements,
      String bounce) {
    OptionalDouble tempo() {
      return tempoBpm == null ? OptionalDouble.empty() : OptionalDouble.of(tempoBpm);
    }

    OptionalInt beats() {
      return beatsPerBar == null ? OptionalInt.empty() : OptionalInt.of(beatsPerBar);
    }

    OptionalDouble firstBar() {
      return firstBarSeconds == null ? OptionalDouble.empty() : OptionalDouble.of(firstBarSeconds);
    }
  }

  /** What was spoken; {@code line} is null while it is still to be listened to. */
  public record MemoView(double seconds, String type, String line) {
    static MemoView of(Note note) {
      return note.memo()
          .map(memo -> new MemoView(memo.seconds(), memo.type(), note.memoLine().orElse(null)))
          .orElse(null);
    }
  }

  /** A note as it is shown on one bounce. */
  public record NoteView(
      String id,
      String author,
      String authorName,
      String writtenBy,
      String text,
      String bounce,
      Instant at,
      String saidWhen,
      Double from,
      Double to,
      Double shownFrom,
      Double shownTo,
      String place,
      boolean engineerOnly,
      boolean handedOver,
      MemoView memo,
      List<String> changes,
      List<String> keeps,
      List<String> unread) {
    static NoteView of(NoteDesk.ShownNote shown) {
      Note note = shown.note();
      return new NoteView(
          note.id(),
          note.author().id(),
          note.author().name(),
          note.writtenBy().id(),
          note.text(),
          note.bounce().id(),
          note.at(),
          note.saidWhen().orElse(null),
          orNull(note.fromSeconds()),
          orNull(note.toSeconds()),
          shown.shown().fromSeconds().orElse(null),
          shown.shown().toSeconds().orElse(null),
          shown.shown().how(),
          note.engineerOnly(),
          note.sentAt().isPresent(),
          MemoView.of(note),
          shown.changes(),
          shown.keeps(),
          shown.unread());
    }

    private static Double orNull(OptionalDouble value) {
      return value.isPresent() ? value.getAsDouble() : null;
    }
  }

  /** The round new notes belong to. */
  public record RoundView(int round) {}

  private static final int MOST_ELEMENTS = 500;

  private final NoteDesk desk;
  private final Readings readings;
  private final BarsOnRecord bars;
  private final SongDoor door;
  private final Caller caller;

  NoteResource(NoteDesk desk, Readings readings, BarsOnRecord bars, SongDoor door, Caller caller) {
    this.desk = desk;
    this.readings = readings;
    this.bars = bars;
    this.door = door;
    this.caller = caller;
  }

  @POST
  @Path("/note-readings")
  @Transactional
  public Map<String, Object> read(ToRead body) {
    caller.required();
    List<String> elements = body.elements() == null ? List.of() : body.elements();
    if (elements.size() > MOST_ELEMENTS) {
      throw new ProblemException(Problem.INVALID, "“elements” is a list of at most 500 names.")
          .with("field", "elements");
    }
    return readings.reading(
        body.text(), new NoteContext(Readings.spans(body.sections()), barsMeant(body), elements));
  }

  private BarGrid barsMeant(ToRead body) {
    if (body.bounce() == null) {
      return NoteContext.steady(body.tempo(), body.beats(), body.firstBar());
    }
    Bounce bounce = door.bounce(body.bounce()).bounce();
    return bars.on(bounce.song(), bounce);
  }

  @POST
  @Path("/songs/{s}/notes")
  @Transactional
  public Response write(@PathParam("s") String song, NoteDesk.NewNote body) {
    return Response.status(201).entity(desk.write(song, body)).build();
  }

  @GET
  @Path("/songs/{s}/notes")
  @Transactional
  public Response list(
      @PathParam("s") String song, @QueryParam("bounce") String bounce, @BeanParam Paging paging) {
    return paging.page(desk.list(song, bounce).stream().map(NoteView::of).toList());
  }

  @POST
  @Path("/songs/{s}/rounds/current/closing")
  @Transactional
  public RoundView close(@PathParam("s") String song) {
    return new RoundView(desk.closeRound(song));
  }

  @POST
  @Path("/songs/{s}/rounds/current/notes-sending")
  @Transactional
  public NoteDesk.HandedOver handOver(@PathParam("s") String song) {
    return desk.handOver(song);
  }
}

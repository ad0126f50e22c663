package org.mixaccord.api.v1.songs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.io.IOException;
import java.io.InputStream;
import java.time.Clock;
import java.util.Locale;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.audio.midi.MidiFile;
import org.mixaccord.audio.midi.MidiReading;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.jobs.sections.TempoMaps;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.Happening;
import org.mixaccord.record.History;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.SongDoor;
import org.mixaccord.songs.TempoMapRecord;

/** Bars and beats of a song out of a Standard MIDI File. */
@Path("/api/v1/songs/{s}/tempo-map")
public class TempoMapResource {
  private static final double MOST_SECONDS = 36_000;

  private final SongDoor door;
  private final TempoMaps maps;
  private final Comparing comparing;
  private final History history;
  private final Clock clock;

  TempoMapResource(
      SongDoor door, TempoMaps maps, Comparing comparing, History history, Clock clock) {
    this.door = door;
    this.maps = maps;
    this.comparing = comparing;
    this.history = history;
    this.clock = clock;
  }

  @PUT
  @Consumes(MediaType.WILDCARD)
  @Blocking
  public TempoMapView give(
      @PathParam("s") String song,
      @QueryParam("at") @DefaultValue("0") double at,
      @QueryParam("bounce") String bounceId,
      InputStream body)
      throws IOException {
    QuarkusTransaction.requiringNew().run(() -> measured(allowed(song), bounceId));
    if (!(Math.abs(at) <= MOST_SECONDS)) {
      throw new ProblemException(
          Problem.INVALID, "“at” says in seconds where the MIDI file begins on the mix.");
    }
    byte[] bytes = body.readNBytes(MidiFile.MOST_BYTES + 1);
    if (bytes.length > MidiFile.MOST_BYTES) {
      throw new ProblemException(
          Problem.TOO_LARGE,
          "A MIDI file may have at most " + (MidiFile.MOST_BYTES >> 20) + " MB.");
    }
    if (bytes.length == 0) {
      throw new ProblemException(Problem.EMPTY_UPLOAD, "The MIDI file is empty. Export it again.");
    }
    MidiReading reading = MidiFile.read(bytes);
    if (reading instanceof MidiReading.Refused refused) {
      throw new ProblemException(Problem.NOT_MIDI, refused.detail());
    }
    return QuarkusTransaction.requiringNew()
        .call(() -> keep(song, bounceId, at, (MidiReading.Read) reading));
  }

  private TempoMapView keep(String song, String bounceId, double at, MidiReading.Read read) {
    SongDoor.ToSong to = allowed(song);
    Bounce bounce = measured(to, bounceId);
    TempoMapRecord given =
        TempoMapRecord.give(bounce, at, read, to.access().person(), clock.instant());
    history.append(
        to.song(),
        to.access().person(),
        Happening.open(
                "bounce",
                "tempo-map-set",
                to.song().id(),
                to.access().person().name() + " set the bars from a MIDI file: " + words(read))
            .behindBounce(bounce.id()));
    TempoMapRecord.flush();
    Bounce.of(to.song()).forEach(comparing::askAgain);
    return TempoMapView.of(given, maps.on(bounce).orElseThrow(), bounce.id());
  }

  private static String words(MidiReading.Read read) {
    return String.format(
        Locale.ROOT,
        "%s, %s, %s.",
        count(read.map().tempos().size(), "tempo"),
        count(read.map().meters().size(), "time signature"),
        count(read.marks().size(), "marker"));
  }

  private static String count(int number, String what) {
    return number + " " + what + (number == 1 ? "" : "s");
  }

  @GET
  @Transactional
  public TempoMapView show(@PathParam("s") String song, @QueryParam("bounce") String bounceId) {
    SongDoor.ToSong to = allowed(song);
    TempoMapRecord given = given(to);
    Bounce bounce = bounceId == null ? given.bounce() : bounce(to, bounceId);
    return TempoMapView.of(given, maps.on(bounce).orElseThrow(), bounce.id());
  }

  @DELETE
  @Transactional
  public void remove(@PathParam("s") String song) {
    SongDoor.ToSong to = allowed(song);
    TempoMapRecord given = given(to);
    given.remove(clock.instant());
    history.append(
        to.song(),
        to.access().person(),
        Happening.open(
                "bounce",
                "tempo-map-removed",
                to.song().id(),
                to.access().person().name() + " took the bars of the MIDI file away.")
            .behindBounce(given.bounce().id()));
  }

  private SongDoor.ToSong allowed(String song) {
    SongDoor.ToSong to = door.song(song);
    to.access().require(Act.SET_SECTIONS);
    return to;
  }

  private static TempoMapRecord given(SongDoor.ToSong to) {
    return TempoMapRecord.of(to.song())
        .orElseThrow(
            () ->
                new ProblemException(
                    Problem.NOT_FOUND, "No MIDI file has given this song its bars yet."));
  }

  private Bounce measured(SongDoor.ToSong to, String bounceId) {
    Bounce bounce =
        bounceId != null
            ? bounce(to, bounceId)
            : Bounce.newestMain(to.song(), to.access())
                .orElseThrow(
                    () ->
                        new ProblemException(
                            Problem.NO_BOUNCE, "Upload a mix first; bars lie on a mix."));
    if (bounce.facts().isEmpty()) {
      throw new ProblemException(Problem.NOT_MEASURED, "Wait until this mix has been measured.");
    }
    return bounce;
  }

  private Bounce bounce(SongDoor.ToSong to, String bounceId) {
    Bounce bounce = door.bounce(bounceId).bounce();
    if (!bounce.song().id().equals(to.song().id())) {
      throw Doorkeeper.notFound();
    }
    return bounce;
  }
}

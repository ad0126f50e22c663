package org.mixaccord.api.v1.songs;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.PATCH;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.time.Clock;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.List;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.SongDoor;

/** The songs of a project. */
@Path("/api/v1")
public class SongResource {
  /** A song to begin, or what to change of one; null leaves a field as it is. */
  public record SongBody(
      String title, Double tempoBpm, Integer beatsPerBar, Double firstBarSeconds, String due) {}

  /** The new song. */
  public record Created(String id) {}

  /** A person of the song's project by name. */
  public record PersonName(String member, String person, String name, String role) {}

  private final Doorkeeper doorkeeper;
  private final SongDoor door;
  private final SongViews views;
  private final Clock clock;

  SongResource(Doorkeeper doorkeeper, SongDoor door, SongViews views, Clock clock) {
    this.doorkeeper = doorkeeper;
    this.door = door;
    this.views = views;
    this.clock = clock;
  }

  @POST
  @Path("/projects/{p}/songs")
  @Transactional
  public Response begin(@PathParam("p") String project, SongBody body) {
    Access access = doorkeeper.project(project);
    access.require(Act.EDIT_SONG);
    Song song = Song.begin(access.project(), body.title(), clock.instant());
    change(song, body);
    return Response.status(201).entity(new Created(song.id())).build();
  }

  @GET
  @Path("/projects/{p}/songs")
  @Transactional
  public Response list(@PathParam("p") String project, @BeanParam Paging paging) {
    Access access = doorkeeper.project(project);
    return paging.page(
        Song.of(access.project()).stream().map(song -> views.of(access, song)).toList());
  }

  @GET
  @Path("/songs/{s}")
  @Transactional
  public SongViews.SongView get(@PathParam("s") String id) {
    SongDoor.ToSong to = door.song(id);
    return views.of(to.access(), to.song());
  }

  @PATCH
  @Path("/songs/{s}")
  @Transactional
  public SongViews.SongView change(@PathParam("s") String id, SongBody body) {
    SongDoor.ToSong to = door.song(id);
    to.access().require(Act.EDIT_SONG);
    if (body.title() != null) {
      to.song().rename(body.title());
    }
    change(to.song(), body);
    return views.of(to.access(), to.song());
  }

  @GET
  @Path("/songs/{s}/people")
  @Transactional
  public List<PersonName> people(@PathParam("s") String id) {
    return door.song(id).access().people().members().stream()
        .map(m -> new PersonName(m.id(), m.person().id(), m.person().name(), m.role().wire()))
        .toList();
  }

  private static void change(Song song, SongBody body) {
    song.setGrid(
        body.tempoBpm() != null ? body.tempoBpm() : orNull(song.tempoBpm()),
        body.beatsPerBar() != null
            ? body.beatsPerBar()
            : song.beatsPerBar().isPresent() ? song.beatsPerBar().getAsInt() : null,
        body.firstBarSeconds() != null ? body.firstBarSeconds() : orNull(song.firstBarSeconds()));
    if (body.due() != null) {
      song.dueOn(date(body.due()));
    }
  }

  private static Double orNull(java.util.OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }

  private static LocalDate date(String text) {
    try {
      return LocalDate.parse(text.length() > 10 ? text.substring(0, 10) : text);
    } catch (DateTimeParseException e) {
      throw new ProblemException(
          Problem.INVALID, "“" + text + "” is no date. Write it as in 2031-04-30.");
    }
  }
}

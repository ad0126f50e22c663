package org.mixaccord.api.v1.songs;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.Happening;
import org.mixaccord.record.History;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Form;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.SongDoor;

/** The form of a song: its sections, drawn on one bounce and moved onto the others. */
@Path("/api/v1")
public class SectionResource {
  /** A drawn section; times in seconds. */
  public record Drawn(String name, Double from, Double to) {}

  /** All sections of a song, drawn on a bounce. */
  public record FormBody(String bounce, List<Drawn> sections) {}

  /** A section on a bounce; no times where it is not there. */
  public record SectionView(String name, Double from, Double to, double sure) {}

  private final SongDoor door;
  private final Comparing comparing;
  private final History history;
  private final Clock clock;

  SectionResource(SongDoor door, Comparing comparing, History history, Clock clock) {
    this.door = door;
    this.comparing = comparing;
    this.history = history;
    this.clock = clock;
  }

  @PUT
  @Path("/songs/{s}/sections")
  @Transactional
  public List<SectionView> draw(@PathParam("s") String id, FormBody body) {
    SongDoor.ToSong to = door.song(id);
    to.access().require(Act.SET_SECTIONS);
    Bounce bounce = bounce(to, body.bounce());
    if (body.sections() == null) {
      throw new ProblemException(Problem.INVALID, "“sections” is missing.");
    }
    List<Section> drawn = new ArrayList<>();
    for (Drawn section : body.sections()) {
      if (section.from() == null || section.to() == null) {
        throw new ProblemException(
            Problem.INVALID, "Each section needs “name”, “from” and “to”, in seconds.");
      }
      drawn.add(new Section(section.name(), section.from(), section.to()));
    }
    Form.draw(bounce, drawn, to.access().person(), clock.instant());
    history.append(
        to.song(),
        to.access().person(),
        Happening.open(
                "bounce",
                "sections-drawn",
                to.song().id(),
                to.access().person().name() + " set " + drawn.size() + " sections.")
            .behindBounce(bounce.id()));
    Bounce.of(to.song()).forEach(comparing::askAgain);
    return views(bounce);
  }

  @GET
  @Path("/songs/{s}/sections")
  @Transactional
  public List<SectionView> list(@PathParam("s") String id, @QueryParam("bounce") String bounceId) {
    SongDoor.ToSong to = door.song(id);
    Optional<Form> form = Form.of(to.song());
    if (form.isEmpty()) {
      return List.of();
    }
    Bounce bounce = bounce(to, bounceId);
    Bounce drawnOn = form.get().bounce();
    if (bounce.ready()
        && !bounce.id().equals(drawnOn.id())
        && Comparing.comparable(bounce, drawnOn)
        && comparing.timeMap(drawnOn, bounce).isEmpty()) {
      comparing.ask(bounce, drawnOn);
    }
    return views(bounce);
  }

  private List<SectionView> views(Bounce bounce) {
    return comparing.placedOn(bounce).stream()
        .map(
            p ->
                new SectionView(
                    p.section().name(),
                    p.sure() > 0 ? p.section().from() : null,
                    p.sure() > 0 ? p.section().to() : null,
                    p.sure()))
        .toList();
  }

  private Bounce bounce(SongDoor.ToSong to, String bounceId) {
    if (bounceId == null) {
      return Bounce.newestMain(to.song(), to.access())
          .orElseThrow(
              () ->
                  new ProblemException(
                      Problem.NO_BOUNCE, "Upload a mix first; sections lie on a mix."));
    }
    Bounce bounce = door.bounce(bounceId).bounce();
    if (!bounce.song().id().equals(to.song().id())) {
      throw Doorkeeper.notFound();
    }
    return bounce;
  }
}

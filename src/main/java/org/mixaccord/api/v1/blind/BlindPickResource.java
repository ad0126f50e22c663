package org.mixaccord.api.v1.blind;

import com.fasterxml.jackson.annotation.JsonInclude;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.jobs.PlaceClips;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.BlindPickDesk;
import org.mixaccord.record.HeardPlaces;
import org.mixaccord.review.BlindPickRules;
import org.mixaccord.review.BlindPickRules.Choice;
import org.mixaccord.songs.Bounce;

/** Two mixes at one place without their names, and one pick for each person. */
@Path("/api/v1")
public class BlindPickResource {
  /**
   * What is offered; the place by section, by times on the first or another mix, or the change's.
   */
  public record Offer(
      List<String> mixes, String section, Double from, Double to, String on, String change) {}

  /** What was picked: {@code first}, {@code second} or {@code no-difference}. */
  public record Pick(String choice) {}

  /** A mix, for who may know which two are offered. */
  public record MixView(String bounce, String label) {
    static MixView of(Bounce bounce) {
      return new MixView(bounce.id(), bounce.title());
    }
  }

  /** One person's pick, for the last word; {@code mix} is null for no difference. */
  public record PickedView(String person, String name, MixView mix) {}

  /**
   * A blind pick as the caller sees it.
   *
   * @param ear where the caller hears and picks; null for who only reads along
   * @param picked the caller's own choice, null until then
   * @param mixes only for engineers, and for the last word once told
   * @param picks only for the last word
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record View(
      String id,
      String place,
      String offeredBy,
      Instant at,
      boolean open,
      boolean mayEnd,
      String ear,
      String picked,
      List<MixView> mixes,
      List<PickedView> picks,
      List<String> missing,
      List<String> changes) {
    static View of(BlindPickDesk.Seen seen) {
      List<MixView> mixes = seen.mixes().stream().map(MixView::of).toList();
      return new View(
          seen.pick().id(),
          seen.pick().place(),
          seen.pick().offeredBy().name(),
          seen.pick().offeredAt(),
          seen.open(),
          seen.mayEnd(),
          seen.ear().map(e -> e.id()).orElse(null),
          seen.ear().flatMap(e -> e.choice()).map(Choice::wire).orElse(null),
          mixes.isEmpty() ? null : mixes,
          seen.picks()
              .map(
                  all ->
                      all.stream()
                          .map(
                              p ->
                                  new PickedView(
                                      p.person(), p.name(), p.mix().map(MixView::of).orElse(null)))
                          .toList())
              .orElse(null),
          seen.missing().isEmpty() ? null : seen.missing(),
          seen.changes());
    }
  }

  private final BlindPickDesk desk;
  private final PlaceClips clips;

  BlindPickResource(BlindPickDesk desk, PlaceClips clips) {
    this.desk = desk;
    this.clips = clips;
  }

  @GET
  @Path("/songs/{s}/blind-picks")
  @Transactional
  public Response list(@PathParam("s") String song, @BeanParam Paging paging) {
    return paging.page(desk.list(song).stream().map(View::of).toList());
  }

  @POST
  @Path("/songs/{s}/blind-picks")
  @Blocking
  public Response offer(@PathParam("s") String song, Offer body) {
    HeardPlaces.Asked asked =
        new HeardPlaces.Asked(body.mixes(), body.section(), body.from(), body.to(), body.on());
    BlindPickDesk.Plan plan = desk.plan(song, asked, body.change());
    clips.check(plan.one(), plan.two(), plan.place().span());
    View made = QuarkusTransaction.requiringNew().call(() -> View.of(desk.offer(song, plan)));
    return Response.status(201).entity(made).build();
  }

  /** One of the caller's two sounds. */
  @GET
  @Path("/blind-ears/{e}/sounds/{which}")
  @Blocking
  public Response sound(@PathParam("e") String ear, @PathParam("which") String which)
      throws IOException {
    Choice choice =
        Choice.of(which)
            .filter(c -> c != Choice.NO_DIFFERENCE)
            .orElseThrow(
                () -> new ProblemException(Problem.NOT_FOUND, "There is a first and a second."));
    BlindPickDesk.Sound sound = desk.sound(ear, choice);
    PlaceClips.Place place =
        new PlaceClips.Place(sound.pick().id(), sound.one(), sound.two(), sound.pick().span());
    java.nio.file.Path file =
        clips.file(
            place,
            sound.which() == BlindPickRules.Mix.ONE ? PlaceClips.Which.ONE : PlaceClips.Which.TWO);
    desk.served(ear, choice);
    return ClipsOut.clip(file);
  }

  @POST
  @Path("/blind-ears/{e}/pick")
  @Transactional
  public View pick(@PathParam("e") String ear, Pick body) {
    Choice choice =
        Choice.of(body.choice())
            .orElseThrow(
                () ->
                    new ProblemException(
                            Problem.INVALID, "Pick the first, the second, or no difference.")
                        .with("field", "choice"));
    return View.of(desk.pick(ear, choice));
  }

  @POST
  @Path("/blind-picks/{id}/ending")
  @Transactional
  public View end(@PathParam("id") String id) {
    return View.of(desk.end(id));
  }
}

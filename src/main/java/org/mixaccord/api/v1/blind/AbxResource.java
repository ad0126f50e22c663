package org.mixaccord.api.v1.blind;

import com.fasterxml.jackson.annotation.JsonInclude;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.util.List;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.jobs.PlaceClips;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.AbxDesk;
import org.mixaccord.record.AbxTest;
import org.mixaccord.record.HeardPlaces;

/** Listening tests of an engineer: two known sounds, a hidden one, the score at the end. */
@Path("/api/v1")
public class AbxResource {
  /**
   * What to test; the place by section, or by times on the first mix, which is A, or on another.
   */
  public record Wanted(
      List<String> mixes, String section, Double from, Double to, String on, Integer trials) {}

  /** An answer: X is {@code a} or {@code b}. */
  public record Answer(String says) {}

  /** What came out. */
  public record ResultView(int right, double probability, String words) {}

  /**
   * A test.
   *
   * @param answered trials answered; the next one is {@code answered + 1}
   * @param result absent until the last trial is answered
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record View(
      String id,
      String place,
      BlindPickResource.MixView a,
      BlindPickResource.MixView b,
      int trials,
      int answered,
      ResultView result) {
    static View of(AbxDesk.Seen seen) {
      AbxTest test = seen.test();
      return new View(
          test.id(),
          test.place(),
          BlindPickResource.MixView.of(test.a()),
          BlindPickResource.MixView.of(test.b()),
          test.trials(),
          test.answered(),
          seen.result()
              .map(r -> new ResultView(r.right(), r.probability(), r.words()))
              .orElse(null));
    }
  }

  private final AbxDesk desk;
  private final PlaceClips clips;

  AbxResource(AbxDesk desk, PlaceClips clips) {
    this.desk = desk;
    this.clips = clips;
  }

  @GET
  @Path("/songs/{s}/abx-tests")
  @Transactional
  public Response list(@PathParam("s") String song, @BeanParam Paging paging) {
    return paging.page(desk.list(song).stream().map(View::of).toList());
  }

  @POST
  @Path("/songs/{s}/abx-tests")
  @Blocking
  public Response begin(@PathParam("s") String song, Wanted body) {
    HeardPlaces.Asked asked =
        new HeardPlaces.Asked(body.mixes(), body.section(), body.from(), body.to(), body.on());
    AbxDesk.Plan plan = desk.plan(song, asked, body.trials() == null ? 0 : body.trials());
    clips.check(plan.pair().one(), plan.pair().two(), plan.place().span());
    View made = QuarkusTransaction.requiringNew().call(() -> View.of(desk.begin(song, plan)));
    return Response.status(201).entity(made).build();
  }

  @GET
  @Path("/abx-tests/{t}")
  @Transactional
  public View get(@PathParam("t") String test) {
    return View.of(desk.get(test));
  }

  /** Breaks a test off. */
  @DELETE
  @Path("/abx-tests/{t}")
  @Transactional
  public void breakOff(@PathParam("t") String test) {
    desk.breakOff(test);
  }

  /** A or B. */
  @GET
  @Path("/abx-tests/{t}/sounds/{which}")
  @Blocking
  public Response known(@PathParam("t") String test, @PathParam("which") String which)
      throws IOException {
    if (!which.equals("a") && !which.equals("b")) {
      throw new ProblemException(Problem.NOT_FOUND, "There are a and b.");
    }
    return served(desk.known(test, which.equals("a")));
  }

  /** X of the trial to be answered now. */
  @GET
  @Path("/abx-tests/{t}/trials/{trial}/sound")
  @Blocking
  public Response hidden(@PathParam("t") String test, @PathParam("trial") int trial)
      throws IOException {
    return served(desk.hidden(test, trial));
  }

  @POST
  @Path("/abx-tests/{t}/trials/{trial}")
  @Transactional
  public View answer(@PathParam("t") String test, @PathParam("trial") int trial, Answer body) {
    if (!"a".equals(body.says()) && !"b".equals(body.says())) {
      throw new ProblemException(Problem.INVALID, "Say whether X is a or b.").with("field", "says");
    }
    return View.of(desk.answer(test, trial, body.says().equals("a")));
  }

  private Response served(AbxDesk.Sound sound) throws IOException {
    PlaceClips.Place place =
        new PlaceClips.Place(sound.test().id(), sound.a(), sound.b(), sound.test().span());
    return ClipsOut.clip(
        clips.file(place, sound.isA() ? PlaceClips.Which.ONE : PlaceClips.Which.TWO));
  }
}

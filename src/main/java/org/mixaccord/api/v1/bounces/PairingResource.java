package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.util.Optional;
import org.mixaccord.accounts.Act;
import org.mixaccord.filenames.NameProposal.Side;
import org.mixaccord.jobs.Pairing;
import org.mixaccord.jobs.Uploading;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.SongDoor;

/** Two mono bounces put together as left and right of a new one. */
@Path("/api/v1/bounces/{b}/pairing")
public class PairingResource {
  /**
   * What to pair with.
   *
   * @param with the other bounce
   * @param side which channel the bounce of the address is; null where the names tell
   */
  public record PairBody(String with, String side) {}

  private record Task(Pairing.Plan plan, Uploading.Sender sender) {}

  private final SongDoor door;
  private final Pairing pairing;

  PairingResource(SongDoor door, Pairing pairing) {
    this.door = door;
    this.pairing = pairing;
  }

  @POST
  @Blocking
  public Response pair(@PathParam("b") String id, PairBody body) {
    Task task = QuarkusTransaction.requiringNew().call(() -> task(id, body));
    Bounce made = pairing.make(task.plan(), task.sender());
    return Response.status(201)
        .entity(new BounceResource.Received(made.id(), made.number(), made.state().wire()))
        .build();
  }

  private Task task(String id, PairBody body) {
    SongDoor.ToBounce to = door.bounce(id);
    if (body == null || body.with() == null) {
      throw new ProblemException(
              Problem.INVALID, "“with” is missing: name the bounce that holds the other channel.")
          .with("field", "with");
    }
    Bounce other = door.bounce(body.with()).bounce();
    if (!Pairing.mayPair(to.bounce(), other, to.access())) {
      to.access().require(Act.UPLOAD_MAIN);
      throw new ProblemException(
          Problem.NOT_ALLOWED, "Only an engineer puts together what somebody else uploaded.");
    }
    return new Task(
        pairing.plan(to.bounce(), other, side(body.side())),
        BounceResource.sender(to.access(), to.bounce().fileName(), null));
  }

  private static Optional<Side> side(String word) {
    if (word == null) {
      return Optional.empty();
    }
    for (Side side : Side.values()) {
      if (side.word().equals(word)) {
        return Optional.of(side);
      }
    }
    throw new ProblemException(Problem.INVALID, "“side” has to be left or right.")
        .with("field", "side");
  }
}

package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import java.io.IOException;
import java.util.List;
import org.mixaccord.accounts.Act;
import org.mixaccord.jobs.sections.SectionProposal;
import org.mixaccord.jobs.sections.SectionProposals;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.SongDoor;

/** Sections an engineer may keep for a bounce; looking at them changes nothing. */
@Path("/api/v1/bounces/{b}/section-proposals")
public class SectionProposalResource {
  private final SongDoor door;
  private final SectionProposals proposals;

  SectionProposalResource(SongDoor door, SectionProposals proposals) {
    this.door = door;
    this.proposals = proposals;
  }

  @GET
  @Blocking
  public List<SectionProposal> list(@PathParam("b") String id) throws IOException {
    Bounce bounce =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  SongDoor.ToBounce to = door.bounce(id);
                  to.access().require(Act.SET_SECTIONS);
                  return to.bounce();
                });
    if (!bounce.ready()) {
      throw new ProblemException(
          Problem.NOT_MEASURED, "This mix is still being measured, or could not be read.");
    }
    return proposals.of(bounce);
  }
}

package org.mixaccord.api.v1.approvals;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.util.List;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.record.Approval;
import org.mixaccord.record.ApprovalDesk;
import org.mixaccord.review.OpenPoint;

/** What people say to a bounce as a whole, and what stands before it. */
@Path("/api/v1")
public class ApprovalResource {
  /**
   * A decision on the record; {@code from} is the bounce it was given on, where that is another.
   */
  public record ApprovalView(
      String id,
      String by,
      String byName,
      String identity,
      String decision,
      String comment,
      String pcmSha256,
      String heard,
      Instant at,
      String state,
      String from,
      List<String> despite,
      String reason,
      List<String> onceDone) {
    static ApprovalView of(ApprovalDesk.Entry entry) {
      Approval approval = entry.approval();
      return new ApprovalView(
          approval.id(),
          approval.person().id(),
          approval.person().name(),
          approval.identity(),
          approval.decision().wire(),
          approval.comment().orElse(null),
          approval.pcmSha256(),
          approval.heard().orElse(null),
          approval.at(),
          entry.standing().wire(),
          entry.carried() ? approval.bounce().id() : null,
          approval.despite(),
          approval.reason().orElse(null),
          approval.onceDone());
    }
  }

  /** What came of a decision: its state, and the newest hash of the song's history. */
  public record Made(String id, String state, String head) {
    static Made of(ApprovalDesk.Made made) {
      return new Made(made.id(), made.standing().wire(), made.head());
    }
  }

  private final ApprovalDesk desk;

  ApprovalResource(ApprovalDesk desk) {
    this.desk = desk;
  }

  @GET
  @Path("/bounces/{b}/open-points")
  @Transactional
  public List<OpenPoint> openPoints(@PathParam("b") String bounce) {
    return desk.openPoints(bounce);
  }

  @POST
  @Path("/bounces/{b}/approvals")
  @Transactional
  public Response decide(@PathParam("b") String bounce, ApprovalDesk.Said body) {
    return Response.status(201).entity(Made.of(desk.decide(bounce, body))).build();
  }

  @GET
  @Path("/bounces/{b}/approvals")
  @Transactional
  public Response list(@PathParam("b") String bounce, @BeanParam Paging paging) {
    return paging.page(desk.list(bounce).stream().map(ApprovalView::of).toList());
  }

  @DELETE
  @Path("/approvals/{id}")
  @Transactional
  public Made end(@PathParam("id") String approval, @QueryParam("reason") String reason) {
    return Made.of(desk.end(approval, reason));
  }
}

package org.mixaccord.api.v1.changes;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.databind.JsonNode;
import jakarta.annotation.Nullable;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.PATCH;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import java.util.List;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.record.ChangeDesk;
import org.mixaccord.record.ChangeList;
import org.mixaccord.record.ChangePatch;
import org.mixaccord.record.VerdictDesk;

/** The change list. */
@Path("/api/v1")
public class ChangeResource {
  /** What was heard, and what is said of it. */
  public record Hearing(String bounce, String says) {}

  /** What came of it. */
  public record Heard(String state, @JsonInclude(JsonInclude.Include.NON_NULL) String next) {}

  /** Why. */
  public record Reason(String reason) {}

  /** A change and its state. */
  public record Marked(String id, String state) {}

  private final ChangeDesk desk;
  private final VerdictDesk verdicts;
  private final Doorkeeper doorkeeper;

  ChangeResource(ChangeDesk desk, VerdictDesk verdicts, Doorkeeper doorkeeper) {
    this.desk = desk;
    this.verdicts = verdicts;
    this.doorkeeper = doorkeeper;
  }

  @GET
  @Path("/songs/{s}/changes")
  @Transactional
  public Response list(
      @PathParam("s") String song, @QueryParam("state") String state, @BeanParam Paging paging) {
    return paging.page(desk.list(song, state).stream().map(ChangeView::of).toList());
  }

  @GET
  @Path("/changes/{c}")
  @Transactional
  public Response get(@PathParam("c") String change) {
    return tagged(desk.get(change));
  }

  @PATCH
  @Path("/changes/{c}")
  @Transactional
  public Response patch(
      @PathParam("c") String change, @HeaderParam("If-Match") String ifMatch, JsonNode body) {
    return tagged(desk.patch(change, ifMatch, ChangePatch.of(body)));
  }

  private Response tagged(ChangeList.Row row) {
    Access reader = doorkeeper.project(row.change().song().project().id());
    List<ChangeView.VerdictView> seen =
        reader.may(Act.SEE_CHECKS)
            ? verdicts.of(row.change(), reader).stream().map(ChangeView.VerdictView::of).toList()
            : null;
    ChangeView.UsualView usual =
        verdicts.usual(row.change(), reader).map(ChangeView.UsualView::of).orElse(null);
    return Response.ok(ChangeView.of(row, usual, seen)).header("ETag", row.etag()).build();
  }

  @POST
  @Path("/songs/{s}/changes/marking")
  @Transactional
  public List<Marked> mark(@PathParam("s") String song, ChangeDesk.Marking body) {
    return desk.mark(song, body).stream()
        .map(row -> new Marked(row.change().id(), row.state().wire()))
        .toList();
  }

  @POST
  @Path("/changes/{c}/hearing")
  @Transactional
  public Heard hear(@PathParam("c") String change, Hearing body) {
    ChangeDesk.Heard heard = desk.hear(change, body.bounce(), body.says());
    return new Heard(heard.state().wire(), heard.next().orElse(null));
  }

  @POST
  @Path("/changes/{c}/settlement")
  @Transactional
  public ChangeView settle(@PathParam("c") String change, @Nullable Reason body) {
    return ChangeView.of(desk.settle(change, body == null ? null : body.reason()));
  }
}

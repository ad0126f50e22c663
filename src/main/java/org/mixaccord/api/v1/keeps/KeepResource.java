package org.mixaccord.api.v1.keeps;

import jakarta.annotation.Nullable;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import org.mixaccord.accounts.Texts;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.record.Keep;
import org.mixaccord.record.NoteDesk;

/** What is to be left alone. */
@Path("/api/v1")
public class KeepResource {
  /** A keep that holds. */
  public record KeepView(
      String id, String element, Object where, boolean afterEnd, String text, String note) {
    static KeepView of(Keep keep) {
      return new KeepView(
          keep.id(),
          keep.element(),
          keep.where().wire(),
          keep.isAfterEnd(),
          keep.text(),
          keep.note().id());
    }
  }

  /** Why it no longer holds. */
  public record Reason(String reason) {}

  private final NoteDesk desk;

  KeepResource(NoteDesk desk) {
    this.desk = desk;
  }

  @GET
  @Path("/songs/{s}/keeps")
  @Transactional
  public Response list(@PathParam("s") String song, @BeanParam Paging paging) {
    return paging.page(desk.keeps(song).stream().map(KeepView::of).toList());
  }

  @POST
  @Path("/keeps/{k}/withdrawal")
  @Transactional
  public void withdraw(@PathParam("k") String keep, @Nullable Reason body) {
    desk.withdrawKeep(keep, body == null ? null : Texts.lineOrNull("reason", body.reason(), 1000));
  }
}

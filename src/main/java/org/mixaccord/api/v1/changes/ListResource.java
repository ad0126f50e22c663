package org.mixaccord.api.v1.changes;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import java.util.List;
import org.mixaccord.record.ListDesk;

/** How the change list is arranged. */
@Path("/api/v1")
public class ListResource {
  /** For each part the fields that differ from the change's own. */
  public record Parts(List<JsonNode> parts) {}

  /** Changes by id. */
  public record Named(List<String> changes) {}

  private final ListDesk desk;

  ListResource(ListDesk desk) {
    this.desk = desk;
  }

  @POST
  @Path("/changes/{c}/splitting")
  @Transactional
  public List<ChangeView> split(@PathParam("c") String change, Parts body) {
    return desk.split(change, body.parts()).stream().map(ChangeView::of).toList();
  }

  @POST
  @Path("/songs/{s}/changes/joining")
  @Transactional
  public List<ChangeView> join(@PathParam("s") String song, Named body) {
    return desk.join(song, body.changes()).stream().map(ChangeView::of).toList();
  }

  @POST
  @Path("/changes/{c}/parting")
  @Transactional
  public ChangeView part(@PathParam("c") String change) {
    return ChangeView.of(desk.part(change));
  }

  @PUT
  @Path("/songs/{s}/changes/order")
  public void order(@PathParam("s") String song, Named body) {
    desk.order(song, body.changes());
  }
}

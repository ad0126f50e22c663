package org.mixaccord.api.v1.songs;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.record.History;
import org.mixaccord.songs.SongDoor;

/** What happened to a song, in order, each row chained to the one before. */
@Path("/api/v1")
public class HistoryResource {
  /** One row. */
  public record Row(
      long seq,
      Instant at,
      String by,
      String byName,
      String act,
      String subject,
      String detail,
      String previousHash,
      String hash) {}

  private final SongDoor door;
  private final History history;

  HistoryResource(SongDoor door, History history) {
    this.door = door;
    this.history = history;
  }

  @GET
  @Path("/songs/{s}/history")
  @Transactional
  public Response list(@PathParam("s") String id, @BeanParam Paging paging) {
    SongDoor.ToSong to = door.song(id);
    return paging.page(
        history.visible(to.access(), to.song().id(), 0, Integer.MAX_VALUE).stream()
            .map(
                e ->
                    new Row(
                        e.seq(),
                        e.at(),
                        e.by().id(),
                        e.by().name(),
                        e.act(),
                        e.subject(),
                        e.detail(),
                        e.previousHash(),
                        e.hash()))
            .toList());
  }
}

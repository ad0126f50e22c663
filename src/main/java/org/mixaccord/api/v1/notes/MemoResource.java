package org.mixaccord.api.v1.notes;

import io.smallrye.common.annotation.Blocking;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.io.InputStream;
import java.util.OptionalLong;
import org.mixaccord.api.v1.FilesOut;
import org.mixaccord.jobs.Memos;
import org.mixaccord.record.MemoDesk;
import org.mixaccord.record.Note;
import org.mixaccord.record.NoteDesk;

/** Notes that are spoken. */
@Path("/api/v1")
public class MemoResource {
  /** A memo just kept. */
  public record Kept(String id, double seconds) {}

  /** What was heard, written down. */
  public record Line(String text) {}

  private final Memos memos;
  private final MemoDesk desk;

  MemoResource(Memos memos, MemoDesk desk) {
    this.memos = memos;
    this.desk = desk;
  }

  @POST
  @Path("/songs/{s}/voice-memos")
  @Consumes(MediaType.WILDCARD)
  @Blocking
  public Response take(
      @PathParam("s") String song,
      @QueryParam("bounce") String bounce,
      @QueryParam("from") Double from,
      @QueryParam("to") Double to,
      @QueryParam("behalfOf") String behalfOf,
      @QueryParam("engineerOnly") @DefaultValue("false") boolean engineerOnly,
      @HeaderParam("Content-Length") Long length,
      InputStream body)
      throws IOException {
    MemoDesk.Spot spot = new MemoDesk.Spot(bounce, from, to, behalfOf, engineerOnly);
    OptionalLong announced = length == null ? OptionalLong.empty() : OptionalLong.of(length);
    Note note = memos.take(song, spot, announced, body);
    Kept kept = new Kept(note.id(), note.memo().orElseThrow().seconds());
    return Response.status(201).entity(kept).build();
  }

  @GET
  @Path("/notes/{n}/memo")
  @Blocking
  public Response sound(@PathParam("n") String note, @Context HttpHeaders headers)
      throws IOException {
    Note.Memo memo = desk.memo(note);
    return FilesOut.file(
            memos.file(memo), memo.sha256(), FilesOut.Asked.by(headers), FilesOut.Served.UNCOUNTED)
        .type(memo.type())
        .header(HttpHeaders.CACHE_CONTROL, "private, no-cache")
        .build();
  }

  @POST
  @Path("/notes/{n}/line")
  @Transactional
  public NoteDesk.Written line(@PathParam("n") String note, Line body) {
    return desk.line(note, body.text());
  }
}

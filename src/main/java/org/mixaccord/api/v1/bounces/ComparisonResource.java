package org.mixaccord.api.v1.bounces;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.jobs.StoredComparison;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.ComparisonRecord;
import org.mixaccord.songs.SongDoor;

/** What differs between two bounces of a song. */
@Path("/api/v1")
public class ComparisonResource {
  private static final List<String> MAP_FIELDS =
      List.of("offsetSeconds", "speedRatio", "timeMap", "onlyHere", "onlyThere");

  private final SongDoor door;
  private final Comparing comparing;
  private final ObjectMapper json;

  ComparisonResource(SongDoor door, Comparing comparing, ObjectMapper json) {
    this.door = door;
    this.comparing = comparing;
    this.json = json;
  }

  /** 200 with the comparison, or 202 while it is worked out. */
  @GET
  @Path("/bounces/{b}/comparison")
  @Transactional
  public Response comparison(@PathParam("b") String id, @QueryParam("with") String with)
      throws IOException {
    SongDoor.ToBounce to = door.bounce(id);
    to.access().require(Act.SEE_FIGURES);
    ComparisonRecord record = record(to, with);
    if (!record.ready()) {
      return waiting(record);
    }
    ObjectNode result = (ObjectNode) json.readTree(record.result().orElseThrow());
    boolean parts = to.access().may(Act.SEE_CHECKS);
    if (!parts) {
      withoutParts(result);
    }
    JsonNode words =
        result.path(
            parts ? StoredComparison.WORDS_FOR_ENGINEERS : StoredComparison.WORDS_FOR_LISTENERS);
    result.remove(
        List.of(
            StoredComparison.WORDS_FOR_ENGINEERS,
            StoredComparison.WORDS_FOR_LISTENERS,
            StoredComparison.RECALL));
    result.set("inWords", words.isMissingNode() ? json.createArrayNode() : words);
    return Response.ok(Decimals.of(result)).build();
  }

  /** What a pass is beside an earlier mix, in words with places; 202 while it is worked out. */
  @GET
  @Path("/bounces/{b}/recall")
  @Transactional
  public Response recall(@PathParam("b") String id, @QueryParam("with") String with)
      throws IOException {
    SongDoor.ToBounce to = door.bounce(id);
    to.access().require(Act.SEE_CHECKS);
    ComparisonRecord record = record(to, with);
    if (!record.ready()) {
      return waiting(record);
    }
    JsonNode result = json.readTree(record.result().orElseThrow());
    ObjectNode recall = (ObjectNode) result.path(StoredComparison.RECALL);
    recall.set("likeness", result.path("likeness"));
    return Response.ok(Decimals.of(recall)).build();
  }

  /** How time runs from one bounce to the other, for whoever may hear both. */
  @GET
  @Path("/bounces/{b}/time-map")
  @Transactional
  public Response timeMap(@PathParam("b") String id, @QueryParam("with") String with)
      throws IOException {
    ComparisonRecord record = record(door.bounce(id), with);
    if (!record.ready()) {
      return waiting(record);
    }
    JsonNode result = json.readTree(record.result().orElseThrow());
    ObjectNode map = json.createObjectNode();
    MAP_FIELDS.forEach(field -> map.set(field, result.path(field)));
    map.set("likeness", result.path("likeness"));
    return Response.ok(Decimals.of(map)).build();
  }

  private ComparisonRecord record(SongDoor.ToBounce to, String with) {
    if (with == null) {
      throw new ProblemException(Problem.INVALID, "“with” names the mix to compare with.");
    }
    Bounce other = door.bounce(with).bounce();
    if (!other.song().id().equals(to.song().id())) {
      throw Doorkeeper.notFound();
    }
    Comparing.requireComparable(to.bounce(), other);
    ComparisonRecord record = comparing.ask(to.bounce(), other);
    if (record.failed()) {
      throw new ProblemException(
          Problem.BUSY, "Comparing these two did not work out. Try again in a moment.");
    }
    return record;
  }

  private Response waiting(ComparisonRecord record) {
    return Response.status(202)
        .header("Retry-After", 1)
        .entity(Map.of("progress", comparing.progress(record)))
        .build();
  }

  private static void withoutParts(ObjectNode result) {
    if (result.path("whole") instanceof ObjectNode whole) {
      whole.remove("elements");
    }
    if (result.path("sections") instanceof ArrayNode sections) {
      sections.forEach(section -> ((ObjectNode) section).remove("elements"));
    }
  }
}

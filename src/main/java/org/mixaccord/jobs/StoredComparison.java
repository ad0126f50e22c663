package org.mixaccord.jobs;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.mixaccord.align.MapPiece;
import org.mixaccord.align.TimeMap;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.compare.BiggestDifferences;
import org.mixaccord.compare.Comparison;
import org.mixaccord.compare.Recall;

/** A comparison as it is kept: its figures as JSON, and beside them what to say of it. */
public final class StoredComparison {
  /** Fields that hold sentences, for each kind of reader. */
  public static final String WORDS_FOR_ENGINEERS = "wordsForEngineers";

  public static final String WORDS_FOR_LISTENERS = "wordsForListeners";

  /** What the bounce is beside the other one, for engineers. */
  public static final String RECALL = "recall";

  private static final int MOST_SENTENCES = 12;

  private StoredComparison() {}

  static String write(Comparison comparison, ObjectMapper json) throws IOException {
    String figures =
        json.writer()
            .with(SerializationFeature.WRITE_ENUMS_USING_TO_STRING)
            .writeValueAsString(comparison);
    ObjectNode tree = (ObjectNode) json.readTree(figures);
    tree.putPOJO(WORDS_FOR_ENGINEERS, BiggestDifferences.forEngineers(comparison, MOST_SENTENCES));
    tree.putPOJO(WORDS_FOR_LISTENERS, BiggestDifferences.forListeners(comparison, MOST_SENTENCES));
    tree.set(RECALL, json.valueToTree(Recall.of(comparison)));
    return json.writeValueAsString(tree);
  }

  static TimeMap map(String stored, ObjectMapper json) {
    try {
      JsonNode tree = json.readTree(stored);
      List<MapPiece> pieces = new ArrayList<>();
      for (JsonNode p : tree.path("timeMap")) {
        pieces.add(
            new MapPiece(
                p.path("from").asDouble(),
                p.path("to").asDouble(),
                p.path("otherFrom").asDouble(),
                p.path("otherTo").asDouble(),
                p.path("sure").asDouble()));
      }
      return new TimeMap(pieces, spans(tree.path("onlyHere")), spans(tree.path("onlyThere")));
    } catch (IOException e) {
      throw new IllegalStateException("a stored comparison cannot be read", e);
    }
  }

  private static List<TimeSpan> spans(JsonNode rows) {
    List<TimeSpan> spans = new ArrayList<>();
    rows.forEach(r -> spans.add(new TimeSpan(r.path("from").asDouble(), r.path("to").asDouble())));
    return spans;
  }
}

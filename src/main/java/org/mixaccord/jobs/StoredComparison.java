package org.mixaccord.jobs;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
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
}

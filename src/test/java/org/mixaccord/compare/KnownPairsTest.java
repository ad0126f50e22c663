package org.mixaccord.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.align.MapPiece;

/**
 * Rendered pairs of mixes whose true changes are known, from the folder named by {@code
 * -Dtruth.dir=}: {@code mvn test -Dtest=KnownPairsTest -Dtest.groups.excluded= -Dtruth.dir=…}.
 */
@Tag("slow")
class KnownPairsTest {
  /** A limiter on the mix, or a codec: the altered section may end uncertain without stems. */
  private static final Set<String> MAY_BE_UNCERTAIN = Set.of("L2", "L6");

  @ParameterizedTest
  @ValueSource(
      strings = {
        "R1", "R2", "R3", "R4", "R5", "R6", "R7", "L1", "L2", "L3", "L4", "L5", "L6", "L7"
      })
  void foundAsItIsKnown(String id) throws IOException {
    String folder = System.getProperty("truth.dir", "");
    if (folder.isEmpty()) {
      System.err.println("KNOWN PAIRS NOT CHECKED: -Dtruth.dir= names no folder of rendered pairs");
    }
    Assumptions.assumeTrue(!folder.isEmpty(), "-Dtruth.dir= names no folder");
    Path dir = Path.of(folder);
    JsonNode truth = new ObjectMapper().readTree(Files.readString(dir.resolve(id + ".json")));
    WavFile there = WavFile.read(dir.resolve(truth.get("A").asText()));
    WavFile here = WavFile.read(dir.resolve(truth.get("B").asText()));
    boolean lossy = truth.toString().contains("\"mp3\"");
    List<NamedSection> sections = new ArrayList<>();
    for (JsonNode s : truth.get("sections")) {
      if (!s.get("b").isNull()) {
        sections.add(
            new NamedSection(
                s.get("name").asText(),
                s.get("b").get(0).asDouble(),
                s.get("b").get(1).asDouble()));
      }
    }
    String hash = id.equals("R1") ? "there" : "here";
    Comparison found =
        Comparer.compare(
            ComparisonInput.of(
                new ComparedFile(here.pcm(), hash, here.floatingPoint(), here.bits(), lossy),
                new ComparedFile(there.pcm(), "there", there.floatingPoint(), there.bits(), false),
                sections),
            p -> {});
    System.out.println(id + " " + found.likeness() + " " + found.causes());
    checkMap(truth, found);
    checkSections(id, truth, found);
    if (!id.equals("L2")) {
      assertEquals(truth.get("overall_gain_db").asDouble(), found.gainDb(), 0.05);
    }
  }

  private static void checkMap(JsonNode truth, Comparison found) {
    JsonNode map = truth.get("time_map");
    assertEquals(map.size(), found.timeMap().size(), found.timeMap().toString());
    boolean drift = truth.toString().contains("\"drift\"");
    for (int i = 0; i < map.size(); i++) {
      MapPiece piece = found.timeMap().get(i);
      double a0 = map.get(i).get("a").get(0).asDouble();
      double a1 = map.get(i).get("a").get(1).asDouble();
      double b0 = map.get(i).get("b").get(0).asDouble();
      double b1 = map.get(i).get("b").get(1).asDouble();
      // The truth is written to a millionth of a second.
      double within = drift ? 2e-4 : 1 / 48000.0 + 2e-6;
      for (double part : new double[] {0.1, 0.5, 0.9}) {
        assertEquals(a0 + part * (a1 - a0), piece.toOther(b0 + part * (b1 - b0)), within);
      }
      assertEquals(b0, piece.from(), i == 0 ? 0.03 : 0.05);
    }
  }

  private static void checkSections(String id, JsonNode truth, Comparison found) {
    boolean any = false;
    for (Comparison.SectionDifference s : found.sections()) {
      boolean changed = false;
      for (JsonNode change : truth.get("changes")) {
        for (JsonNode name : change.get("sections")) {
          changed |= name.asText().equals("*") || name.asText().equals(s.name());
        }
      }
      any |= changed;
      if (changed && MAY_BE_UNCERTAIN.contains(id)) {
        assertTrue(s.difference() != Difference.UNCHANGED, id + " " + s.name());
      } else {
        assertEquals(
            changed ? Difference.CHANGED : Difference.UNCHANGED,
            s.difference(),
            id + " " + s.name());
      }
    }
    if (!any) {
      assertTrue(
          Set.of(Likeness.IDENTICAL, Likeness.REQUANTISED, Likeness.LEVEL_ONLY)
              .contains(found.likeness()),
          id + " " + found.likeness());
    }
  }
}

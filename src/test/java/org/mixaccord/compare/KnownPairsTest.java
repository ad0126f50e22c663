package org.mixaccord.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.align.MapPiece;
import org.mixaccord.audio.PcmSource;

/**
 * Rendered pairs of mixes whose true changes are known: {@code mvn -Ptruth -Dtruth.dir=… test}. The
 * folder holds {@code ID.json}, the two mixes it names, and, where they were rendered, the parts of
 * both in {@code ID_stems/A} and {@code ID_stems/B}.
 */
@Tag("slow")
class KnownPairsTest {
  /** A limiter on the mix, or a codec: the altered section may end uncertain without stems. */
  private static final Set<String> MAY_BE_UNCERTAIN = Set.of("L2", "L6");

  /** What a pair without any change of the mix must be told as, and nothing beside. */
  private static final Map<String, List<CauseCode>> ONLY =
      Map.of(
          "R1", List.of(),
          "R5", List.of(CauseCode.RESAMPLED, CauseCode.DITHER),
          "L3", List.of(CauseCode.DRIFT),
          "L5", List.of(CauseCode.OVERALL_GAIN, CauseCode.LOSSY_CODING));

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
    Comparison found = compare(id, dir, truth);
    report(id, truth, found);
    checkMap(truth, found);
    checkSections(id, truth, found);
    checkParts(truth, found);
    if (!id.equals("L2")) {
      // In L2 the drive of the limiter is the overall level; what it holds down pulls the figure.
      assertEquals(truth.get("overall_gain_db").asDouble(), found.gainDb(), 0.05);
    }
    if (ONLY.containsKey(id)) {
      assertEquals(ONLY.get(id), found.causes().stream().map(Comparison.Cause::code).toList());
    }
  }

  private static Comparison compare(String id, Path dir, JsonNode truth) throws IOException {
    WavFile there = WavFile.read(dir.resolve(truth.get("A").asText()));
    WavFile here = WavFile.read(dir.resolve(truth.get("B").asText()));
    boolean lossy = truth.toString().contains("\"mp3\"");
    String hash = id.equals("R1") ? "there" : "here";
    return Comparer.compare(
        new ComparisonInput(
            new ComparedFile(here, hash, here.floatingPoint(), here.bits(), lossy),
            new ComparedFile(there, "there", there.floatingPoint(), there.bits(), false),
            sections(truth, "b"),
            sections(truth, "a"),
            stems(dir.resolve(id + "_stems").resolve("B")),
            stems(dir.resolve(id + "_stems").resolve("A"))),
        p -> {});
  }

  private static List<NamedSection> sections(JsonNode truth, String side) {
    List<NamedSection> sections = new ArrayList<>();
    for (JsonNode s : truth.get("sections")) {
      JsonNode place = s.get(side);
      if (!place.isNull()) {
        String name = s.get("name").asText();
        sections.add(new NamedSection(name, place.get(0).asDouble(), place.get(1).asDouble()));
      }
    }
    return sections;
  }

  private static Map<String, PcmSource> stems(Path dir) throws IOException {
    Map<String, PcmSource> stems = new TreeMap<>();
    if (Files.isDirectory(dir)) {
      try (DirectoryStream<Path> files = Files.newDirectoryStream(dir, "*.wav")) {
        for (Path file : files) {
          String name = file.getFileName().toString();
          stems.put(name.substring(0, name.length() - 4), WavFile.read(file));
        }
      }
    }
    return stems;
  }

  private static void report(String id, JsonNode truth, Comparison found) {
    System.out.printf(
        Locale.ROOT,
        "%s %s, level %+.3f dB (true %+.3f), %s%n",
        id,
        found.likeness(),
        found.gainDb(),
        truth.get("overall_gain_db").asDouble(),
        BiggestDifferences.forEngineers(found, 12));
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

  private static boolean concerns(JsonNode change, String section) {
    for (JsonNode name : change.get("sections")) {
      if (name.asText().equals("*") || name.asText().equals(section)) {
        return true;
      }
    }
    return false;
  }

  private static void checkSections(String id, JsonNode truth, Comparison found) {
    for (Comparison.SectionDifference s : found.sections()) {
      String what = id + " " + s.name();
      if (s.difference() == Difference.ONLY_THERE) {
        assertTrue(sections(truth, "b").stream().noneMatch(b -> b.name().equals(s.name())), what);
        continue;
      }
      boolean changed = false;
      for (JsonNode change : truth.get("changes")) {
        changed |= concerns(change, s.name());
      }
      if (changed && MAY_BE_UNCERTAIN.contains(id)) {
        assertTrue(s.difference() != Difference.UNCHANGED, what);
      } else {
        assertEquals(changed ? Difference.CHANGED : Difference.UNCHANGED, s.difference(), what);
      }
    }
    if (truth.get("changes").isEmpty()) {
      assertTrue(
          Set.of(Likeness.IDENTICAL, Likeness.REQUANTISED, Likeness.LEVEL_ONLY)
              .contains(found.likeness()),
          id + " " + found.likeness());
    }
  }

  /** With the parts of both: every part's own change, and of the rest none. */
  private static void checkParts(JsonNode truth, Comparison found) {
    for (Comparison.SectionDifference s : found.sections()) {
      for (Comparison.ElementDifference e : s.elements()) {
        double gainDb = 0;
        boolean muted = false;
        boolean panned = false;
        for (JsonNode change : truth.get("changes")) {
          if (change.get("stem").asText().equals(e.element()) && concerns(change, s.name())) {
            gainDb += change.path("gain_db").asDouble();
            muted |= change.has("mute");
            panned |= change.has("pan");
          }
        }
        String what = e.element() + " in " + s.name() + ": " + e;
        if (muted) {
          assertFalse(e.present(), what);
          assertTrue(e.presentThere(), what);
        } else if (panned) {
          assertEquals(0.4, e.panChange().orElseThrow(), 0.03, what);
        } else if (e.gainChangeDb().isPresent()) {
          double beyond = e.gainChangeDb().getAsDouble() - found.gainDb();
          assertEquals(gainDb, beyond, 0.1, what);
          assertEquals(0, e.panChange().orElse(0), 0.02, what);
          assertEquals(0, e.lagSeconds().orElse(0), 0.001, what);
        } else {
          assertEquals(0, gainDb, what);
        }
      }
    }
  }
}

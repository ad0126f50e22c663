package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The table of findings in the documents is the list in the code. */
class FindingsDocumentTest {
  private static final Pattern ROW = Pattern.compile("\\| `([a-z-]+)` \\| .* \\| ?([^|]*)\\|");

  @Test
  void everyCodeStandsInTheTableWithWhatItStandsOn() throws IOException {
    String document = Files.readString(Path.of("docs/measurement.md"));
    String section =
        document.substring(document.indexOf("## Findings"), document.indexOf("**Clicks.**"));
    Map<String, String> documented = new LinkedHashMap<>();
    section
        .lines()
        .map(ROW::matcher)
        .filter(Matcher::matches)
        .forEach(m -> documented.put(m.group(1), m.group(2).trim()));
    Map<String, String> coded = new LinkedHashMap<>();
    for (FindingCode code : FindingCode.values()) {
      String standing = code.basis().standing().map(Standing::wire).orElse("");
      String source = code.basis().source().map(name -> ": " + name).orElse("");
      coded.put(code.word(), standing + source);
    }
    assertEquals(coded, documented);
  }

  @Test
  void fullScaleIsNobodysAgreement() {
    double[] x = Signals.sine(48000, 997, 3, 1);
    Finding plain =
        Findings.of(Signals.stereo(48000, x), DeliveryLimits.none()).stream()
            .filter(f -> f.code().equals("over"))
            .findFirst()
            .orElseThrow();
    assertEquals(Optional.empty(), plain.basis().standing());
  }

  @Test
  void aFindingOfNoKnownKindIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> FindingCode.of("ugly"));
  }
}

package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** What stands behind a finding is said twice: in the program and in docs/measurement.md. */
class StandingTest {
  private static final Pattern ROW = Pattern.compile("(?m)^\\| `([a-z-]+)` \\|.*\\|([^|]*)\\|$");

  @Test
  void programAndDocumentSayTheSame() throws IOException {
    String text = Files.readString(Path.of("docs/measurement.md"));
    int start = text.indexOf("## Findings");
    Matcher row = ROW.matcher(text.substring(start, text.indexOf("\n## ", start)));
    int rows = 0;
    while (row.find()) {
      rows++;
      String standsOn = row.group(2).strip();
      Optional<Standing> documented =
          standsOn.startsWith("agreement")
              ? Optional.of(Standing.AGREEMENT)
              : standsOn.startsWith("habit")
                  ? Optional.of(Standing.HABIT)
                  : standsOn.contains("BS.1770")
                      ? Optional.of(Standing.STANDARD)
                      : Optional.empty();
      assertEquals(documented, Standing.ofFinding(row.group(1), true), row.group(1));
    }
    assertTrue(rows >= 12, rows + " findings in the document");
    assertTrue(Standing.ofFinding("over", false).isEmpty(), "full scale is nobody's agreement");
  }
}

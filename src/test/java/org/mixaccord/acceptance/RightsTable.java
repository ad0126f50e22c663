package org.mixaccord.acceptance;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The table of rights in {@code acceptance/rights.tsv}. */
final class RightsTable {
  /** Whose column is whose. */
  static final List<String> CALLERS =
      List.of("eng", "art", "boss", "ear", "stranger", "gone", "nobody");

  private RightsTable() {}

  /**
   * A call and what everybody gets for it.
   *
   * @param path with placeholders such as {@code {b}} or {@code {b:private}}
   * @param expected statuses by caller
   * @param body JSON, {@code audio}, {@code midi}, {@code piece} or nothing
   */
  record Row(int line, String method, String path, Map<String, Integer> expected, String body) {
    /** The route as the published description names it. */
    String route() {
      return method + " /api/v1" + path.replaceAll("\\?.*", "").replaceAll(":\\w+}", "}");
    }

    @Override
    public String toString() {
      return "line " + line + ": " + method + " " + path + (body.isEmpty() ? "" : " " + body);
    }
  }

  static List<Row> rows() {
    List<Row> rows = new ArrayList<>();
    try (InputStream in = RightsTable.class.getResourceAsStream("/acceptance/rights.tsv")) {
      int number = 0;
      for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
        number++;
        if (!line.isBlank() && !line.startsWith("#")) {
          rows.add(row(number, line.split("\t")));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return rows;
  }

  private static Row row(int line, String[] cells) {
    Map<String, Integer> expected = new LinkedHashMap<>();
    for (int i = 0; i < CALLERS.size(); i++) {
      expected.put(CALLERS.get(i), Integer.valueOf(cells[2 + i]));
    }
    int body = 2 + CALLERS.size();
    return new Row(line, cells[0], cells[1], expected, cells.length > body ? cells[body] : "");
  }
}

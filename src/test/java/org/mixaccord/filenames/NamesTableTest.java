package org.mixaccord.filenames;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.mixaccord.filenames.NameContext.KnownSong;
import org.mixaccord.filenames.NameProposal.Side;
import org.mixaccord.filenames.NameProposal.Use;

/** The table of invented file names with what is right to read in them. */
class NamesTableTest {
  static final List<String> SONGS =
      List.of(
          "Low Water",
          "Ebb",
          "Ebb and Flow",
          "Glass Harbour",
          "Don't Wait Up",
          "7 Winters",
          "Night Bus No. 9",
          "Señal de Humo",
          "Größe",
          "ひかりの舟",
          "Тихая вода",
          "Clean Slate",
          "Part 1",
          "Part 2",
          "Radio Silence",
          "O");
  static final NameContext CONTEXT =
      new NameContext(
          SONGS.stream().map(t -> new KnownSong("id of " + t, t)).toList(),
          "The Invented",
          "Shorelines");

  private record Row(String when, boolean part, String name, Map<String, String> right) {}

  @Test
  void everyNameIsReadAsTheTableSays() {
    List<String> wrong = new ArrayList<>();
    Map<String, int[]> fields = new TreeMap<>();
    List<Row> rows = rows();
    assertTrue(rows.size() >= 270, "rows: " + rows.size());
    for (Row row : rows) {
      Map<String, String> read = read(row);
      boolean sure = !read.containsKey("doubt");
      boolean right = true;
      for (String field :
          List.of(
              "out", "song", "new", "kind", "n", "label", "rate", "bits", "element", "side",
              "date")) {
        String wanted = row.right().get(field);
        String got = read.get(field);
        int[] count = fields.computeIfAbsent(field, f -> new int[3]);
        count[0] += wanted == null ? 0 : 1;
        count[1] += got == null ? 0 : 1;
        if (java.util.Objects.equals(wanted, got)) {
          count[2] += got == null ? 0 : 1;
        } else {
          right = false;
          wrong.add(row.when() + " " + row.name() + ": " + field + " " + got + ", not " + wanted);
        }
      }
      if (row.right().containsKey("doubt") && sure) {
        wrong.add(row.when() + " " + row.name() + ": is sure, and should not be");
      }
      if (right && !sure && !row.right().containsKey("doubt")) {
        wrong.add(row.when() + " " + row.name() + ": doubts " + read.get("doubt"));
      }
    }
    StringBuilder report = new StringBuilder("\nfield: wanted, read, right\n");
    fields.forEach((f, c) -> report.append(f + ": " + c[0] + ", " + c[1] + ", " + c[2] + "\n"));
    assertEquals(List.of(), wrong, report + String.join("\n", wrong));
  }

  private static Map<String, String> read(Row row) {
    NameProposal p =
        FileNames.read(
                List.of(new NamedFile(row.name(), OptionalLong.empty())),
                CONTEXT,
                Optional.of(row.part() ? Use.STEM : Use.BOUNCE))
            .get(0);
    Map<String, String> read = new LinkedHashMap<>();
    p.leaveOut().ifPresent(w -> read.put("out", ""));
    if (p.songId().isPresent() && (!row.part() || row.right().containsKey("song"))) {
      read.put("song", p.title().orElseThrow());
    } else if (p.songId().isEmpty()) {
      p.title().ifPresent(t -> read.put("new", t));
    }
    p.kind().ifPresent(k -> read.put("kind", k));
    p.label().ifPresent(l -> read.put("label", l));
    p.number().ifPresent(n -> read.put("n", String.valueOf(n)));
    p.sampleRateHz().ifPresent(hz -> read.put("rate", String.valueOf(hz)));
    p.bitDepth().ifPresent(bits -> read.put("bits", String.valueOf(bits)));
    p.element().ifPresent(e -> read.put("element", e));
    p.side().map(Side::word).ifPresent(s -> read.put("side", s));
    p.date().ifPresent(d -> read.put("date", d));
    List<String> doubts = new ArrayList<>(p.doubts());
    if (row.part()) {
      doubts.removeIf(d -> d.contains("which song"));
    }
    if (!doubts.isEmpty()) {
      read.put("doubt", doubts.toString());
    }
    return read;
  }

  private static List<Row> rows() {
    List<Row> rows = new ArrayList<>();
    try (InputStream in = NamesTableTest.class.getResourceAsStream("/filenames/names.tsv")) {
      for (String line : new String(in.readAllBytes(), StandardCharsets.UTF_8).split("\n")) {
        if (line.startsWith("#") || line.isBlank()) {
          continue;
        }
        String[] f = line.split("\t");
        Map<String, String> right = new LinkedHashMap<>();
        for (String pair : f[3].split("; ")) {
          String[] keyValue = pair.split("=", 2);
          right.put(keyValue[0], keyValue.length > 1 ? keyValue[1] : "");
        }
        boolean part = f[1].equals("s");
        if (!part && !right.containsKey("out")) {
          right.putIfAbsent("kind", "main");
        }
        rows.add(new Row(f[0], part, f[2], right));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return rows;
  }
}

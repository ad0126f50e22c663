package org.mixaccord.worksheet;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The list as rows of cells, one row for each line, times to the millisecond. */
public final class SheetTable {
  /** The names of the columns. */
  public static final List<String> HEADER =
      List.of(
          "number",
          "part",
          "asked",
          "where",
          "from",
          "to",
          "all places",
          "words",
          "asked by",
          "state",
          "answer",
          "reason",
          "moved",
          "new work");

  private SheetTable() {}

  /** The cells of every line; keeps come last, with the state "leave alone". */
  public static List<List<String>> rows(WorkSheet sheet) {
    List<List<String>> rows = new ArrayList<>();
    for (WorkSheet.Line line : sheet.lines()) {
      rows.add(
          List.of(
              line.number(),
              line.part(),
              line.ask(),
              line.where(),
              from(line.places()),
              to(line.places()),
              all(line.places()),
              line.said().stream().map(WorkSheet.Said::words).collect(Collectors.joining("\n")),
              String.join(", ", line.names()),
              line.state().words(),
              line.how().orElse(""),
              line.reason().orElse(""),
              line.moved().orElse(""),
              line.newWork().orElse("")));
    }
    for (WorkSheet.Keep keep : sheet.keeps()) {
      rows.add(
          List.of(
              "",
              keep.part(),
              "leave alone",
              keep.where(),
              from(keep.places()),
              to(keep.places()),
              all(keep.places()),
              keep.said().words(),
              keep.said().name(),
              "in force",
              "",
              "",
              "",
              ""));
    }
    return rows;
  }

  private static String from(List<WorkSheet.Stretch> places) {
    return places.isEmpty() ? "" : AskWords.clockMillis(places.get(0).fromSeconds());
  }

  private static String to(List<WorkSheet.Stretch> places) {
    return places.isEmpty() ? "" : AskWords.clockMillis(places.get(0).toSeconds());
  }

  private static String all(List<WorkSheet.Stretch> places) {
    return places.stream()
        .map(
            p ->
                AskWords.clockMillis(p.fromSeconds())
                    + " to "
                    + AskWords.clockMillis(p.toSeconds()))
        .collect(Collectors.joining("; "));
  }
}

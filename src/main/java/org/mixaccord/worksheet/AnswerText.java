package org.mixaccord.worksheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The engineer's answer to the band, as text to be copied into a message. */
public final class AnswerText {
  private static final String DIFFERENTLY = "solved differently";

  private AnswerText() {}

  /** What was done, done differently, not done and why, and what is still open. */
  public static String of(WorkSheet sheet) {
    StringBuilder text = new StringBuilder();
    text.append(sheet.song()).append(", ").append(sheet.mix()).append("\n");
    List<WorkSheet.Line> done = new ArrayList<>();
    List<WorkSheet.Line> differently = new ArrayList<>();
    for (WorkSheet.Line line : sheet.lines()) {
      if (line.state() == WorkSheet.State.DONE) {
        (line.how().filter(DIFFERENTLY::equals).isPresent() ? differently : done).add(line);
      }
    }
    block(text, "Done", done);
    block(text, "Done differently", differently);
    block(text, "Not done", in(sheet, WorkSheet.State.LEFT));
    block(text, "Still unclear, please answer", in(sheet, WorkSheet.State.UNCLEAR));
    block(text, "Still open", in(sheet, WorkSheet.State.OPEN));
    if (!sheet.keeps().isEmpty()) {
      text.append("\nLeft alone, as you asked\n");
      for (WorkSheet.Keep keep : sheet.keeps()) {
        text.append("\u2013 ").append(keep.part()).append(" (").append(keep.where()).append(")\n");
      }
    }
    return text.toString();
  }

  private static List<WorkSheet.Line> in(WorkSheet sheet, WorkSheet.State state) {
    return sheet.lines().stream().filter(line -> line.state() == state).toList();
  }

  private static void block(StringBuilder text, String title, List<WorkSheet.Line> lines) {
    if (lines.isEmpty()) {
      return;
    }
    text.append("\n").append(title).append("\n");
    for (WorkSheet.Line line : lines) {
      text.append("\u2013 ").append(line.what()).append(" (").append(line.where()).append("), ");
      text.append(AskWords.listed(line.names()));
      line.moved().ifPresent(moved -> text.append(": ").append(moved));
      because(line).ifPresent(why -> text.append(". ").append(why));
      text.append("\n");
    }
  }

  private static Optional<String> because(WorkSheet.Line line) {
    Optional<String> how = line.how().filter(h -> !h.equals(DIFFERENTLY) && !h.equals("as asked"));
    if (how.isPresent() && line.reason().isPresent()) {
      return Optional.of(AskWords.capital(how.get()) + ": " + line.reason().get());
    }
    return how.map(AskWords::capital).or(line::reason);
  }
}

package org.mixaccord.notes;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/** Marked notes and the songs they are about, as tests read them. */
final class Marked {
  private static final ObjectMapper JSON = new ObjectMapper();

  record Note(String id, String context, String text, JsonNode changes, JsonNode keeps) {}

  private Marked() {}

  static List<String> lines(String resource) throws IOException {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(
                Marked.class.getResourceAsStream("/notes/" + resource), StandardCharsets.UTF_8))) {
      List<String> lines = new ArrayList<>();
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        if (!line.isBlank() && !line.startsWith("#")) {
          lines.add(line);
        }
      }
      return lines;
    }
  }

  /** The notes that were in view while the rules were written. */
  static List<Note> corpus() throws IOException {
    return notes("marked.jsonl");
  }

  /** A second set, written and marked without looking at the rules or at the first set. */
  static List<Note> second() throws IOException {
    return notes("second.jsonl");
  }

  /**
   * One of the later sets.
   *
   * @param name "third" and "eighth", by people who worked on the reader; "fourth" to "seventh" and
   *     "ninth" to "twentyfirst", each by somebody who never saw it. The tenth, the eighteenth and
   *     the twenty-first are not learnt from
   */
  static List<Note> later(String name) throws IOException {
    return notes(name + ".jsonl");
  }

  private static List<Note> notes(String resource) throws IOException {
    List<Note> notes = new ArrayList<>();
    for (String line : lines(resource)) {
      JsonNode node = JSON.readTree(line);
      notes.add(
          new Note(
              node.get("id").asText(),
              node.get("context").asText(),
              node.get("text").asText(),
              node.get("changes"),
              node.get("keeps")));
    }
    return notes;
  }

  static NoteContext context(String name) {
    switch (name) {
      case "band":
        return song(
            96,
            "Intro 15,Verse 1 48,Pre-Chorus 1 62,Chorus 1 91,Verse 2 112,Pre-Chorus 2 125,"
                + "Chorus 2 160,Bridge 180,Solo 190,Chorus 3 232,Outro 252");
      case "electronic":
        return song(
            128,
            "Intro 30,Verse 1 60,Build 1 75,Drop 1 105,Breakdown 135,Build 2 150,Drop 2 195,"
                + "Outro 225");
      default:
        return NoteContext.empty();
    }
  }

  private static NoteContext song(double tempo, String form) {
    List<NamedSpan> sections = new ArrayList<>();
    double at = 0;
    for (String part : form.split(",")) {
      int space = part.lastIndexOf(' ');
      double end = Double.parseDouble(part.substring(space + 1));
      sections.add(new NamedSpan(part.substring(0, space), at, end));
      at = end;
    }
    return new NoteContext(
        sections, OptionalDouble.of(tempo), OptionalInt.of(4), OptionalDouble.of(0), List.of());
  }
}

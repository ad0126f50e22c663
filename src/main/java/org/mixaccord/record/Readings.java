package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.mixaccord.accounts.Texts;
import org.mixaccord.changes.AmountBounds;
import org.mixaccord.notes.Amount;
import org.mixaccord.notes.NamedSpan;
import org.mixaccord.notes.NoteAnswer;
import org.mixaccord.notes.NoteContext;
import org.mixaccord.notes.NoteQuestion;
import org.mixaccord.notes.NoteReader;
import org.mixaccord.notes.Reading;
import org.mixaccord.notes.RequestedChange;
import org.mixaccord.notes.Vocabulary;
import org.mixaccord.notes.Where;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.Stem;

/** Reads notes in the context of a song, or takes a reading as its writer corrected it. */
@ApplicationScoped
public class Readings {
  private static final int MOST_ITEMS = 300;
  private static final int TEXT_CHARS = 2000;
  private static final int ELEMENT_CHARS = 60;

  /** A change that was read, and what has to be asked about it. */
  record ReadChange(Change.Asked asked, Optional<Ask> question) {}

  /** A question before it is kept. */
  record Ask(String text, List<String> choices, boolean aboutSeveral) {
    static Ask of(NoteQuestion question) {
      return new Ask(
          question.text(),
          question.choices(),
          question.about() == NoteQuestion.About.CONTRADICTION);
    }
  }

  /** Something to be left alone. */
  record ReadKeep(String element, Where where, String text) {}

  /** What was drawn from a note. */
  record Drawn(List<ReadChange> changes, List<ReadKeep> keeps) {
    /** The same with nothing asked back: whoever works the list does not ask themselves. */
    Drawn unasked() {
      return new Drawn(
          changes.stream().map(c -> new ReadChange(c.asked(), Optional.empty())).toList(), keeps);
    }

    /** The same; where nothing was read out of the words, they are a line as they stand. */
    Drawn atLeastALine(String text) {
      if (!changes.isEmpty() || !keeps.isEmpty()) {
        return this;
      }
      Change.Asked whole =
          new Change.Asked(
              Vocabulary.MIX,
              "other",
              "any",
              Optional.empty(),
              Where.WHOLE_SONG,
              text,
              0,
              text.length());
      return new Drawn(List.of(new ReadChange(whole, Optional.empty())), List.of());
    }
  }

  private final Places places;
  private final BarsOnRecord bars;

  Readings(Places places, BarsOnRecord bars) {
    this.places = places;
    this.bars = bars;
  }

  /** What the reader has to know of a song. */
  public NoteContext context(Song song, Bounce bounce) {
    return new NoteContext(
        places.sectionsOn(song, bounce).stream()
            .map(s -> new NamedSpan(s.name(), s.from(), s.to()))
            .toList(),
        bars.on(song, bounce),
        Stem.elementsOf(song));
  }

  /** Reads a note. */
  Drawn read(String text, NoteContext context) {
    return drawn(NoteReader.read(text, context));
  }

  /** Reads a note with what its author answered. */
  Drawn readAgain(String text, NoteContext context, List<NoteAnswer> answers) {
    return drawn(NoteReader.readAgain(text, context, answers));
  }

  private static Drawn drawn(Reading reading) {
    return new Drawn(
        reading.changes().stream()
            .map(c -> new ReadChange(asked(c), c.question().map(Ask::of)))
            .toList(),
        reading.keeps().stream().map(k -> new ReadKeep(k.element(), k.where(), k.text())).toList());
  }

  private static Change.Asked asked(RequestedChange change) {
    return new Change.Asked(
        change.element(),
        change.aspect(),
        change.direction(),
        amount(change),
        change.where(),
        change.text(),
        change.start(),
        change.end());
  }

  private static Optional<Amount> amount(RequestedChange change) {
    return change.amount().flatMap(amount -> AmountBounds.read(amount, WireJson.WORD_CHARS));
  }

  /**
   * A reading as the writer sent it, checked against the vocabulary and the song.
   *
   * @param body {@code {changes, keeps}} of the API
   */
  Drawn corrected(JsonNode body, String text, Song song, Bounce bounce) {
    List<ReadChange> changes = new ArrayList<>();
    List<ReadKeep> keeps = new ArrayList<>();
    SongPlaces there = SongPlaces.of(song, bounce);
    Drawn own = read(text, context(song, bounce));
    for (JsonNode node : items(body, "changes")) {
      Change.Asked asked = asked(node, text);
      asked = asked.at(place(asked.where(), there, own));
      Optional<Ask> question = Optional.empty();
      if (node.path("question").isTextual()) {
        question = Optional.of(question(line(node, "question", TEXT_CHARS), asked, own));
      }
      changes.add(new ReadChange(asked, question));
    }
    for (JsonNode node : items(body, "keeps")) {
      String element = line(node, "element", ELEMENT_CHARS).toLowerCase(Locale.ROOT);
      String words = node.path("text").isTextual() ? words(node) : text;
      keeps.add(new ReadKeep(element, place(WireJson.where(node.get("where")), there, own), words));
    }
    return new Drawn(changes, keeps);
  }

  /** A place the song has, or one that the note itself names. */
  private static Where place(Where sent, SongPlaces there, Drawn own) {
    Where where = there.named(sent);
    boolean read =
        Stream.concat(
                own.changes().stream().map(c -> c.asked().where()),
                own.keeps().stream().map(ReadKeep::where))
            .anyMatch(known -> SongPlaces.same(there.named(known), where));
    Optional<ProblemException> complaint = there.complaint(where);
    if (complaint.isPresent() && !read) {
      throw complaint.get();
    }
    return where;
  }

  /** The question the writer left standing, with the choices the reader knows for it. */
  private static Ask question(String words, Change.Asked asked, Drawn own) {
    return own.changes().stream()
        .flatMap(c -> c.question().stream())
        .filter(q -> q.text().equals(words))
        .findFirst()
        .orElse(new Ask(words, List.of(), false));
  }

  private static List<JsonNode> items(JsonNode body, String field) {
    JsonNode node = body.path(field);
    if (node.isMissingNode() || node.isNull()) {
      return List.of();
    }
    if (!node.isArray() || node.size() > MOST_ITEMS) {
      throw WireJson.invalid(field, "“" + field + "” is a list of at most " + MOST_ITEMS + ".");
    }
    List<JsonNode> items = new ArrayList<>();
    node.forEach(items::add);
    return items;
  }

  /** What one change of a sent reading says. */
  private static Change.Asked asked(JsonNode node, String note) {
    String words = node.path("text").isTextual() ? words(node) : note;
    int start = Math.max(0, note.indexOf(words));
    return checked(
        new Change.Asked(
            line(node, "element", ELEMENT_CHARS),
            line(node, "aspect", ELEMENT_CHARS),
            line(node, "direction", ELEMENT_CHARS),
            amount(node.get("amount")),
            WireJson.where(node.get("where")),
            words,
            start,
            Math.min(note.length(), start + words.length())));
  }

  /** An amount within its bounds, or the problem {@code invalid}; empty when there is none. */
  static Optional<Amount> amount(JsonNode node) {
    Optional<Amount> amount = WireJson.amount(node);
    Optional<String> complaint = amount.flatMap(AmountBounds::complaint);
    if (complaint.isPresent()) {
      throw WireJson.invalid("amount", complaint.get());
    }
    return amount.map(AmountBounds::kept);
  }

  /** A change of the vocabulary, or the problem {@code invalid}. */
  static Change.Asked checked(Change.Asked asked) {
    if (!Vocabulary.aspects().contains(asked.aspect())) {
      throw WireJson.invalid(
          "aspect",
          "“" + asked.aspect() + "” is none of: " + String.join(", ", Vocabulary.aspects()) + ".");
    }
    if (!Vocabulary.knows(asked.aspect(), asked.direction())) {
      throw WireJson.invalid(
          "direction",
          "For "
              + asked.aspect()
              + " the direction is one of: "
              + String.join(", ", Vocabulary.directions(asked.aspect()))
              + ".");
    }
    return new Change.Asked(
        Texts.line("element", asked.element(), ELEMENT_CHARS).toLowerCase(Locale.ROOT),
        asked.aspect(),
        asked.direction(),
        asked.amount(),
        asked.where(),
        asked.text(),
        asked.start(),
        asked.end());
  }

  private static String words(JsonNode node) {
    String words = node.get("text").textValue();
    Texts.checkStorable(words);
    if (words.length() > Note.MOST_BYTES) {
      throw WireJson.invalid("text", "The words of one change cannot be longer than a note.");
    }
    return words;
  }

  private static String line(JsonNode node, String field, int most) {
    return Texts.line(field, node.path(field).isTextual() ? node.get(field).textValue() : "", most);
  }

  /** How a text is read, in the form of the API; stores nothing. */
  public Map<String, Object> reading(String text, NoteContext context) {
    Reading reading = NoteReader.read(Note.checked(text), context);
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("changes", reading.changes().stream().map(Readings::wire).toList());
    answer.put(
        "keeps",
        reading.keeps().stream()
            .map(k -> Map.of("element", k.element(), "where", k.where().wire(), "text", k.text()))
            .toList());
    answer.put("remarks", reading.remarks().stream().map(r -> r.text()).toList());
    return answer;
  }

  private static Map<String, Object> wire(RequestedChange change) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("element", change.element());
    map.put("aspect", change.aspect());
    map.put("direction", change.direction());
    map.put("amount", amount(change).map(Amount::wire).orElse(null));
    map.put("where", change.where().wire());
    map.put("question", change.question().map(NoteQuestion::text).orElse(null));
    map.put("choices", change.question().map(NoteQuestion::choices).orElse(List.of()));
    map.put("text", change.text());
    return map;
  }

  /** Sections somebody sent, as the reader takes them. */
  public static List<NamedSpan> spans(List<Section> sections) {
    List<NamedSpan> spans = new ArrayList<>();
    for (Section section : sections == null ? List.<Section>of() : sections) {
      try {
        spans.add(
            new NamedSpan(Texts.line("name", section.name(), 60), section.from(), section.to()));
      } catch (IllegalArgumentException e) {
        throw WireJson.invalid("sections", "A section has to end after it begins.");
      }
    }
    return spans;
  }
}

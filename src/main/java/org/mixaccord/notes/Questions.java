package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** Words the questions that go back to the author. */
final class Questions {
  private static final int MOST_CHOICES = 4;
  private static final List<String> VOICES = List.of("lead vocal", "vocals", "backing vocals");

  private Questions() {}

  static NoteQuestion place(String said, NoteContext context) {
    List<String> choices = new ArrayList<>();
    for (String section : likely(said, context)) {
      if (choices.size() < MOST_CHOICES - 1) {
        choices.add("in " + section);
      }
    }
    if (choices.isEmpty()) {
      choices.add("at the beginning");
      choices.add("at the end");
    }
    choices.add("the whole song");
    String text =
        said.isBlank()
            ? "Where in the song do you mean?"
            : "Where in the song is “" + said.strip() + "”?";
    return new NoteQuestion(text, choices, NoteQuestion.About.PLACE);
  }

  /**
   * Sections of the kind that was named, the last first since numbers run too high; then others.
   */
  private static List<String> likely(String said, NoteContext context) {
    SectionNames names = new SectionNames(context.sections());
    Set<String> likely = new LinkedHashSet<>();
    Optional<SectionNames.Named> named = SectionNames.kindOf(said);
    int space = said.indexOf(' ');
    if (named.isEmpty() && space > 0) {
      // "second bridge"
      named = SectionNames.kindOf(said.substring(space + 1));
    }
    if (named.isPresent()) {
      List<Integer> same = new ArrayList<>(names.ofKind(named.get().kind()));
      Collections.reverse(same);
      same.forEach(s -> likely.add(names.get(s).name()));
    }
    for (NamedSpan section : context.sections()) {
      if (!isEdge(section.name())) {
        likely.add(section.name());
      }
    }
    return List.copyOf(likely);
  }

  private static boolean isEdge(String section) {
    String name = section.toLowerCase(Locale.ROOT);
    return name.startsWith("intro") || name.startsWith("outro");
  }

  static NoteQuestion wish(String element) {
    String part = Wording.part(element);
    List<String> choices =
        VOICES.contains(element)
            ? List.of("louder", "quieter", "less harsh", "leave it as it is")
            : element.equals(Vocabulary.MIX)
                ? List.of("brighter", "warmer", "more energy", "leave it as it is")
                : List.of("louder", "quieter", "punchier", "leave it as it is");
    return new NoteQuestion(
        "What should happen with " + part + "?", choices, NoteQuestion.About.WISH);
  }

  /** The parts the song is known to have are the likely answers. */
  static NoteQuestion part(NoteContext context) {
    List<String> choices = new ArrayList<>();
    for (String element : context.elements()) {
      if (choices.size() < MOST_CHOICES - 1 && !element.equals(Vocabulary.MIX)) {
        choices.add(Wording.part(element));
      }
    }
    if (choices.isEmpty()) {
      choices.addAll(List.of("the vocals", "the guitars", "the drums"));
    }
    choices.add(Wording.part(Vocabulary.MIX));
    return new NoteQuestion("Which part do you mean?", choices, NoteQuestion.About.PART);
  }

  static NoteQuestion contradiction(String element, String one, String other) {
    return new NoteQuestion(
        "You ask for two opposite things for " + Wording.part(element) + ". Which one?",
        List.of(one, other, "leave it as it is"),
        NoteQuestion.About.CONTRADICTION);
  }

  static NoteQuestion changeOrKeep(String element, String change) {
    return new NoteQuestion(
        "You ask to change " + Wording.part(element) + " and to leave it. Which one?",
        List.of(change, "leave it as it is"),
        NoteQuestion.About.CONTRADICTION);
  }
}

package org.mixaccord.demo;

import java.util.List;
import java.util.Optional;
import org.mixaccord.demo.music.DemoSong;
import org.mixaccord.demo.music.DemoSongs;

/**
 * The story the demo tells: two invented projects, their people, what was sent, what was said about
 * it. Plain data; every name is invented.
 *
 * @param project title of the project
 * @param song its song
 * @param people everybody in the project, the engineer first
 * @param sendings one for each mix that is sent, in order
 * @param notes in the order they were written
 */
public record DemoScript(
    String project,
    DemoSong song,
    List<Person> people,
    List<Sending> sendings,
    List<ScriptedNote> notes) {

  /** What somebody is in a project. */
  public enum Role {
    ENGINEER,
    ARTIST,
    MANAGER
  }

  /**
   * Somebody in the project.
   *
   * @param key short name used by the notes
   * @param name as shown
   * @param address mail address in a domain reserved for examples
   * @param role role in the project
   * @param part what they play or do, in words
   * @param approver whether the song needs their approval
   */
  public record Person(
      String key, String name, String address, Role role, String part, boolean approver) {}

  /**
   * A mix as it is sent.
   *
   * @param mix number of the mix
   * @param line the engineer's one line on what was done
   */
  public record Sending(int mix, String line) {}

  /** Why a note is in the story. */
  public enum Kind {
    ASKS,
    UNCLEAR,
    CONTRADICTS,
    PRAISE
  }

  /**
   * Something somebody wrote.
   *
   * @param author key of the person
   * @param mix number of the mix it is about
   * @param text in their own words
   * @param atSeconds place on that mix's time line; empty for the whole song
   * @param kind why it is in the story
   */
  public record ScriptedNote(
      String author, int mix, String text, Optional<Double> atSeconds, Kind kind) {}

  public DemoScript {
    people = List.copyOf(people);
    sendings = List.copyOf(sendings);
    notes = List.copyOf(notes);
  }

  /** A band's song with three mixes: asked, overdone, put right. */
  public static DemoScript first() {
    DemoSong song = DemoSongs.first();
    return new DemoScript(
        song.release(),
        song,
        List.of(
            new Person(
                "engineer", "Tove Arkwell", "tove@example.org", Role.ENGINEER, "mixes", false),
            new Person(
                "singer", "Lio Fennimar", "lio@example.org", Role.ARTIST, "sings, writes", true),
            new Person("drummer", "Bas Okombe", "bas@example.org", Role.ARTIST, "drums", false),
            new Person(
                "manager", "Petra Lindqvale", "petra@example.org", Role.MANAGER, "manages", true)),
        List.of(
            new Sending(
                1, "First full mix. Balance first, nothing on the master but a little gain."),
            new Sending(
                2,
                "Lead up 1 dB in all choruses, backing vocals down in the pre-choruses,"
                    + " drums bigger in the last chorus, head trimmed."),
            new Sending(
                3,
                "Backing vocals halfway back in the pre-choruses, strings back in the bridge,"
                    + " the old start again, last chorus under −1 dBTP.")),
        List.of(
            note(
                song,
                "singer",
                1,
                "Lead vocal up 1 dB in the choruses please, I sink into the guitars there",
                "Chorus 1",
                Kind.ASKS),
            note(
                song,
                "singer",
                1,
                "backing vocals down a bit in the pre-choruses, they crowd the words",
                "Pre-Chorus 1",
                Kind.ASKS),
            note(
                song,
                "singer",
                1,
                "Please leave the bridge as it is, that is how I always heard it",
                "Bridge",
                Kind.ASKS),
            note(
                song,
                "drummer",
                1,
                "Drums up a touch in the last chorus, it has to land",
                "Chorus 3",
                Kind.CONTRADICTS),
            note(
                song,
                "manager",
                1,
                "drums down a little in the last chorus, on my phone they cover the song",
                "Chorus 3",
                Kind.CONTRADICTS),
            whole("drummer", 1, "can you fix the thing at the end?", Kind.UNCLEAR),
            whole(
                "manager",
                1,
                "Heard it twice on the way home. When the strings come in I got goosebumps.",
                Kind.PRAISE),
            note(
                song,
                "singer",
                2,
                "Too much now! Backing vocals up about 2 dB in the pre-choruses",
                "Pre-Chorus 1",
                Kind.ASKS),
            note(
                song,
                "singer",
                2,
                "where did the strings go in the bridge? bring the strings back in",
                "Bridge",
                Kind.ASKS),
            whole("drummer", 2, "Last chorus is huge. Love it.", Kind.PRAISE)));
  }

  /** A second artist's shorter song, so that there is more than one row on the board. */
  public static DemoScript second() {
    DemoSong song = DemoSongs.second();
    return new DemoScript(
        song.release(),
        song,
        List.of(
            new Person(
                "engineer", "Tove Arkwell", "tove@example.org", Role.ENGINEER, "mixes", false),
            new Person(
                "artist", "Ansel Kubrin", "ansel@example.org", Role.ARTIST, "makes it all", true),
            new Person(
                "manager", "Petra Lindqvale", "petra@example.org", Role.MANAGER, "manages", false)),
        List.of(
            new Sending(1, "Straight from the session, levels only."),
            new Sending(2, "Bass up 1.5 dB in both drops.")),
        List.of(
            note(song, "artist", 1, "bass up 1.5 in both drops", "Drop 1", Kind.ASKS),
            whole("manager", 1, "This is the one for the night playlist.", Kind.PRAISE)));
  }

  private static ScriptedNote note(
      DemoSong song, String author, int mix, String text, String section, Kind kind) {
    double at =
        song.sections(mix).stream()
            .filter(one -> one.name().equals(section))
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("no section " + section))
            .fromSeconds();
    // People write a bar or so into the passage they mean.
    return new ScriptedNote(author, mix, text, Optional.of(at + 4), kind);
  }

  private static ScriptedNote whole(String author, int mix, String text, Kind kind) {
    return new ScriptedNote(author, mix, text, Optional.empty(), kind);
  }
}

package org.mixaccord.demo.music;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.mixaccord.demo.music.Form.Passage;
import org.mixaccord.demo.music.MixPlan.Move;

/** The first demo song: a mid-tempo band song in D, 100 beats a minute. */
final class FirstSong implements Arrangement {
  private static final int HEAD = 48_000;
  private static final int BAR = 115_200;
  private static final long RING_OUT = 168_000;
  private static final String VERSE = "Dmaj7 A/C# Bm7 Gmaj7 Dmaj7 F#m7 Gmaj7 A7sus4";
  private static final String PRE = "Em7 F#m7 Gmaj7 Asus4";
  private static final String CHORUS = "Gmaj7 A F#m7 Bm7 Em7 A7sus4 Dadd9 D/F#";
  private static final String BRIDGE = "Bm F#m7/A Gmaj7 D/F# Em9 Bm7 Cmaj7#11 A7sus4";
  private static final String[] CHORUSES = {"Chorus 1", "Chorus 2", "Chorus 3"};

  private static final Melody VERSE_MELODY =
      new Melody(
          "r/2 F#4/2 A4/2 A4/3 B4/1 A4/4 F#4/2 | E4/3 F#4/1 E4/4 C#4/4 r/4"
              + "| r/2 D4/2 F#4/2 F#4/3 A4/1 F#4/4 E4/2 | D4/6 B3/2 D4/5 r/3"
              + "| r/2 F#4/2 A4/2 A4/3 B4/1 D5/4 A4/2 | C#5/3 B4/1 A4/4 F#4/4 r/4"
              + "| r/2 G4/2 B4/2 B4/3 A4/1 G4/4 F#4/2 | E4/6 D4/2 E4/4 r/4");
  private static final Melody PRE_MELODY =
      new Melody(
          "G4/4 F#4/2 E4/2 G4/5 r/3 | A4/4 F#4/2 E4/2 A4/5 r/3"
              + "| B4/4 A4/2 G4/2 B4/4 D5/4 | D5/8 E5/4 r/4");
  private static final Melody CHORUS_MELODY =
      new Melody(
          "D5/6 B4/2 D5/4 E5/4 | C#5/6 A4/6 r/2 A4/2 | A4/4 C#5/4 E5/4 C#5/4 | D5/6 B4/2 F#4/4 r/4"
              + "| G4/4 B4/4 D5/4 B4/4 | E5/6 D5/2 D5/4 B4/2 A4/2 | A4/10 r/2 F#4/2 A4/2"
              + "| B4/3 A4/1 F#4/8 r/4");
  private static final Melody LAST_CHORUS_MELODY =
      new Melody(
          "D5/6 B4/2 D5/4 E5/4 | C#5/6 A4/6 r/2 A4/2 | A4/4 C#5/4 E5/4 C#5/4 | D5/6 E5/2 F#5/4 r/4"
              + "| G4/4 B4/4 D5/4 B4/4 | E5/6 D5/2 E5/4 D5/2 B4/2 | A4/10 r/2 F#4/2 A4/2"
              + "| D5/3 B4/1 A4/8 r/4");
  private static final Melody BRIDGE_MELODY =
      new Melody(
          "r/4 F#4/4 B4/8 | A4/11 r/5 | r/4 D4/4 B4/6 A4/2 | F#4/11 r/5"
              + "| r/4 G4/4 B4/4 D5/4 | D5/6 C#5/2 B4/7 r/1 | E5/8 D5/4 B4/4 | D5/8 E5/6 r/2");
  private static final Melody OUTRO_MELODY =
      new Melody("A4/11 r/5 | E4/11 r/5 | B4/6 A4/2 F#4/7 r/1 | D4/15 r/1");
  private static final String[] VERSE_WORDS =
      "na lo me ra li no sha fo me no da lo mi sa ro le ya na do me wo li".split(" ");
  private static final String[] CHORUS_WORDS = "ma lo wa yo na re mo la sho na lo we".split(" ");
  private static final String[] SOFT_WORDS = "mo lu na wo lo nu".split(" ");

  private static final Form FORM =
      new Form(HEAD, BAR, 0.14)
          .then("Intro", "intro", "Dmaj7 A/C# Bm7 Gmaj7")
          .then("Verse 1", "verse", VERSE)
          .then("Pre-Chorus 1", "pre", PRE)
          .then("Chorus 1", "chorus", CHORUS)
          .then("Verse 2", "verse", VERSE)
          .then("Pre-Chorus 2", "pre", PRE)
          .then("Chorus 2", "chorus", CHORUS)
          .then("Bridge", "bridge", BRIDGE)
          .then("Chorus 3", "chorus", CHORUS)
          .then("Outro", "outro", "Dmaj7 A/C# Gmaj7 Dadd9");

  @Override
  public Form form() {
    return FORM;
  }

  @Override
  public long frames() {
    return FORM.frame(FORM.bars(), 0) + RING_OUT;
  }

  @Override
  public Map<String, Double> balanceDb() {
    Map<String, Double> balance = new LinkedHashMap<>();
    balance.put("drums", -4.5);
    balance.put("bass", -9.0);
    balance.put("keys", -6.5);
    balance.put("guitars", -3.5);
    balance.put("lead vocal", -7.5);
    balance.put("backing vocals", -8.5);
    balance.put("strings", -10.5);
    return Collections.unmodifiableMap(balance);
  }

  @Override
  public Track track(String part) {
    return switch (part) {
      case "drums" -> new FirstRhythm(FORM).drums();
      case "bass" -> new FirstRhythm(FORM).bass();
      case "keys" -> new FirstHarmony(FORM).keys();
      case "guitars" -> new FirstHarmony(FORM).guitars();
      case "lead vocal" -> lead();
      case "backing vocals" -> new FirstHarmony(FORM).backingVocals();
      case "strings" -> new FirstHarmony(FORM).strings();
      default -> throw new IllegalArgumentException("no such part: " + part);
    };
  }

  private static Track lead() {
    Track track =
        new Track(
            Filter.highPass(130, 0.7),
            Filter.bell(3100, 0.8, 2),
            new Echo(0.45, -19, 0.3),
            new Reverb(1.6, 1.8, 0.35, 0.03, -14));
    Dice dice = new Dice(71);
    for (Passage passage : FORM.passages()) {
      int bar = passage.firstBar();
      switch (passage.kind()) {
        case "verse" -> VERSE_MELODY.sing(FORM, track, bar, VERSE_WORDS, 0.7, 0, 0, dice);
        case "pre" -> PRE_MELODY.sing(FORM, track, bar, SOFT_WORDS, 0.76, 0, 0, dice);
        case "chorus" -> {
          Melody melody = passage.number() == 3 ? LAST_CHORUS_MELODY : CHORUS_MELODY;
          melody.sing(FORM, track, bar, CHORUS_WORDS, 0.8 + 0.03 * passage.number(), 0, 0, dice);
          melody.sing(FORM, track, bar, CHORUS_WORDS, 0.26, -0.6, -7, dice);
          melody.sing(FORM, track, bar, CHORUS_WORDS, 0.26, 0.6, 8, dice);
        }
        case "bridge" -> BRIDGE_MELODY.sing(FORM, track, bar, VERSE_WORDS, 0.64, 0, 0, dice);
        case "outro" -> OUTRO_MELODY.sing(FORM, track, bar, SOFT_WORDS, 0.5, 0, 0, dice);
        default -> {
          // The singer waits for the first verse.
        }
      }
    }
    return track;
  }

  @Override
  public List<MixPlan> mixes() {
    return List.of(
        new MixPlan(1, 0, List.of()),
        new MixPlan(
            2,
            24_000,
            List.of(
                Move.of("lead vocal", 1.0, CHORUSES),
                Move.of("backing vocals", -3.4, "Pre-Chorus 1", "Pre-Chorus 2"),
                Move.of("drums", 3.2, "Chorus 3"),
                Move.of("strings", MixPlan.OUT, "Bridge"))),
        new MixPlan(
            3,
            0,
            List.of(
                Move.of("lead vocal", 1.0, CHORUSES),
                Move.of("backing vocals", -1.2, "Pre-Chorus 1", "Pre-Chorus 2"),
                Move.of("drums", 0.9, "Chorus 3"))));
  }
}

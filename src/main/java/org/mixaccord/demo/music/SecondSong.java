package org.mixaccord.demo.music;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.mixaccord.demo.music.DrumKit.Stroke;
import org.mixaccord.demo.music.Form.Passage;
import org.mixaccord.demo.music.MixPlan.Move;

/** The second demo song: a short electronic piece in A minor, 120 beats a minute. */
final class SecondSong implements Arrangement {
  private static final int HEAD = 12_000;
  private static final int BAR = 96_000;
  private static final long RING_OUT = 144_000;
  private static final String TURN = "Am7 Fmaj7 Cmaj7 G6 Am7 Fmaj7 Dm9 Em7";
  private static final String HALF = "Dm9 Em7 Fmaj7 G6";
  private static final int[] START = {57, 60, 64, 67};
  private static final int[] WANDER = {0, 2, 3, 1, 2, 0, 3, 2};
  private static final String[] CHOPS = "ya o we a lo".split(" ");
  private static final Melody HOOK =
      new Melody(
          "A4/2 r/2 C5/2 E5/2 r/2 D5/2 C5/2 r/2 | A4/3 G4/3 A4/2 r/8"
              + "| G4/2 r/2 G4/2 E5/2 r/2 D5/2 C5/2 r/2 | B4/3 D5/3 B4/2 r/8"
              + "| A4/2 r/2 C5/2 E5/2 r/2 D5/2 C5/2 r/2 | A4/3 C5/3 A4/2 r/8"
              + "| F4/2 r/2 A4/2 C5/2 r/2 E5/2 D5/2 r/2 | B4/6 r/2 G4/6 r/2");
  private static final Melody CALL =
      new Melody("r/8 E5/8 | D5/6 C5/2 A4/6 r/2 | r/8 G4/4 B4/4 | D5/10 r/6");

  private static final Form FORM =
      new Form(HEAD, BAR, 0.08)
          .then("Intro", "intro", HALF)
          .then("Verse 1", "verse", TURN)
          .then("Build 1", "build", HALF)
          .then("Drop 1", "drop", TURN)
          .then("Breakdown", "break", TURN)
          .then("Build 2", "build", HALF)
          .then("Drop 2", "drop", TURN)
          .then("Outro", "outro", HALF);

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
    balance.put("synth", -3.0);
    balance.put("pad", -10.0);
    balance.put("lead vocal", -8.0);
    return Collections.unmodifiableMap(balance);
  }

  @Override
  public Track track(String part) {
    return switch (part) {
      case "drums" -> drums();
      case "bass" -> bass();
      case "synth" -> synth();
      case "pad" -> pad();
      case "lead vocal" -> voice();
      default -> throw new IllegalArgumentException("no such part: " + part);
    };
  }

  @Override
  public List<MixPlan> mixes() {
    return List.of(
        new MixPlan(1, 0, List.of()),
        new MixPlan(2, 0, List.of(Move.of("bass", 1.5, "Drop 1", "Drop 2"))));
  }

  private static Track drums() {
    Track track =
        new Track(
            Filter.bell(350, 0.8, -2),
            new Warmth(4),
            Filter.highPass(28, 0.7),
            new Reverb(0.5, 0.4, 0.4, 0.003, -20));
    Drummer drummer = new Drummer(FORM, new DrumKit(111), track, new Dice(112));
    for (Passage passage : FORM.passages()) {
      for (int i = 0; i < passage.bars(); i++) {
        drumBar(drummer, passage, passage.firstBar() + i, i);
      }
    }
    return track;
  }

  private static void drumBar(Drummer drummer, Passage passage, int bar, int i) {
    boolean last = i == passage.bars() - 1;
    switch (passage.kind()) {
      case "intro" -> drummer.bar(bar, Stroke.HAT, "..5...5...5...53", 0.5 + 0.08 * i);
      case "verse" -> {
        drummer.bar(bar, Stroke.KICK, "8.....5...8....4", 0.85);
        drummer.bar(bar, Stroke.RIM, last ? "....7..5..7.6.45" : "....7.......7...", 0.85);
        drummer.bar(bar, Stroke.HAT, "5.3.6.345.3.6.3.", 0.75);
      }
      case "build" -> {
        drummer.bar(bar, Stroke.KICK, last ? "8...8..." : "8...8...8...8...", 0.85);
        String roll = i < 2 ? "....5.......5..." : last ? "4444555566667788" : "4.4.4.4.5.5.5.5.";
        drummer.bar(bar, Stroke.CLAP, roll, 0.6 + 0.06 * i);
      }
      case "drop" -> {
        if (i == 0) {
          drummer.stroke(bar, 0, Stroke.CRASH, 0.9);
        }
        drummer.bar(bar, Stroke.KICK, last ? "9...9...9.....7." : "9...9...9...9...", 0.95);
        drummer.bar(bar, Stroke.CLAP, last ? "....8.......8.68" : "....8.......8...", 0.9);
        drummer.bar(bar, Stroke.OPEN_HAT, "..7...7...7...7.", 0.8);
        drummer.bar(bar, Stroke.SHAKER, "5353535353535353", 0.8);
      }
      case "break" -> {
        drummer.bar(bar, Stroke.SHAKER, "4.2.4.2.4.2.4.3.", 0.7);
        if (i >= 4) {
          drummer.bar(bar, Stroke.KICK, "7.........5.....", 0.7);
        }
      }
      default -> {
        drummer.bar(
            bar, Stroke.KICK, last ? "6..............." : "7.....4...6.....", 0.8 - 0.1 * i);
        drummer.bar(bar, Stroke.HAT, last ? "" : "5.3.5.3.5.3.5.3.", 0.7 - 0.12 * i);
      }
    }
  }

  private static Track bass() {
    Track track = new Track(new Warmth(5), Filter.highPass(32, 0.7), Filter.bell(700, 0.8, 3));
    Dice dice = new Dice(121);
    for (Passage passage : FORM.passages()) {
      String line =
          switch (passage.kind()) {
            case "verse" -> "7.....5...6.....";
            case "drop" -> "..76..76..76..75";
            case "build" -> "6.......6.......";
            case "break", "outro" -> "6...............";
            default -> "";
          };
      for (int i = 0; i < passage.bars(); i++) {
        int key = passage.chords()[i].bassFrom(31);
        for (int step = 0; step < line.length(); step++) {
          if (line.charAt(step) == '.') {
            continue;
          }
          double length = passage.kind().equals("drop") ? 1.1 : line.length() == 16 ? 4.5 : 2;
          double strength = (line.charAt(step) - '0') / 9.0 * (1 + 0.03 * dice.sway());
          long at = FORM.frame(passage.firstBar() + i, step);
          double seconds = FORM.seconds(line.startsWith("6....") ? 14 : length);
          track.play(at, () -> new Bass(key, seconds, strength, 1500));
        }
      }
    }
    return track;
  }

  private interface ChordPlayer {
    void play(String kind, int bar, int i, int[] keys);
  }

  private static void everyBar(int lowest, int highest, ChordPlayer player) {
    int[] keys = START;
    for (Passage passage : FORM.passages()) {
      for (int i = 0; i < passage.bars(); i++) {
        keys = passage.chords()[i].voicedAfter(keys, lowest, highest);
        player.play(passage.kind(), passage.firstBar() + i, i, keys);
      }
    }
  }

  private static Track synth() {
    Track track =
        new Track(
            Filter.highPass(180, 0.7),
            Filter.highShelf(6000, -2),
            new Echo(0.375, -11, 0.45),
            new Reverb(1.5, 1.8, 0.4, 0.01, -13));
    Dice dice = new Dice(131);
    everyBar(
        60,
        82,
        (kind, bar, i, keys) -> {
          int every = kind.equals("drop") ? 1 : kind.equals("break") ? 4 : 2;
          double strength =
              switch (kind) {
                case "drop" -> 0.62;
                case "build" -> 0.5 + 0.06 * i;
                case "outro" -> 0.6 - 0.1 * i;
                default -> 0.58;
              };
          for (int step = 0, n = 0; step < 16; step += every, n++) {
            int key = keys[WANDER[n % WANDER.length]] + (n % 5 == 4 ? 12 : 0);
            double real = strength * (step % 4 == 0 ? 1.1 : 0.92) * (1 + 0.05 * dice.sway());
            double pan = 0.6 * Waves.sine(n / 7.0);
            long seed = dice.seed();
            long at = FORM.frame(bar, step);
            double seconds = FORM.seconds(every * 1.2);
            track.play(at, () -> new Pluck(key, seconds, real, pan, 0.7, new Dice(seed)));
            track.play(at, () -> new Tine(key, seconds, 0.5 * real, -pan));
          }
        });
    return track;
  }

  private static Track pad() {
    Track track =
        new Track(
            Filter.highPass(170, 0.7),
            Filter.highShelf(5000, -3),
            new Reverb(2.4, 3, 0.4, 0.02, -7));
    Dice dice = new Dice(141);
    everyBar(
        55,
        76,
        (kind, bar, i, keys) -> {
          boolean pumping = kind.equals("drop");
          for (int beat = 0; beat < (pumping ? 4 : 1); beat++) {
            for (int v = 0; v < keys.length; v++) {
              int key = keys[v];
              double pan = -0.7 + 0.46 * v;
              long seed = dice.seed();
              long at = FORM.frame(bar, pumping ? 4 * beat + 1 : 0);
              double seconds = FORM.seconds(pumping ? 2.7 : 15.5);
              double strength = pumping ? 0.66 : kind.equals("build") ? 0.5 + 0.06 * i : 0.55;
              double rise = pumping ? 0.1 : 0.5;
              track.play(at, () -> new Strings(key, seconds, strength, pan, rise, new Dice(seed)));
            }
          }
        });
    return track;
  }

  private static Track voice() {
    Track track =
        new Track(
            Filter.highPass(150, 0.7),
            Filter.bell(3000, 0.8, 2),
            new Echo(0.375, -13, 0.4),
            new Reverb(1.8, 2, 0.35, 0.02, -11));
    Dice dice = new Dice(151);
    for (Passage passage : FORM.passages()) {
      int bar = passage.firstBar();
      switch (passage.kind()) {
        case "drop" -> HOOK.sing(FORM, track, bar, CHOPS, 0.84, 0, 0, dice);
        case "verse", "break" -> {
          CALL.sing(FORM, track, bar, CHOPS, 0.62, 0, 0, dice);
          CALL.sing(FORM, track, bar + 4, CHOPS, 0.66, 0, 0, dice);
        }
        default -> {
          // The voice leaves the rest to the instruments.
        }
      }
    }
    return track;
  }
}

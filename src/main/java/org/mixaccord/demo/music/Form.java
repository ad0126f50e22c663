package org.mixaccord.demo.music;

import java.util.ArrayList;
import java.util.List;

/** The form of a song on its grid of bars: which passage begins where, over which chords. */
final class Form {
  /**
   * A passage of whole bars.
   *
   * @param name as shown to people, such as "Chorus 2"
   * @param kind what is played, such as "chorus"
   * @param firstBar counted from 0
   * @param chords one a bar
   */
  record Passage(String name, String kind, int firstBar, Chord[] chords) {
    int bars() {
      return chords.length;
    }

    int number() {
      char last = name.charAt(name.length() - 1);
      return Character.isDigit(last) ? last - '0' : 1;
    }
  }

  private final List<Passage> passages = new ArrayList<>();
  private final int headFrames;
  private final int barFrames;
  private final double swing;
  private int bars;

  /**
   * An empty form in 4/4.
   *
   * @param headFrames frames before the first bar
   * @param barFrames length of a bar; a multiple of 16
   * @param swing how late every second sixteenth comes, in sixteenths
   */
  Form(int headFrames, int barFrames, double swing) {
    this.headFrames = headFrames;
    this.barFrames = barFrames;
    this.swing = swing;
  }

  Form then(String name, String kind, String chords) {
    Passage passage = new Passage(name, kind, bars, Chord.line(chords));
    passages.add(passage);
    bars += passage.bars();
    return this;
  }

  List<Passage> passages() {
    return List.copyOf(passages);
  }

  int bars() {
    return bars;
  }

  int headFrames() {
    return headFrames;
  }

  int barFrames() {
    return barFrames;
  }

  /** The frame of a sixteenth (0 … 15, fractions allowed) of a bar. */
  long frame(int bar, double sixteenth) {
    double late = sixteenth % 2 == 1 ? swing : 0;
    return headFrames + (long) bar * barFrames + Math.round((sixteenth + late) * barFrames / 16);
  }

  /** Length of so many sixteenths in seconds. */
  double seconds(double sixteenths) {
    return sixteenths * barFrames / 16 / Waves.RATE;
  }

  /** The sections with their times: the first includes the head, the last the ring-out. */
  List<DemoSection> sections(long songFrames) {
    List<DemoSection> sections = new ArrayList<>();
    for (int i = 0; i < passages.size(); i++) {
      Passage passage = passages.get(i);
      long from = i == 0 ? 0 : frame(passage.firstBar(), 0);
      long to =
          i == passages.size() - 1 ? songFrames : frame(passage.firstBar() + passage.bars(), 0);
      sections.add(new DemoSection(passage.name(), from, to));
    }
    return sections;
  }
}

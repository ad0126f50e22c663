package org.mixaccord.demo.music;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** An invented song that the demo composes and synthesizes itself, with its mixes and stems. */
public final class DemoSong {
  private final String artist;
  private final String release;
  private final String title;
  private final double tempoBpm;
  private final Arrangement arrangement;

  DemoSong(String artist, String release, String title, double tempoBpm, Arrangement arrangement) {
    this.artist = artist;
    this.release = release;
    this.title = title;
    this.tempoBpm = tempoBpm;
    this.arrangement = arrangement;
  }

  /** The invented artist. */
  public String artist() {
    return artist;
  }

  /** The invented release it belongs to. */
  public String release() {
    return release;
  }

  /** The title. */
  public String title() {
    return title;
  }

  /** Quarter notes per minute, the same all through. */
  public double tempoBpm() {
    return tempoBpm;
  }

  /** Beats in a bar. */
  public int beatsPerBar() {
    return 4;
  }

  /** Start of the first bar in the first mix, in seconds. */
  public double firstBarSeconds() {
    return arrangement.form().headFrames() / Waves.RATE;
  }

  /** Frames per second of everything rendered. */
  public int sampleRate() {
    return (int) Waves.RATE;
  }

  /** Length of the first mix in frames. */
  public long frames() {
    return arrangement.frames();
  }

  /** The sections on the time line of the first mix, without gaps from its start to its end. */
  public List<DemoSection> sections() {
    return arrangement.form().sections(frames());
  }

  /** The sections on the time line of mix {@code n}, whose head may be shorter. */
  public List<DemoSection> sections(int n) {
    long cut = plan(n).headCutFrames();
    List<DemoSection> moved = new ArrayList<>();
    for (DemoSection section : sections()) {
      moved.add(
          new DemoSection(
              section.name(), Math.max(0, section.fromFrame() - cut), section.toFrame() - cut));
    }
    return moved;
  }

  /** The section of that name on the time line of the first mix. */
  public DemoSection section(String name) {
    return sections().stream()
        .filter(section -> section.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no section " + name + " in " + title));
  }

  /** Names of the parts, in the order of a track list. */
  public List<String> parts() {
    return List.copyOf(arrangement.balanceDb().keySet());
  }

  /** How many mixes there are; they are numbered from 1. */
  public int mixes() {
    return arrangement.mixes().size();
  }

  /** Mix {@code n}, from 1. */
  public DemoAudio mix(int n) {
    return new DemoAudio(this, plan(n), Optional.empty());
  }

  /** One part of mix {@code n} alone, same start and length as the mix. */
  public DemoAudio stem(int n, String part) {
    if (!arrangement.balanceDb().containsKey(part)) {
      throw new IllegalArgumentException("no part " + part + " in " + title);
    }
    return new DemoAudio(this, plan(n), Optional.of(part));
  }

  /** All stems of mix {@code n}. */
  public List<DemoAudio> stems(int n) {
    return parts().stream().map(part -> stem(n, part)).toList();
  }

  /**
   * Renders several mixes and stems of this song in one pass, which costs little more than one of
   * them.
   *
   * @param folder an existing folder; files are named by {@link DemoAudio#fileName()}
   * @return the file of each
   */
  public Map<DemoAudio, Path> writeAll(List<DemoAudio> wanted, Path folder) throws IOException {
    Map<DemoAudio, Path> files = new LinkedHashMap<>();
    List<OutputStream> open = new ArrayList<>();
    try {
      List<Renderer.Output> outputs = new ArrayList<>();
      for (DemoAudio audio : wanted) {
        Path file = folder.resolve(audio.fileName());
        OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 16);
        open.add(out);
        files.put(audio, file);
        outputs.add(audio.output(out));
      }
      Renderer.render(arrangement, outputs);
      for (OutputStream out : open) {
        out.flush();
      }
    } finally {
      for (OutputStream out : open) {
        out.close();
      }
    }
    return files;
  }

  Arrangement arrangement() {
    return arrangement;
  }

  private MixPlan plan(int n) {
    if (n < 1 || n > mixes()) {
      throw new IllegalArgumentException("no mix " + n + " of " + title);
    }
    return arrangement.mixes().get(n - 1);
  }
}

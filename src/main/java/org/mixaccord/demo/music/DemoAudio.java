package org.mixaccord.demo.music;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * One mix, or one part of a mix alone, that can be rendered any number of times, always to the same
 * bytes. A mix and its stems start and end together, and the stems add up to the mix (each file is
 * rounded to 24 bits by itself).
 */
public final class DemoAudio {
  private final DemoSong song;
  private final MixPlan plan;
  private final Optional<String> part;

  DemoAudio(DemoSong song, MixPlan plan, Optional<String> part) {
    this.song = song;
    this.plan = plan;
    this.part = part;
  }

  /** Number of the mix, from 1. */
  public int mix() {
    return plan.number();
  }

  /** The part, empty for the mix itself. */
  public Optional<String> part() {
    return part;
  }

  /** Length in frames at 48 kHz. */
  public long frames() {
    return song.frames() - plan.headCutFrames();
  }

  /** Size of the rendered file in bytes. */
  public long bytes() {
    return WavWriter.bytes(frames());
  }

  /** A file name as an engineer would give it. */
  public String fileName() {
    String name = song.title().replace(' ', '_') + "_mix" + plan.number();
    return part.map(p -> name + "_" + p.replace(' ', '-')).orElse(name) + ".wav";
  }

  /** Renders as WAV, 24 bits, 48 kHz, stereo; the stream is left open. */
  public void writeTo(OutputStream out) throws IOException {
    Renderer.render(song.arrangement(), List.of(output(out)));
    out.flush();
  }

  /** Renders into a file, replacing what is there. */
  public void writeTo(Path file) throws IOException {
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 16)) {
      writeTo(out);
    }
  }

  Renderer.Output output(OutputStream out) {
    return new Renderer.Output(plan, part, out);
  }
}

package org.mixaccord.demo.music;

import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Plays the parts of a song once, block by block, and feeds any number of mixes and stems. */
final class Renderer {
  /** Where one mix (part empty) or one stem goes. */
  record Output(MixPlan plan, Optional<String> part, OutputStream out) {}

  private static final int BLOCK = 1024;
  private static final int FADE_FRAMES = 72_000;

  private static final class Channel {
    final Output output;
    final WavWriter writer;
    final Map<String, Fader> faders = new LinkedHashMap<>();
    final double[] left = new double[BLOCK];
    final double[] right = new double[BLOCK];

    Channel(Arrangement arrangement, Output output) throws IOException {
      this.output = output;
      long frames = arrangement.frames();
      writer = new WavWriter(output.out(), frames - output.plan().headCutFrames(), BLOCK);
      List<DemoSection> sections = arrangement.form().sections(frames);
      for (Map.Entry<String, Double> entry : arrangement.balanceDb().entrySet()) {
        String part = entry.getKey();
        if (output.part().map(part::equals).orElse(true)) {
          faders.put(part, new Fader(part, entry.getValue(), output.plan(), sections, FADE_FRAMES));
        }
      }
    }

    void add(String part, long frame, double[] partLeft, double[] partRight, int count) {
      Fader fader = faders.get(part);
      if (fader == null) {
        return;
      }
      boolean steady = fader.steady(frame, count);
      double held = fader.gain(frame);
      for (int i = 0; i < count; i++) {
        double gain = steady ? held : fader.gain(frame + i);
        left[i] += gain * partLeft[i];
        right[i] += gain * partRight[i];
      }
    }

    void write(long frame, int count) throws IOException {
      long cut = output.plan().headCutFrames();
      if (frame + count > cut) {
        writer.write(left, right, (int) Math.max(0, cut - frame), count);
      }
      Arrays.fill(left, 0);
      Arrays.fill(right, 0);
    }
  }

  private Renderer() {}

  /** Renders all outputs in one pass; memory does not grow with the length of the song. */
  static void render(Arrangement arrangement, List<Output> outputs) throws IOException {
    List<Channel> channels = new ArrayList<>();
    for (Output output : outputs) {
      channels.add(new Channel(arrangement, output));
    }
    Map<String, Track> tracks = new LinkedHashMap<>();
    for (String part : arrangement.balanceDb().keySet()) {
      if (channels.stream().anyMatch(channel -> channel.faders.containsKey(part))) {
        tracks.put(part, arrangement.track(part));
      }
    }
    double[] left = new double[BLOCK];
    double[] right = new double[BLOCK];
    for (long frame = 0; frame < arrangement.frames(); frame += BLOCK) {
      int count = (int) Math.min(BLOCK, arrangement.frames() - frame);
      for (Map.Entry<String, Track> entry : tracks.entrySet()) {
        Arrays.fill(left, 0);
        Arrays.fill(right, 0);
        entry.getValue().render(frame, left, right, count);
        for (Channel channel : channels) {
          channel.add(entry.getKey(), frame, left, right, count);
        }
      }
      for (Channel channel : channels) {
        channel.write(frame, count);
      }
    }
  }
}

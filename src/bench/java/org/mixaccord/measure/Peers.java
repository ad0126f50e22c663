package org.mixaccord.measure;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Runs the two other meters on the same audio and reads what they say. */
final class Peers {
  private static final Pattern CPU = Pattern.compile("bench: utime=([0-9.]+)s stime=([0-9.]+)s");
  private static final int RUNS = 5;
  private static final String FILTER = "ebur128=peak=true:framelog=verbose";

  /** What a meter said. */
  record Reading(double seconds, double lufs, double rangeLu, double truePeakDbtp) {}

  private Peers() {}

  /** libebur128; {@code mode} is {@code levels} or {@code windows}. */
  static Reading library(Path folder, String mode, int rate, Path raw) throws IOException {
    String[] words =
        run(List.of(folder.resolve("peer").toString(), mode, "" + rate, raw.toString()))
            .strip()
            .split(" ");
    double[] v = Arrays.stream(words).limit(4).mapToDouble(Double::parseDouble).toArray();
    return new Reading(v[0], v[1], v[2], v[3]);
  }

  /** CPU seconds of FFmpeg's filter on raw samples, without reading them. */
  static double filterSeconds(int rate, Path raw) throws IOException {
    List<String> in = List.of("-f", "f64le", "-ar", "" + rate, "-ac", "2", "-i", raw.toString());
    return ffmpegSeconds(in, FILTER) - ffmpegSeconds(in, "anull");
  }

  /** CPU seconds of FFmpeg decoding a file and running its filter. */
  static double fileSeconds(Path wav) throws IOException {
    return ffmpegSeconds(List.of("-i", wav.toString()), FILTER);
  }

  private static double ffmpegSeconds(List<String> in, String filter) throws IOException {
    double[] seconds = new double[RUNS];
    for (int i = 0; i < RUNS; i++) {
      List<String> call = new java.util.ArrayList<>();
      call.addAll(List.of("ffmpeg", "-nostdin", "-hide_banner", "-nostats", "-benchmark"));
      call.addAll(List.of("-threads", "1", "-filter_threads", "1"));
      call.addAll(in);
      call.addAll(List.of("-af", filter, "-f", "null", "-"));
      Matcher m = CPU.matcher(run(call));
      if (!m.find()) {
        throw new IOException("ffmpeg told no time");
      }
      seconds[i] = Double.parseDouble(m.group(1)) + Double.parseDouble(m.group(2));
    }
    Arrays.sort(seconds);
    return seconds[RUNS / 2];
  }

  /** What FFmpeg's filter reads; it tells I and range to a thousandth, peaks as amplitudes. */
  static Reading filter(int rate, Path raw) throws IOException {
    String said =
        run(
            List.of(
                "ffmpeg", "-nostdin", "-v", "error", "-f", "f64le", "-ar", "" + rate, "-ac", "2",
                "-i", raw.toString(), "-af",
                FILTER + ":metadata=1,ametadata=mode=print:file=-", "-f", "null", "-"));
    double peak = Math.max(last(said, "true_peaks_ch0"), last(said, "true_peaks_ch1"));
    return new Reading(0, last(said, "I"), last(said, "LRA"), 20 * Math.log10(peak));
  }

  private static double last(String said, String key) {
    String mark = "lavfi.r128." + key + "=";
    int at = said.lastIndexOf(mark) + mark.length();
    return Double.parseDouble(said.substring(at, said.indexOf('\n', at)));
  }

  private static String run(List<String> call) throws IOException {
    Process process = new ProcessBuilder(call).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    try {
      if (process.waitFor() != 0) {
        throw new IOException(call.get(0) + " failed: " + said);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException(e);
    }
    return said;
  }
}

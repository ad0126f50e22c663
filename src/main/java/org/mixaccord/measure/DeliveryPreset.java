package org.mixaccord.measure;

import java.util.List;
import java.util.Optional;

/**
 * Figures for delivery that somebody has written down, to begin an agreement from. Nothing holds
 * until the project keeps it.
 *
 * @param id kebab case
 * @param name what to call it
 * @param words one or two sentences: whom it is meant for, and what it leaves out
 * @param figures the fields of {@link DeliveryLimits} it gives
 */
public record DeliveryPreset(String id, String name, String words, List<Figure> figures) {
  private static final String QUOTED = "Known to us from others who quote it; not read there.";
  private static final String GENERAL = "Generally known; we have not read it up.";

  private static final String CHANGES =
      "Changes without notice: ask for the figure of the day. " + QUOTED;

  private static final String WHOLE_PROGRAMME =
      "−23 LUFS over the whole, and 0.2 LU of room for meters that differ.";

  private static final String LIVE_PROGRAMME =
      "−23 LUFS over the whole, and 1 LU of room where it can't be reached exactly.";

  public DeliveryPreset {
    figures = List.copyOf(figures);
  }

  /**
   * One figure and where it comes from.
   *
   * @param field name of the field in {@link DeliveryLimits}
   * @param value in the unit of the field's name
   * @param source document and edition, or whose habit it is
   * @param date year, or year and month, of the source; empty where none is known to us
   * @param standing what stands behind it
   * @param note what has to be known of the source
   */
  public record Figure(
      String field,
      double value,
      String source,
      Optional<String> date,
      Standing standing,
      String note) {}

  /**
   * All presets, the broadcasters' first and mere habits last. Sources and what is known of them:
   * docs/measurement.md.
   */
  public static List<DeliveryPreset> all() {
    return List.of(
        programme("ebu-programme", "Broadcast programme, EBU R 128", 0.2, WHOLE_PROGRAMME),
        programme("ebu-live", "Live broadcast, EBU R 128", 1.0, LIVE_PROGRAMME),
        new DeliveryPreset(
            "ebu-short",
            "Short items for broadcast, EBU R 128 s1",
            "As a programme; besides, no 3 s may be louder than −18 LUFS. That is not checked"
                + " here: look at the loudest 3 s among the figures.",
            programmeFigures(0.2)),
        new DeliveryPreset(
            "ebu-streaming",
            "Streams without level control, EBU R 128 s2",
            "For streams that the player does not level by itself; where it does, programmes stay"
                + " at −23 LUFS. Mostly music with peaks less than 15 dB over its loudness may use"
                + " the upper end.",
            List.of(
                of("minLufs", -20, "EBU R 128 s2, version 3", "2023-11"),
                of("maxLufs", -16, "EBU R 128 s2, version 3", "2023-11"))),
        new DeliveryPreset(
            "ebu-older-codecs",
            "Distribution by MPEG-1 Layer II or AC-3, EBU Tech 3343",
            "A lower ceiling, since these coders make peaks higher. It says nothing of loudness.",
            List.of(of("ceilingDbtp", -2, "EBU Tech 3343", "2023"))),
        services(
            "aes-tracks",
            "Music levelled track by track, AES TD1008",
            -16,
            "It is written for whoever plays music to the public, and says what happens to a song"
                + " there. It does not ask anybody to deliver at that loudness."),
        services(
            "aes-albums",
            "Music levelled by the album, AES TD1008",
            -14,
            "The loudest song of an album; the others keep their distance to it. It is written for"
                + " whoever plays music to the public, not for whoever mixes it."),
        new DeliveryPreset(
            "atsc-programme",
            "Broadcast programme in the United States, ATSC A/85",
            "Loudness in LKFS, which is the same as LUFS.",
            List.of(
                undated("minLufs", -26, "ATSC A/85", Standing.RECOMMENDATION, QUOTED),
                undated("maxLufs", -22, "ATSC A/85", Standing.RECOMMENDATION, QUOTED),
                undated("ceilingDbtp", -2, "ATSC A/85", Standing.RECOMMENDATION, QUOTED))),
        new DeliveryPreset(
            "compact-disc",
            "Compact disc, IEC 60908",
            "Only the format. There is no rule for true peaks, and samples may reach full scale.",
            List.of(
                undated("sampleRate", 44_100, "IEC 60908", Standing.STANDARD, GENERAL),
                undated("bitDepth", 16, "IEC 60908", Standing.STANDARD, GENERAL))),
        new DeliveryPreset(
            "premaster",
            "Mix for mastering",
            "Headroom, no limiter over the mix, the rate of the session. In 24 bit the level itself"
                + " costs nothing: what matters is that nothing clips.",
            List.of(
                undated("ceilingDbfs", -3, "Workshops; −3 to −6 is heard", Standing.HABIT, GENERAL),
                undated("bitDepth", 24, "Workshops; float is as good", Standing.HABIT, GENERAL))),
        new DeliveryPreset(
            "playback-reference",
            "Usual playback reference for music",
            "What several large services level songs to when they are played. It is not asked of"
                + " deliveries: louder songs are turned down, quieter ones not everywhere up.",
            List.of(
                undated("maxLufs", -14, "Published by services", Standing.HABIT, CHANGES),
                undated("ceilingDbtp", -1, "Published by services", Standing.HABIT, CHANGES))),
        new DeliveryPreset(
            "loud-lossy",
            "Loud master that will be coded with loss",
            "More room for what a coder adds. At low data rates even this is no guarantee.",
            List.of(undated("ceilingDbtp", -2, "Workshops", Standing.HABIT, QUOTED))));
  }

  private static DeliveryPreset programme(String id, String name, double room, String words) {
    return new DeliveryPreset(id, name, words, programmeFigures(room));
  }

  private static List<Figure> programmeFigures(double room) {
    return List.of(
        of("minLufs", -23 - room, "EBU R 128, version 5", "2023-11"),
        of("maxLufs", -23 + room, "EBU R 128, version 5", "2023-11"),
        of("ceilingDbtp", -1, "EBU R 128, version 5", "2023-11"));
  }

  private static DeliveryPreset services(String id, String name, double lufs, String words) {
    String note = QUOTED + " AES77 of 2023 is said to keep the figure.";
    return new DeliveryPreset(
        id,
        name,
        words,
        List.of(
            figure("maxLufs", lufs + 0.2, "AES TD1008, 0.2 LU of room", "2021-09", note),
            figure("ceilingDbtp", -1, "AES TD1008, before the coder", "2021-09", note)));
  }

  private static Figure of(String field, double value, String source, String date) {
    return figure(field, value, source, date, QUOTED);
  }

  private static Figure figure(
      String field, double value, String source, String date, String note) {
    return new Figure(field, value, source, Optional.of(date), Standing.RECOMMENDATION, note);
  }

  private static Figure undated(
      String field, double value, String source, Standing standing, String note) {
    return new Figure(field, value, source, Optional.empty(), standing, note);
  }
}

package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Presets say where each figure comes from, and their figures are those of the documents. */
class DeliveryPresetTest {
  private static String figures(String id) {
    DeliveryPreset preset =
        DeliveryPreset.all().stream().filter(p -> p.id().equals(id)).findFirst().orElseThrow();
    return preset.figures().stream()
        .map(f -> f.field() + " " + f.value() + " " + f.standing().wire())
        .collect(Collectors.joining(", "));
  }

  @Test
  void figuresAreThoseOfTheDocuments() {
    assertEquals(
        "minLufs -23.2 recommendation, maxLufs -22.8 recommendation, ceilingDbtp -1.0"
            + " recommendation",
        figures("ebu-programme"));
    assertEquals(
        "minLufs -24.0 recommendation, maxLufs -22.0 recommendation, ceilingDbtp -1.0"
            + " recommendation",
        figures("ebu-live"));
    assertEquals(
        "minLufs -20.0 recommendation, maxLufs -16.0 recommendation", figures("ebu-streaming"));
    assertEquals("ceilingDbtp -2.0 recommendation", figures("ebu-older-codecs"));
    assertEquals(
        "maxLufs -15.8 recommendation, ceilingDbtp -1.0 recommendation", figures("aes-tracks"));
    assertEquals(
        "maxLufs -13.8 recommendation, ceilingDbtp -1.0 recommendation", figures("aes-albums"));
    assertEquals(
        "minLufs -26.0 recommendation, maxLufs -22.0 recommendation, ceilingDbtp -2.0"
            + " recommendation",
        figures("atsc-programme"));
    assertEquals("sampleRate 44100.0 standard, bitDepth 16.0 standard", figures("compact-disc"));
    assertEquals("ceilingDbfs -3.0 habit, bitDepth 24.0 habit", figures("premaster"));
    assertEquals("maxLufs -14.0 habit, ceilingDbtp -1.0 habit", figures("playback-reference"));
    assertEquals("ceilingDbtp -2.0 habit", figures("loud-lossy"));
  }

  @Test
  void everyFigureNamesItsSourceAndAFieldOfTheAgreement() {
    Set<String> fields =
        Arrays.stream(DeliveryLimits.class.getRecordComponents())
            .map(c -> c.getName())
            .collect(Collectors.toSet());
    Set<String> ids = new HashSet<>();
    List<DeliveryPreset> all = DeliveryPreset.all();
    for (DeliveryPreset preset : all) {
      assertTrue(ids.add(preset.id()), preset.id());
      for (DeliveryPreset.Figure figure : preset.figures()) {
        assertTrue(fields.contains(figure.field()), figure.field());
        assertTrue(figure.source().length() > 5, preset.id());
        assertTrue(figure.note().endsWith("."), preset.id());
        assertTrue(figure.date().isEmpty() || figure.date().get().matches("20\\d\\d(-\\d\\d)?"));
        // What is only a habit is never dressed up with a document's date.
        assertTrue(figure.standing() != Standing.HABIT || figure.date().isEmpty(), preset.id());
      }
    }
    assertEquals(12, all.size());
  }
}

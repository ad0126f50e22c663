package org.mixaccord.record;

import java.util.ArrayList;
import java.util.List;
import org.mixaccord.accounts.DeliverySpec;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;

/** What the file alone tells: its rate and word length. */
public final class SpecByFile {
  private SpecByFile() {}

  /** What of the agreed rate and depth a bounce does not keep, in words. */
  public static List<String> misses(Bounce bounce) {
    DeliverySpec spec = bounce.song().project().spec();
    List<String> misses = new ArrayList<>();
    if (bounce.facts().isEmpty()) {
      return misses;
    }
    AudioFacts facts = bounce.facts().get();
    if (spec.sampleRate() != null && spec.sampleRate() != facts.sampleRate()) {
      misses.add("it runs at " + facts.sampleRate() + " Hz, agreed were " + spec.sampleRate());
    }
    if (spec.bitDepth() != null && !spec.bitDepth().equals(facts.bitDepth())) {
      misses.add(
          (facts.bitDepth() == null ? "it is lossy" : "it has " + facts.bitDepth() + " bit")
              + ", agreed were "
              + spec.bitDepth());
    }
    return misses;
  }
}

package org.mixaccord.record;

import io.quarkus.arc.DefaultBean;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.List;
import org.mixaccord.accounts.DeliverySpec;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;

/** What the file alone tells: its rate and word length. */
@DefaultBean
@ApplicationScoped
public class SpecByFile implements SpecCheck {
  @Override
  public List<String> misses(Bounce bounce) {
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

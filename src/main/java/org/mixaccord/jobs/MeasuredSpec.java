package org.mixaccord.jobs;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.jboss.logging.Logger;
import org.mixaccord.accounts.DeliverySpec;
import org.mixaccord.measure.Agreed;
import org.mixaccord.measure.DeliveryLimits;
import org.mixaccord.measure.FileFacts;
import org.mixaccord.measure.Finding;
import org.mixaccord.measure.Findings;
import org.mixaccord.record.SpecByFile;
import org.mixaccord.record.SpecCheck;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;

/** Holds a bounce's measurements against what was agreed, and finds what nobody asked about. */
@ApplicationScoped
public class MeasuredSpec implements SpecCheck {
  private static final Logger LOG = Logger.getLogger(MeasuredSpec.class);

  private final Samples samples;

  MeasuredSpec(Samples samples) {
    this.samples = samples;
  }

  @Override
  public List<String> misses(Bounce bounce) {
    if (bounce.facts().isEmpty()) {
      return List.of();
    }
    try {
      return findings(bounce).stream()
          .filter(f -> f.code().equals("over") || f.code().equals("out-of-spec"))
          .map(Finding::detail)
          .toList();
    } catch (IOException e) {
      LOG.warnf(e, "the measure track of %s could not be opened", bounce.id());
      return SpecByFile.misses(bounce);
    }
  }

  /** Everything measured on a bounce that nobody asked about. */
  public List<Finding> findings(Bounce bounce) throws IOException {
    return Findings.of(samples.track(bounce), limits(bounce), file(bounce));
  }

  /** Every figure that was agreed, held against the bounce. */
  public List<Agreed> agreed(Bounce bounce) throws IOException {
    return Agreed.of(samples.track(bounce), limits(bounce), file(bounce));
  }

  private static DeliveryLimits limits(Bounce bounce) {
    DeliverySpec spec = bounce.song().project().spec();
    return new DeliveryLimits(
        level(spec.ceilingDbtp()),
        level(spec.ceilingDbfs()),
        level(spec.minLufs()),
        level(spec.maxLufs()),
        number(spec.sampleRate()),
        number(spec.bitDepth()));
  }

  private static FileFacts file(Bounce bounce) {
    AudioFacts facts = bounce.facts().orElseThrow();
    return new FileFacts(
        facts.sampleRate(),
        number(facts.bitDepth()),
        number(facts.significantBits()),
        !facts.sampleFormat().equals("s32"),
        facts.lossy());
  }

  private static OptionalDouble level(Double value) {
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  private static OptionalInt number(Integer value) {
    return value == null ? OptionalInt.empty() : OptionalInt.of(value);
  }
}

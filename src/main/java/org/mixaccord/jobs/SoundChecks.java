package org.mixaccord.jobs;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.mixaccord.align.TimeMap;
import org.mixaccord.measure.BesideOther;
import org.mixaccord.measure.Finding;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;

/** What was found on a bounce, with an eye on the main mix before it. */
@ApplicationScoped
public class SoundChecks {
  private final Samples samples;
  private final MeasuredSpec spec;
  private final Comparing comparing;

  SoundChecks(Samples samples, MeasuredSpec spec, Comparing comparing) {
    this.samples = samples;
    this.spec = spec;
    this.comparing = comparing;
  }

  /**
   * Everything measured on a bounce that nobody asked about. Nothing is said of the mix before
   * while the two have not been laid against each other.
   */
  public List<Finding> of(Bounce bounce) throws IOException {
    List<Finding> findings = spec.findings(bounce);
    Optional<Bounce> before = before(bounce);
    Optional<TimeMap> map = before.flatMap(b -> comparing.timeMap(bounce, b));
    if (map.isEmpty()) {
      return findings;
    }
    return BesideOther.judge(
        findings,
        samples.track(before.get()),
        seconds -> map.get().toOther(seconds),
        before.get().title());
  }

  private static Optional<Bounce> before(Bounce bounce) {
    return bounce.kind() != BounceKind.MAIN
        ? Optional.empty()
        : Bounce.of(bounce.song()).stream()
            .filter(b -> b.kind() == BounceKind.MAIN && b.ready() && b.number() < bounce.number())
            .filter(b -> Comparing.comparable(bounce, b))
            .reduce((first, second) -> second);
  }
}

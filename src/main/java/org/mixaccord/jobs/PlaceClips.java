package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.mixaccord.align.PlacePair;
import org.mixaccord.align.TimeMap;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.intake.FloatWav;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.storage.DerivedFiles;

/**
 * One place out of two bounces as two short files that differ by nothing but the mix. Both are made
 * together, kept under an id that says nothing, and made again when they are missing.
 */
@ApplicationScoped
public class PlaceClips {
  /** Which of the two mixes, in the order in which they were named. */
  public enum Which {
    ONE,
    TWO
  }

  /** A place in two bounces; times on the first. */
  public record Place(String id, Bounce one, Bounce two, TimeSpan span) {}

  private final Samples samples;
  private final Comparing comparing;
  private final DerivedFiles derived;

  PlaceClips(Samples samples, Comparing comparing, DerivedFiles derived) {
    this.samples = samples;
    this.comparing = comparing;
    this.derived = derived;
  }

  /** Ends the request unless the place can be heard in both; outside a transaction. */
  public void check(Bounce one, Bounce two, TimeSpan span) {
    Comparing.requireComparable(one, two);
    if (pcm(one).equals(pcm(two))) {
      throw new ProblemException(
          Problem.WRONG_STATE, "The two are the same audio: there is nothing to tell apart.");
    }
    Optional<TimeMap> map = QuarkusTransaction.requiringNew().call(() -> map(one, two));
    if (map.isEmpty()) {
      QuarkusTransaction.requiringNew()
          .run(() -> comparing.ask(Bounce.findById(one.id()), Bounce.findById(two.id())));
      throw new ProblemException(
              Problem.BUSY, "The two are still being laid against each other. Try again shortly.")
          .with("retryAfterSeconds", 1);
    }
    if (!PlacePair.runsThrough(map.get(), span)) {
      throw new ProblemException(
          Problem.INVALID,
          "That place does not run through in both mixes. Choose one that was not cut or moved.");
    }
  }

  /** The file with the place out of one of the two; outside a transaction. */
  public Path file(Place place, Which which) throws IOException {
    Path wanted = kept(place, which);
    if (!Files.exists(wanted)) {
      make(place);
    }
    return wanted;
  }

  private void make(Place place) throws IOException {
    TimeMap map =
        QuarkusTransaction.requiringNew()
            .call(() -> map(place.one(), place.two()))
            .orElseThrow(() -> new IOException("the time map of a place is gone"));
    try (PcmFile one = samples.open(place.one());
        PcmFile two = samples.open(place.two())) {
      PlacePair pair = PlacePair.of(one, two, map, place.span());
      FloatWav.make("clip", pair.here(), derived, kept(place, Which.ONE));
      FloatWav.make("clip", pair.there(), derived, kept(place, Which.TWO));
    }
  }

  private Path kept(Place place, Which which) {
    return derived.clip(place.id() + (which == Which.ONE ? "-1" : "-2"));
  }

  private Optional<TimeMap> map(Bounce one, Bounce two) {
    return comparing.timeMap(one, two);
  }

  private static String pcm(Bounce bounce) {
    return bounce.facts().orElseThrow().pcmSha256();
  }
}

package org.mixaccord.api.v1.bounces;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.mixaccord.accounts.Act;
import org.mixaccord.align.TimeMap;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.jobs.Samples;
import org.mixaccord.jobs.SoundChecks;
import org.mixaccord.measure.Finding;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.measure.Measurements;
import org.mixaccord.measure.Standing;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.CheckedParts;
import org.mixaccord.songs.Bounce;

/** What was measured on a bounce. */
@Path("/api/v1")
public class MeasurementResource {
  /** Everything measured. */
  public record MeasurementsView(
      Measurements whole, List<SectionView> sections, LoudestView loudest) {}

  /** One section's figures. */
  public record SectionView(
      String name, double from, double to, @JsonUnwrapped Measurements figures) {}

  /** Where it is loudest: the section, and the loudest three seconds. */
  public record LoudestView(String section, Double from, Double to) {}

  /**
   * Something measured that nobody asked about.
   *
   * @param standing what the limit stands on: standard, agreement or habit; null for what was
   *     compared
   * @param source short name of the standard
   */
  public record FindingView(
      String code,
      String severity,
      String detail,
      double from,
      double to,
      OptionalDouble value,
      OptionalDouble limit,
      String element,
      String standing,
      String source) {
    static FindingView of(Finding finding) {
      return new FindingView(
          finding.code(),
          finding.severity().name().toLowerCase(Locale.ROOT),
          finding.detail(),
          finding.fromSeconds(),
          finding.toSeconds(),
          Decimals.of(finding.value()),
          Decimals.of(finding.limit()),
          null,
          finding.basis().standing().map(Standing::wire).orElse(null),
          finding.basis().source().orElse(null));
    }
  }

  /** Gains, 0 or less, that make two mixes equally loud over a stretch. */
  public record LevelMatch(double gainDb, double otherGainDb, Double differenceLu, String words) {}

  /** Loudness over time for a thin strip. */
  public record Outline(double seconds, double[] points) {}

  private final MeasuredDoor door;
  private final Samples samples;
  private final Comparing comparing;
  private final SoundChecks checks;
  private final CheckedParts parts;

  MeasurementResource(
      MeasuredDoor door,
      Samples samples,
      Comparing comparing,
      SoundChecks checks,
      CheckedParts parts) {
    this.door = door;
    this.samples = samples;
    this.comparing = comparing;
    this.checks = checks;
    this.parts = parts;
  }

  @GET
  @Path("/bounces/{b}/measurements")
  @Blocking
  public MeasurementsView measurements(@PathParam("b") String id) throws IOException {
    MeasuredDoor.Measured measured = door.to(id, Act.SEE_FIGURES);
    return view(samples.track(measured.bounce()), measured.there());
  }

  /** Everything measured, with the sections that are there on the bounce. */
  static MeasurementsView view(MeasureTrack track, List<Comparing.PlacedSection> there) {
    List<FrameRange> ranges = there.stream().map(s -> MeasuredDoor.range(track, s)).toList();
    OptionalInt loudest = track.loudest(ranges);
    Optional<FrameRange> spot = track.loudestThreeSeconds();
    return new MeasurementsView(
        Decimals.of(track.whole()),
        there.stream()
            .map(
                s ->
                    new SectionView(
                        s.section().name(),
                        s.section().from(),
                        s.section().to(),
                        Decimals.of(track.section(MeasuredDoor.range(track, s)))))
            .toList(),
        new LoudestView(
            loudest.isPresent() ? there.get(loudest.getAsInt()).section().name() : null,
            spot.map(r -> (double) r.from() / track.sampleRate()).orElse(null),
            spot.map(r -> (double) r.to() / track.sampleRate()).orElse(null)));
  }

  @GET
  @Path("/bounces/{b}/findings")
  @Blocking
  public List<FindingView> findings(@PathParam("b") String id) throws IOException {
    MeasuredDoor.Measured measured = door.to(id, Act.SEE_CHECKS);
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              Bounce bounce = Bounce.findById(measured.bounce().id());
              List<FindingView> found =
                  new java.util.ArrayList<>(
                      checks.of(bounce).stream().map(FindingView::of).toList());
              parts
                  .of(bounce)
                  .forEach(
                      p ->
                          found.add(
                              new FindingView(
                                  p.code(),
                                  "warning",
                                  p.detail(),
                                  p.from(),
                                  p.to(),
                                  OptionalDouble.empty(),
                                  OptionalDouble.empty(),
                                  p.element(),
                                  null,
                                  null)));
              return found;
            });
  }

  @GET
  @Path("/bounces/{b}/outline")
  @Blocking
  public Outline outline(@PathParam("b") String id, @QueryParam("points") Integer wanted)
      throws IOException {
    int points = wanted == null ? 600 : wanted;
    if (points < 1 || points > 5000) {
      throw new ProblemException(Problem.INVALID, "“points” lies between 1 and 5000.");
    }
    MeasureTrack track = samples.track(door.to(id).bounce());
    return new Outline(track.seconds(), track.outline(points));
  }

  @GET
  @Path("/bounces/{b}/level-match")
  @Blocking
  public LevelMatch levelMatch(
      @PathParam("b") String id,
      @QueryParam("with") String otherId,
      @QueryParam("from") Double from,
      @QueryParam("to") Double to)
      throws IOException {
    MeasuredDoor.Measured here = door.to(id);
    MeasuredDoor.Measured there = door.to(otherId == null ? "" : otherId);
    if (!here.bounce().song().id().equals(there.bounce().song().id())) {
      throw new ProblemException(Problem.NOT_FOUND, "That mix belongs to another song.");
    }
    MeasureTrack track = samples.track(here.bounce());
    MeasureTrack other = samples.track(there.bounce());
    double start = from == null ? 0 : from;
    double end = to == null ? track.seconds() : to;
    if (!(start >= 0) || !(end > start) || Double.isInfinite(end)) {
      throw new ProblemException(Problem.INVALID, "“to” has to lie after “from”.");
    }
    TimeSpan span = new TimeSpan(start, end);
    Optional<TimeMap> map =
        QuarkusTransaction.requiringNew()
            .call(() -> comparing.timeMap(here.bounce(), there.bounce()));
    TimeSpan moved = map.flatMap(m -> m.toOther(span)).orElse(span);
    OptionalDouble loud = loudness(track, span);
    OptionalDouble otherLoud = loudness(other, moved);
    if (loud.isEmpty() || otherLoud.isEmpty()) {
      return new LevelMatch(0, 0, null, "One of the two is silent here; nothing is changed.");
    }
    double difference = Decimals.of(loud.getAsDouble() - otherLoud.getAsDouble());
    return new LevelMatch(
        Math.min(0, -difference),
        Math.min(0, difference),
        difference,
        words(here.bounce().title(), there.bounce().title(), difference));
  }

  private static OptionalDouble loudness(MeasureTrack track, TimeSpan span) {
    return track.ungatedLufs(
        FrameRange.ofSeconds(span.from(), span.to(), track.sampleRate(), track.frames()));
  }

  private static String words(String here, String there, double difference) {
    if (Math.abs(difference) < 0.05) {
      return "Both are equally loud here as they are.";
    }
    String louder = difference > 0 ? here : there;
    return louder
        + (Math.abs(difference) < 1.5 ? " plays a little quieter" : " plays quieter")
        + " so that both are equal.";
  }
}

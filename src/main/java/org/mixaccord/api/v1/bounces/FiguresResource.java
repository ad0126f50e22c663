package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.mixaccord.accounts.Act;
import org.mixaccord.api.v1.Attachment;
import org.mixaccord.api.v1.Csv;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.jobs.Comparing;
import org.mixaccord.jobs.MeasuredSpec;
import org.mixaccord.jobs.Samples;
import org.mixaccord.measure.Agreed;
import org.mixaccord.measure.Loudest;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.measure.Series;
import org.mixaccord.measure.ShapedBand;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;

/** Figures of a bounce to look at: over time, by bands, as tables, in words. */
@Path("/api/v1")
public class FiguresResource {
  private static final int USUAL_POINTS = 600;
  private static final int MOST_POINTS = 5000;

  /**
   * Figures over time, with three decimals: what is shown with one is then rounded right.
   *
   * @param windowsAt the point of a loudness window that lies at its time: always its centre
   * @param atSeconds the middle of each step
   */
  public record SeriesView(
      double from,
      double to,
      double stepSeconds,
      String windowsAt,
      List<Double> atSeconds,
      List<OptionalDouble> momentaryLufs,
      List<OptionalDouble> shortTermLufs,
      List<OptionalDouble> truePeakDbtp,
      List<OptionalDouble> samplePeakDbfs,
      List<OptionalDouble> correlation) {
    static SeriesView of(Series series) {
      return new SeriesView(
          series.fromSeconds(),
          series.toSeconds(),
          series.stepSeconds(),
          "centre",
          IntStream.range(0, series.steps())
              .mapToObj(i -> Decimals.ofCurve(series.middleSeconds(i)))
              .toList(),
          Decimals.ofCurve(series.momentaryLufs()),
          Decimals.ofCurve(series.shortTermLufs()),
          Decimals.ofCurve(series.truePeakDbtp()),
          Decimals.ofCurve(series.samplePeakDbfs()),
          Decimals.ofCurve(series.correlation()));
    }
  }

  /** Third octaves of the whole and of each section. */
  public record BandsView(List<ShapedBand> whole, List<SectionBands> sections) {}

  /** Third octaves of one section. */
  public record SectionBands(String name, double from, double to, List<ShapedBand> bands) {}

  /** A sentence for people who read no meters, and where the loudest section lies. */
  public record InWords(String words, String section, Double from, Double to) {}

  /** One agreed figure, and what the bounce has; {@code met} is null where it can't be told. */
  public record AgreedView(
      String field, double agreed, OptionalDouble found, Boolean met, String words) {}

  private final MeasuredDoor door;
  private final Samples samples;
  private final MeasuredSpec spec;

  FiguresResource(MeasuredDoor door, Samples samples, MeasuredSpec spec) {
    this.door = door;
    this.samples = samples;
    this.spec = spec;
  }

  @GET
  @Path("/bounces/{b}/series")
  @Blocking
  public SeriesView series(
      @PathParam("b") String id,
      @QueryParam("from") Double from,
      @QueryParam("to") Double to,
      @QueryParam("points") Integer points)
      throws IOException {
    return seriesOf(door.to(id, Act.SEE_FIGURES), from, to, points);
  }

  @GET
  @Path("/bounces/{b}/series.csv")
  @Blocking
  public Response seriesTable(
      @PathParam("b") String id,
      @QueryParam("from") Double from,
      @QueryParam("to") Double to,
      @QueryParam("points") Integer points)
      throws IOException {
    MeasuredDoor.Measured measured = door.to(id, Act.SEE_FIGURES);
    Csv table = FigureTables.series(seriesOf(measured, from, to, points));
    return table(table, measured.bounce().title() + " over time.csv");
  }

  private SeriesView seriesOf(
      MeasuredDoor.Measured measured, Double from, Double to, Integer wanted) throws IOException {
    int points = wanted == null ? USUAL_POINTS : wanted;
    if (points < 1 || points > MOST_POINTS) {
      throw new ProblemException(
          Problem.INVALID, "“points” lies between 1 and " + MOST_POINTS + ".");
    }
    MeasureTrack track = samples.track(measured.bounce());
    double start = from == null ? 0 : from;
    double end = to == null ? track.seconds() : to;
    if (!(start >= 0) || !(end > start) || Double.isInfinite(end)) {
      throw new ProblemException(
          Problem.INVALID, "“to” has to lie after “from”, and both in the mix.");
    }
    FrameRange range = FrameRange.ofSeconds(start, end, track.sampleRate(), track.frames());
    return SeriesView.of(Series.of(track, range, points));
  }

  @GET
  @Path("/bounces/{b}/measurements.csv")
  @Blocking
  public Response measurementsTable(@PathParam("b") String id) throws IOException {
    MeasuredDoor.Measured measured = door.to(id, Act.SEE_FIGURES);
    Csv table =
        FigureTables.measurements(
            MeasurementResource.view(samples.track(measured.bounce()), measured.there()));
    return table(table, measured.bounce().title() + " figures.csv");
  }

  private static Response table(Csv table, String fileName) {
    return Response.ok(table.toString())
        .type("text/csv;charset=UTF-8;header=present")
        .header(HttpHeaders.CONTENT_DISPOSITION, Attachment.named(fileName))
        .header("Content-Security-Policy", "sandbox; default-src 'none'")
        .header(HttpHeaders.CACHE_CONTROL, "private, no-cache")
        .build();
  }

  @GET
  @Path("/bounces/{b}/bands")
  @Blocking
  public BandsView bands(@PathParam("b") String id) throws IOException {
    MeasuredDoor.Measured measured = door.to(id, Act.SEE_FIGURES);
    MeasureTrack track = samples.track(measured.bounce());
    return new BandsView(
        Decimals.shaped(track.whole()),
        measured.there().stream()
            .map(
                s ->
                    new SectionBands(
                        s.section().name(),
                        s.section().from(),
                        s.section().to(),
                        Decimals.shaped(track.section(MeasuredDoor.range(track, s)))))
            .toList());
  }

  @GET
  @Path("/bounces/{b}/words")
  @Blocking
  public InWords words(@PathParam("b") String id) throws IOException {
    MeasuredDoor.Measured measured = door.to(id);
    MeasureTrack track = samples.track(measured.bounce());
    List<Loudest.Named> sections =
        measured.there().stream()
            .map(s -> new Loudest.Named(s.section().name(), MeasuredDoor.range(track, s)))
            .toList();
    OptionalInt loudest = track.loudest(sections.stream().map(Loudest.Named::range).toList());
    Optional<Comparing.PlacedSection> there =
        loudest.isPresent()
            ? Optional.of(measured.there().get(loudest.getAsInt()))
            : Optional.empty();
    return new InWords(
        Loudest.words(track, sections, agreed(measured)),
        there.map(s -> s.section().name()).orElse(null),
        there.map(s -> s.section().from()).orElse(null),
        there.map(s -> s.section().to()).orElse(null));
  }

  /** What was agreed is no secret of the engineer's; what was measured stays a figure. */
  @GET
  @Path("/bounces/{b}/delivery-check")
  @Blocking
  public List<AgreedView> deliveryCheck(@PathParam("b") String id) throws IOException {
    MeasuredDoor.Measured measured = door.to(id, Act.SEE_LIST);
    boolean figures = measured.access().may(Act.SEE_FIGURES);
    return agreed(measured).stream()
        .map(
            a ->
                new AgreedView(
                    a.field(),
                    a.agreed(),
                    figures ? Decimals.of(a.found()) : OptionalDouble.empty(),
                    a.met().orElse(null),
                    a.words()))
        .toList();
  }

  private List<Agreed> agreed(MeasuredDoor.Measured measured) {
    return QuarkusTransaction.requiringNew()
        .call(() -> spec.agreed(Bounce.findById(measured.bounce().id())));
  }
}

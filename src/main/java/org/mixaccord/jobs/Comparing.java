package org.mixaccord.jobs;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleConsumer;
import java.util.stream.Collectors;
import org.mixaccord.accounts.Hashes;
import org.mixaccord.align.TimeMap;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.audio.PcmSource;
import org.mixaccord.compare.ComparedFile;
import org.mixaccord.compare.Comparer;
import org.mixaccord.compare.Comparison;
import org.mixaccord.compare.ComparisonInput;
import org.mixaccord.compare.NamedSection;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.AfterSending;
import org.mixaccord.record.EventHub;
import org.mixaccord.record.TimeMaps;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.ComparisonRecord;
import org.mixaccord.songs.Form;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.Stem;
import org.mixaccord.songs.StemFit;
import org.mixaccord.songs.TempoMapRecord;

/** Compares bounces in the background, keeps what came out, and reads their time maps. */
@ApplicationScoped
public class Comparing implements Job {
  static final String NAME = "compare";

  /** Raised when comparing gives other results for the same input. */
  static final int METHOD = 4;

  /** Less than this is silence at an end rather than a passage. */
  private static final double LOST_SECONDS = 0.5;

  private final Samples samples;
  private final Jobs jobs;
  private final EventHub events;
  private final AfterSending after;
  private final TimeMaps maps;
  private final ObjectMapper json;
  private final Clock clock;

  Comparing(
      Samples samples,
      Jobs jobs,
      EventHub events,
      AfterSending after,
      TimeMaps maps,
      ObjectMapper json,
      Clock clock) {
    this.samples = samples;
    this.jobs = jobs;
    this.events = events;
    this.after = after;
    this.maps = maps;
    this.json = json;
    this.clock = clock;
  }

  @Override
  public String name() {
    return NAME;
  }

  /** The comparison for the present sections and parts, asked for when there is none yet. */
  public ComparisonRecord ask(Bounce here, Bounce there) {
    String inputs = inputs(here, there);
    ComparisonRecord record =
        ComparisonRecord.of(here, there, inputs)
            .orElseGet(() -> ComparisonRecord.ask(here, there, inputs, clock.instant()));
    if (!record.ready()) {
      jobs.enqueue(NAME, record.id());
    }
    return record;
  }

  /** How far a comparison has come, 0 to 1. */
  public double progress(ComparisonRecord record) {
    return jobs.status(NAME, record.id()).map(JobStatus::progress).orElse(0.0);
  }

  /**
   * Asks for what is looked at most: a bounce beside the main before it and the last one sent; and
   * beside the one the tempo map lies on.
   */
  void askUsual(Bounce bounce) {
    if (bounce.kind() != BounceKind.MAIN) {
      return;
    }
    List<Bounce> mains =
        Bounce.of(bounce.song()).stream()
            .filter(b -> b.kind() == BounceKind.MAIN && b.ready() && !b.id().equals(bounce.id()))
            .filter(b -> comparable(bounce, b))
            .toList();
    mains.stream()
        .filter(b -> b.number() < bounce.number())
        .reduce((a, b) -> b)
        .ifPresent(before -> ask(bounce, before));
    mains.stream()
        .filter(b -> b.number() > bounce.number())
        .findFirst()
        .ifPresent(next -> ask(next, bounce));
    TempoMapRecord.of(bounce.song())
        .map(TempoMapRecord::bounce)
        .filter(b -> b.ready() && !b.id().equals(bounce.id()) && comparable(bounce, b))
        .filter(b -> timeMap(b, bounce).isEmpty())
        .ifPresent(b -> ask(bounce, b));
    Bounce.newestSentMain(bounce.song())
        .filter(sent -> sent.ready() && sent.number() < bounce.number())
        .filter(sent -> comparable(bounce, sent))
        .ifPresent(sent -> ask(bounce, sent));
  }

  /** Sections or parts have changed: what was compared with a bounce is compared again. */
  public void askAgain(Bounce bounce) {
    if (bounce.ready()) {
      askUsual(bounce);
    }
  }

  /** Compares a new bounce with the one the sections were drawn on, so that they lie on both. */
  void placeSections(String bounceId, DoubleConsumer progress) throws IOException {
    Optional<String> asked =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  Bounce bounce = Bounce.findById(bounceId);
                  return Form.of(bounce.song())
                      .map(Form::bounce)
                      .filter(b -> !b.id().equals(bounceId) && comparable(bounce, b))
                      .map(
                          drawn ->
                              ComparisonRecord.of(bounce, drawn, inputs(bounce, drawn))
                                  .orElseGet(
                                      () ->
                                          ComparisonRecord.ask(
                                              bounce,
                                              drawn,
                                              inputs(bounce, drawn),
                                              clock.instant()))
                                  .id());
                });
    if (asked.isPresent()) {
      workOut(asked.get(), progress);
    }
  }

  /** Ends the request unless both are measured and can be set beside each other. */
  public static void requireComparable(Bounce here, Bounce there) {
    if (!here.ready() || !there.ready()) {
      throw new ProblemException(
          Problem.NOT_MEASURED, "One of the two is still being measured, or could not be read.");
    }
    if (!comparable(here, there)) {
      throw new ProblemException(
          Problem.LAYOUT_DIFFERS,
          "One has more than two channels, the other fewer. Compare prints of the same layout.");
    }
  }

  /** More than two channels are not set beside fewer; mono counts as two equal channels. */
  public static boolean comparable(Bounce here, Bounce there) {
    int a = here.facts().orElseThrow().channels();
    int b = there.facts().orElseThrow().channels();
    return a == b || Math.max(a, b) <= 2;
  }

  @Override
  public void run(String id, Progress progress) throws Exception {
    workOut(id, progress::at);
  }

  @Override
  public void gaveUp(String id, String reason) {
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                ComparisonRecord.<ComparisonRecord>findByIdOptional(id)
                    .ifPresent(ComparisonRecord::fail));
  }

  /** Everything that goes into a comparison, read in one transaction. */
  private record Task(
      Bounce here,
      Bounce there,
      List<NamedSection> sections,
      List<NamedSection> sectionsThere,
      List<Stem> stemsHere,
      List<Stem> stemsThere) {}

  private void workOut(String id, DoubleConsumer progress) throws IOException {
    Optional<Task> task = QuarkusTransaction.requiringNew().call(() -> task(id));
    if (task.isEmpty()) {
      return;
    }
    Comparison comparison = compare(task.get(), progress);
    String result = StoredComparison.write(comparison, json);
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              ComparisonRecord record = ComparisonRecord.findById(id);
              record.finish(result);
              Bounce here = Bounce.findById(record.here().id());
              // Nothing a person did: whoever follows the song is told, the record is not.
              events.progress(here.song().id(), here.id(), 1);
              after.compared(here.id());
              askWhereTheWayLoses(here);
            });
  }

  /**
   * Compares with bounces that are known only through others where something is missing on that
   * way: a passage that was cut in between may have come back.
   */
  private void askWhereTheWayLoses(Bounce here) {
    for (Bounce other : Bounce.of(here.song())) {
      boolean isNew =
          other.kind() == BounceKind.MAIN
              && other.ready()
              && !other.id().equals(here.id())
              && comparable(here, other)
              && ComparisonRecord.newestReady(here, other).isEmpty()
              && ComparisonRecord.newestReady(other, here).isEmpty();
      if (isNew && maps.between(other, here).filter(Comparing::loses).isPresent()) {
        ask(here, other);
      }
    }
  }

  private static boolean loses(TimeMap map) {
    return map.onlyHere().stream().mapToDouble(TimeSpan::seconds).sum() > LOST_SECONDS;
  }

  private Optional<Task> task(String id) {
    ComparisonRecord record = ComparisonRecord.findById(id);
    if (record == null || record.ready()) {
      return Optional.empty();
    }
    Bounce here = Bounce.findById(record.here().id());
    Bounce there = Bounce.findById(record.there().id());
    if (!record.inputs().equals(inputs(here, there))) {
      // Sections or parts have changed since: the comparison for those has been asked for.
      return Optional.empty();
    }
    return Optional.of(
        new Task(
            here,
            there,
            named(sectionsOn(here)),
            named(sectionsOn(there)),
            ready(here),
            ready(there)));
  }

  private Comparison compare(Task task, DoubleConsumer progress) throws IOException {
    List<PcmFile> open = new ArrayList<>();
    try {
      PcmFile here = opened(open, samples.open(task.here()));
      PcmFile there = opened(open, samples.open(task.there()));
      List<NamedSection> sections = task.sections();
      if (sections.isEmpty() && !task.sectionsThere().isEmpty()) {
        // Drawn on the other one and not moved yet: align first, then move them.
        TimeMap map = org.mixaccord.align.Aligner.align(here, there).timeMap().inverse();
        sections = moved(task.sectionsThere(), map, task.here().facts().orElseThrow().seconds());
      }
      return Comparer.compare(
          new ComparisonInput(
              compared(here, task.here().facts().orElseThrow()),
              compared(there, task.there().facts().orElseThrow()),
              sections,
              task.sectionsThere(),
              stems(open, task.stemsHere()),
              stems(open, task.stemsThere())),
          progress);
    } finally {
      for (PcmFile file : open) {
        file.close();
      }
    }
  }

  private Map<String, PcmSource> stems(List<PcmFile> open, List<Stem> stems) throws IOException {
    Map<String, PcmSource> sources = new HashMap<>();
    for (Stem stem : stems) {
      sources.put(stem.element(), opened(open, samples.open(stem)));
    }
    return sources;
  }

  private static PcmFile opened(List<PcmFile> open, PcmFile file) {
    open.add(file);
    return file;
  }

  private static List<NamedSection> moved(List<NamedSection> sections, TimeMap map, double end) {
    return sections.stream()
        .flatMap(
            s ->
                map.toOther(new TimeSpan(s.from(), s.to())).stream()
                    .map(t -> new NamedSection(s.name(), t.from(), Math.min(end, t.to()))))
        .filter(s -> s.to() > s.from())
        .toList();
  }

  private static ComparedFile compared(PcmFile pcm, AudioFacts facts) {
    boolean floating = !facts.sampleFormat().equals("s32");
    Integer bits = facts.significantBits() != null ? facts.significantBits() : facts.bitDepth();
    return new ComparedFile(
        pcm, facts.pcmSha256(), floating, bits == null ? 24 : bits, facts.lossy());
  }

  private static List<Stem> ready(Bounce bounce) {
    return Stem.of(bounce).stream().filter(s -> s.ready() && StemFit.usable(s)).toList();
  }

  private static List<NamedSection> named(List<Section> sections) {
    return sections.stream().map(s -> new NamedSection(s.name(), s.from(), s.to())).toList();
  }

  /** The sections in force where they lie on a bounce, as far as that is known. */
  private List<Section> sectionsOn(Bounce bounce) {
    return placedOn(bounce).stream().filter(p -> p.sure() > 0).map(PlacedSection::section).toList();
  }

  /** A section on a bounce; {@code sure} is 0 and the section as drawn where it is not there. */
  public record PlacedSection(Section section, double sure) {}

  /** The sections in force where they lie on a bounce. */
  public List<PlacedSection> placedOn(Bounce bounce) {
    Optional<Form> form = Form.of(bounce.song());
    if (form.isEmpty()) {
      return List.of();
    }
    if (form.get().bounce().id().equals(bounce.id())) {
      return form.get().sections().stream().map(s -> new PlacedSection(s, 1)).toList();
    }
    Optional<TimeMap> map = timeMap(form.get().bounce(), bounce);
    double end = bounce.facts().map(AudioFacts::seconds).orElse(Double.MAX_VALUE);
    return form.get().sections().stream().map(s -> placed(s, map, end)).toList();
  }

  private static PlacedSection placed(Section section, Optional<TimeMap> map, double end) {
    TimeSpan drawn = new TimeSpan(section.from(), section.to());
    Optional<TimeSpan> found = map.flatMap(m -> m.toOther(drawn));
    if (found.isEmpty()) {
      return new PlacedSection(section, 0);
    }
    double to = Math.min(end, found.get().to());
    double share = map.orElseThrow().sharedSeconds(drawn) / drawn.seconds();
    double sure = map.orElseThrow().sureAt((drawn.from() + drawn.to()) / 2);
    return new PlacedSection(
        new Section(section.name(), found.get().from(), to),
        Math.max(0.01, Math.min(1, sure * share)));
  }

  /** How time runs from one bounce to another, as far as that has been worked out. */
  public Optional<TimeMap> timeMap(Bounce from, Bounce onto) {
    return maps.between(from, onto);
  }

  /** Names what goes into a comparison: another method, form or part makes it another one. */
  private static String inputs(Bounce here, Bounce there) {
    String form = Form.of(here.song()).map(Form::id).orElse("-");
    String stems =
        ready(here).stream().map(s -> s.element() + s.pcmSha256()).collect(Collectors.joining())
            + "|"
            + ready(there).stream()
                .map(s -> s.element() + s.pcmSha256())
                .collect(Collectors.joining());
    return Hashes.sha256(METHOD + " " + form + " " + stems);
  }
}

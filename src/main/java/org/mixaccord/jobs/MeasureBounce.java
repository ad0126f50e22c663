package org.mixaccord.jobs;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.intake.DecodeResult;
import org.mixaccord.intake.DecodedFile;
import org.mixaccord.intake.Decoder;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.Happening;
import org.mixaccord.record.History;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;

/** Decodes and measures an uploaded bounce, and sets it beside the one its sections come from. */
@ApplicationScoped
public class MeasureBounce implements Job {
  static final String NAME = "measure-bounce";

  /** Shares of the work at which its steps end, as seen on a file of four minutes. */
  private static final double DECODED = 0.2;

  private static final double MEASURED = 0.7;

  private final Samples samples;
  private final BounceMarkers markers;
  private final Comparing comparing;
  private final Jobs jobs;
  private final History history;
  private final ObjectMapper json;

  MeasureBounce(
      Samples samples,
      BounceMarkers markers,
      Comparing comparing,
      Jobs jobs,
      History history,
      ObjectMapper json) {
    this.samples = samples;
    this.markers = markers;
    this.comparing = comparing;
    this.jobs = jobs;
    this.history = history;
    this.json = json;
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public void run(String id, Progress progress) throws Exception {
    Bounce start =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  Bounce bounce = Bounce.findById(id);
                  bounce.startMeasuring();
                  return bounce;
                });
    if (start.ready()) {
      return;
    }
    DecodeResult result = samples.decode(start.sha256(), start.fileName());
    if (result instanceof DecodeResult.Rejected rejected) {
      if (rejected.reason() == DecodeResult.Reason.DISK_FULL) {
        throw new ProblemException(Problem.DISK_FULL, rejected.detail());
      }
      fail(id, problem(rejected.reason()), rejected.detail());
      return;
    }
    DecodedFile file = ((DecodeResult.Decoded) result).file();
    String found = markers.read(start.sha256());
    OptionalLong sessionFrame = Decoder.sessionFrame(samples.bytes(start.sha256()));
    progress.at(DECODED);
    Bounce decoded =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  Bounce bounce = Bounce.findById(id);
                  bounce.decoded(facts(file), defects(file.defects()));
                  bounce.marked(found);
                  bounce.stamped(sessionFrame.isPresent() ? sessionFrame.getAsLong() : null);
                  return bounce;
                });
    samples.track(decoded, share -> progress.at(DECODED + (MEASURED - DECODED) * share));
    comparing.placeSections(id, share -> progress.at(MEASURED + (1 - MEASURED) * share));
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              Bounce bounce = Bounce.findById(id);
              bounce.measured(bounce.facts().orElseThrow(), bounce.defects());
              history.append(
                  bounce.song(),
                  bounce.uploader(),
                  Happening.of(bounce, "bounce", "measured", bounce.title() + " is measured."));
              jobs.enqueue(MakeListeningCopy.NAME, id);
              comparing.askUsual(bounce);
            });
  }

  @Override
  public void gaveUp(String id, String reason) {
    fail(
        id,
        Problem.SERVER_FAULT,
        "The file could not be worked on here. Its bytes are kept; ask whoever runs the server.");
  }

  private void fail(String id, Problem problem, String detail) {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              Bounce bounce = Bounce.findById(id);
              bounce.failed(problem, detail);
              history.append(
                  bounce.song(),
                  bounce.uploader(),
                  Happening.of(
                      bounce, "bounce", "failed", bounce.title() + " cannot be used. " + detail));
            });
  }

  static Problem problem(DecodeResult.Reason reason) {
    return switch (reason) {
      case NOT_AUDIO -> Problem.NOT_AUDIO;
      case UNSUPPORTED_FORMAT -> Problem.UNSUPPORTED_FORMAT;
      case NO_AUDIO_FRAMES -> Problem.NO_AUDIO_FRAMES;
      case EMPTY -> Problem.EMPTY_UPLOAD;
      case DISK_FULL -> Problem.DISK_FULL;
    };
  }

  private static AudioFacts facts(DecodedFile file) {
    return new AudioFacts(
        file.container(),
        file.codec(),
        file.sampleRate(),
        file.bitDepth().isPresent() ? file.bitDepth().getAsInt() : null,
        file.significantBits().isPresent() ? file.significantBits().getAsInt() : null,
        file.channels(),
        file.frames(),
        file.lossy(),
        file.sampleFormat().wireName(),
        file.pcmSha256().hex());
  }

  private String defects(List<FileDefect> found) {
    List<Map<String, Object>> rows = new ArrayList<>();
    for (FileDefect defect : found) {
      Map<String, Object> row = new LinkedHashMap<>();
      row.put("code", defect.code());
      row.put("detail", defect.detail());
      row.put("affectsSound", defect.affectsSound());
      defect.fromSeconds().ifPresent(at -> row.put("from", at));
      defect.toSeconds().ifPresent(at -> row.put("to", at));
      rows.add(row);
    }
    try {
      return json.writeValueAsString(rows);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("defects cannot be written", e);
    }
  }
}

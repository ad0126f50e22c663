package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.OptionalLong;
import org.mixaccord.intake.DecodeResult;
import org.mixaccord.intake.DecodedFile;
import org.mixaccord.intake.Decoder;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.EventHub;
import org.mixaccord.songs.AudioState;
import org.mixaccord.songs.Stem;
import org.mixaccord.songs.StemFit;

/** Decodes a part file and looks whether it fits the bounce it belongs to. */
@ApplicationScoped
public class MeasureStem implements Job {
  static final String NAME = "measure-stem";

  private final Samples samples;
  private final Comparing comparing;
  private final EventHub events;

  MeasureStem(Samples samples, Comparing comparing, EventHub events) {
    this.samples = samples;
    this.comparing = comparing;
    this.events = events;
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public void run(String id, Progress progress) throws Exception {
    Stem start = QuarkusTransaction.requiringNew().call(() -> Stem.<Stem>findById(id));
    if (start.ready() || !start.inForce()) {
      return;
    }
    DecodeResult result = samples.decode(start.sha256(), start.fileName());
    if (result instanceof DecodeResult.Rejected rejected) {
      if (rejected.reason() == DecodeResult.Reason.DISK_FULL) {
        throw new ProblemException(Problem.DISK_FULL, rejected.detail());
      }
      fail(id, MeasureBounce.problem(rejected.reason()), rejected.detail());
      return;
    }
    OptionalLong sessionFrame = Decoder.sessionFrame(samples.bytes(start.sha256()));
    keep(id, ((DecodeResult.Decoded) result).file(), sessionFrame);
  }

  private void keep(String id, DecodedFile file, OptionalLong sessionFrame) {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              Stem stem = Stem.findById(id);
              stem.decoded(
                  file.sampleRate(),
                  file.channels(),
                  file.frames(),
                  file.sampleFormat().wireName(),
                  file.pcmSha256().hex());
              stem.lookedAt(
                  file.silent(), sessionFrame.isPresent() ? sessionFrame.getAsLong() : null);
              if (StemFit.usable(stem)) {
                stem.measured();
                if (Stem.of(stem.bounce()).stream().allMatch(MeasureStem::settled)) {
                  comparing.askAgain(stem.bounce());
                }
              } else {
                stem.failed(
                    Problem.LAYOUT_DIFFERS,
                    "This part does not have the rate and length of its mix. "
                        + StemFit.of(stem, List.of()).map(StemFit::words).orElse("")
                        + " Print it from the same start to the same end.");
              }
              tell(stem);
            });
  }

  /** Parts come many at a time; comparing waits for the last of them. */
  private static boolean settled(Stem stem) {
    return stem.state() == AudioState.READY || stem.state() == AudioState.FAILED;
  }

  @Override
  public void gaveUp(String id, String reason) {
    fail(id, Problem.SERVER_FAULT, "The part could not be worked on here. Its bytes are kept.");
  }

  private void fail(String id, Problem problem, String detail) {
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              Stem stem = Stem.findById(id);
              stem.failed(problem, detail);
              tell(stem);
            });
  }

  private void tell(Stem stem) {
    events.progress(stem.bounce().song().id(), stem.bounce().id(), 1);
  }
}

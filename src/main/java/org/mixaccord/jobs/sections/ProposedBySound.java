package org.mixaccord.jobs.sections;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.audio.MarkedSections;
import org.mixaccord.jobs.Samples;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.measure.SectionGuess;
import org.mixaccord.notes.BarGrid;
import org.mixaccord.record.BarsOnRecord;
import org.mixaccord.songs.Bounce;

/** Sections guessed from the sound, at barlines where the tempo is known; always with the doubt. */
@ApplicationScoped
class ProposedBySound implements SectionProposer {
  private static final int FIRST_BAR = -8; // a count-in
  private static final int MOST_BARS = 5000;
  private static final String DOUBT =
      "Guessed from the sound. About half of such boundaries are off by more than half a second or"
          + " are not there at all; listen to each before you keep them.";

  private final Samples samples;
  private final BarsOnRecord bars;

  ProposedBySound(Samples samples, BarsOnRecord bars) {
    this.samples = samples;
    this.bars = bars;
  }

  @Override
  public Optional<SectionProposal> propose(Bounce bounce) throws IOException {
    MeasureTrack track = samples.track(bounce);
    List<SectionGuess.Boundary> guessed = SectionGuess.boundaries(track);
    if (guessed.isEmpty()) {
      return Optional.empty();
    }
    List<Double> barlines =
        QuarkusTransaction.requiringNew()
            .call(() -> barlines(Bounce.<Bounce>findById(bounce.id()), track.seconds()));
    List<MarkedSections.Mark> marks = new ArrayList<>();
    marks.add(mark(0));
    for (double at : SectionGuess.atBarlines(guessed, barlines)) {
      marks.add(mark(at));
    }
    return Marked.proposal(
        "sound",
        DOUBT + (barlines.isEmpty() ? "" : " They were moved to the nearest barline."),
        marks,
        track.seconds());
  }

  private static MarkedSections.Mark mark(double at) {
    return new MarkedSections.Mark(at, OptionalDouble.empty(), "");
  }

  private List<Double> barlines(Bounce bounce, double seconds) {
    BarGrid grid = bars.on(bounce.song(), bounce);
    List<Double> lines = new ArrayList<>();
    for (int bar = FIRST_BAR; bar < MOST_BARS; bar++) {
      OptionalDouble at = grid.seconds((double) bar);
      if (at.isPresent() && at.getAsDouble() >= 0 && at.getAsDouble() < seconds) {
        lines.add(at.getAsDouble());
      } else if (at.orElse(0) >= seconds) {
        break;
      }
    }
    return lines;
  }
}

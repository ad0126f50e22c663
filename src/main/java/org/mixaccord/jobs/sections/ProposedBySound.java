package org.mixaccord.jobs.sections;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.audio.MarkedSections;
import org.mixaccord.audio.TempoMap;
import org.mixaccord.jobs.Samples;
import org.mixaccord.measure.MeasureTrack;
import org.mixaccord.measure.SectionGuess;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** Sections guessed from the sound, at barlines where the tempo is known; always with the doubt. */
@ApplicationScoped
class ProposedBySound implements SectionProposer {
  private static final int MOST_BEATS = 20_000;
  private static final int USUAL_BEATS = 4;
  private static final String DOUBT =
      "Guessed from the sound. About half of such boundaries are off by more than half a second or"
          + " are not there at all; listen to each before you keep them.";

  private final Samples samples;
  private final TempoMaps maps;

  ProposedBySound(Samples samples, TempoMaps maps) {
    this.samples = samples;
    this.maps = maps;
  }

  @Override
  public Optional<SectionProposal> propose(Bounce bounce) throws IOException {
    MeasureTrack track = samples.track(bounce);
    List<SectionGuess.Boundary> guessed = SectionGuess.boundaries(track);
    if (guessed.isEmpty()) {
      return Optional.empty();
    }
    List<Double> bars =
        QuarkusTransaction.requiringNew()
            .call(() -> barlines(Bounce.<Bounce>findById(bounce.id()), track.seconds()));
    List<MarkedSections.Mark> marks = new ArrayList<>();
    marks.add(mark(0));
    for (double at : SectionGuess.atBarlines(guessed, bars)) {
      marks.add(mark(at));
    }
    return Marked.proposal(
        "sound",
        DOUBT + (bars.isEmpty() ? "" : " They were moved to the nearest barline."),
        marks,
        track.seconds());
  }

  private static MarkedSections.Mark mark(double at) {
    return new MarkedSections.Mark(at, OptionalDouble.empty(), "");
  }

  private List<Double> barlines(Bounce bounce, double seconds) {
    Optional<PlacedTempoMap> placed = maps.on(bounce);
    List<TempoMap.Bar> bars = List.of();
    if (placed.isPresent()) {
      bars = placed.get().bars(MOST_BEATS);
    } else if (bounce.song().tempoBpm().isPresent()) {
      Song song = bounce.song();
      bars =
          TempoMap.steady(
                  song.tempoBpm().getAsDouble(),
                  song.beatsPerBar().orElse(USUAL_BEATS),
                  song.firstBarSeconds().orElse(0))
              .bars(0, seconds, MOST_BEATS);
    }
    return bars.stream().map(b -> b.beats().get(0)).toList();
  }
}

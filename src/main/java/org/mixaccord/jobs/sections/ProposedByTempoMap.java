package org.mixaccord.jobs.sections;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.audio.MarkedSections;
import org.mixaccord.audio.midi.MidiReading;
import org.mixaccord.songs.Bounce;

/** Sections out of the markers and cue points of the MIDI file that gave the tempo map. */
@ApplicationScoped
class ProposedByTempoMap implements SectionProposer {
  private final TempoMaps maps;

  ProposedByTempoMap(TempoMaps maps) {
    this.maps = maps;
  }

  @Override
  public Optional<SectionProposal> propose(Bounce bounce) {
    return QuarkusTransaction.requiringNew()
        .call(() -> maps.on(Bounce.<Bounce>findById(bounce.id())).flatMap(this::proposal));
  }

  private Optional<SectionProposal> proposal(PlacedTempoMap placed) {
    List<MarkedSections.Mark> marks = new ArrayList<>();
    for (MidiReading.Mark mark : placed.read().marks()) {
      placed
          .here(placed.read().map().seconds(mark.quarter()))
          .ifPresent(
              at -> marks.add(new MarkedSections.Mark(at, OptionalDouble.empty(), mark.label())));
    }
    String moved =
        placed.map().isPresent() ? " It was given for another mix; they moved with the music." : "";
    return Marked.proposal(
        "tempo-map",
        Marked.count(marks.size())
            + (marks.size() == 1 ? " stands" : " stand")
            + " in the MIDI file. Each begins a section."
            + moved,
        marks,
        placed.seconds());
  }
}

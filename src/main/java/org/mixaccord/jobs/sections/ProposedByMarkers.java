package org.mixaccord.jobs.sections;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.mixaccord.audio.MarkedSections;
import org.mixaccord.audio.container.FileMarker;
import org.mixaccord.jobs.BounceMarkers;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;

/** Sections out of the markers inside the file itself. */
@ApplicationScoped
class ProposedByMarkers implements SectionProposer {
  private final BounceMarkers markers;

  ProposedByMarkers(BounceMarkers markers) {
    this.markers = markers;
  }

  @Override
  public Optional<SectionProposal> propose(Bounce bounce) throws IOException {
    List<FileMarker> found = markers.of(bounce);
    AudioFacts facts = bounce.facts().orElseThrow();
    double rate = facts.sampleRate();
    return Marked.proposal(
        "markers",
        Marked.count(found.size())
            + (found.size() == 1 ? " is" : " are")
            + " stored in this file. Each begins a section.",
        found.stream().map(m -> mark(m, rate)).toList(),
        facts.seconds());
  }

  private static MarkedSections.Mark mark(FileMarker marker, double rate) {
    return new MarkedSections.Mark(
        marker.frame() / rate,
        marker.endFrame().isPresent()
            ? OptionalDouble.of(marker.endFrame().getAsLong() / rate)
            : OptionalDouble.empty(),
        marker.label());
  }
}

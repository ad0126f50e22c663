package org.mixaccord.jobs.sections;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.mixaccord.songs.Bounce;

/** All ways of finding sections, in the order they are offered. */
@ApplicationScoped
public class SectionProposals {
  private final List<SectionProposer> proposers;

  SectionProposals(ProposedByMarkers markers, ProposedByTempoMap tempoMap, ProposedBySound sound) {
    proposers = List.of(markers, tempoMap, sound);
  }

  /** What can be proposed for a measured bounce; to be called outside of a transaction. */
  public List<SectionProposal> of(Bounce bounce) throws IOException {
    List<SectionProposal> proposals = new ArrayList<>();
    for (SectionProposer proposer : proposers) {
      proposer.propose(bounce).ifPresent(proposals::add);
    }
    return proposals;
  }
}

package org.mixaccord.jobs.sections;

import java.io.IOException;
import java.util.Optional;
import org.mixaccord.songs.Bounce;

/** One way of finding sections for a bounce. */
interface SectionProposer {
  /**
   * Proposes sections.
   *
   * @param bounce measured, attached to no transaction
   * @return empty where this way finds nothing
   * @throws IOException if the world failed
   */
  Optional<SectionProposal> propose(Bounce bounce) throws IOException;
}

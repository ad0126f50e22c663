package org.mixaccord.api.v1.songs;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.mixaccord.filenames.NameProposal;
import org.mixaccord.filenames.NameProposal.Use;
import org.mixaccord.songs.BounceKind;

/** What a file's name seems to say, for one confirm. */
public record FileNameReading(
    String name,
    String as,
    String leaveOut,
    SongNamed song,
    String kind,
    String label,
    Integer number,
    Integer sampleRateHz,
    Integer bitDepth,
    String element,
    String side,
    String date,
    Integer pairWith,
    boolean sure,
    String words) {

  /** A song; without an id the project has none by that title. */
  public record SongNamed(String id, String title) {}

  /**
   * What the reader may do with the files.
   *
   * @param anyKind upload more than roughs and references
   * @param newSongs add songs
   */
  record Allowed(boolean anyKind, boolean newSongs) {}

  static FileNameReading of(String name, NameProposal read, Allowed allowed) {
    NameProposal proposal = read.leaveOut().isPresent() ? read : within(read, allowed);
    return new FileNameReading(
        name,
        proposal.use() == Use.STEM ? "stem" : "bounce",
        proposal.leaveOut().orElse(null),
        proposal.title().map(t -> new SongNamed(proposal.songId().orElse(null), t)).orElse(null),
        proposal.kind().orElse(null),
        proposal.label().orElse(null),
        orNull(proposal.number()),
        orNull(proposal.sampleRateHz()),
        orNull(proposal.bitDepth()),
        proposal.element().orElse(null),
        proposal.side().map(NameProposal.Side::word).orElse(null),
        proposal.date().orElse(null),
        orNull(proposal.pairWith()),
        proposal.sure(),
        proposal.words());
  }

  /** The proposal as far as the reader may carry it out. */
  private static NameProposal within(NameProposal read, Allowed allowed) {
    List<String> doubts = new ArrayList<>(read.doubts());
    boolean kindAllowed =
        allowed.anyKind() || read.kind().map(k -> BounceKind.of(k).fromAnyone()).orElse(true);
    if (!kindAllowed) {
      doubts.add("Only engineers upload mixes; yours is taken as a rough.");
    }
    if (read.title().isPresent() && read.songId().isEmpty() && !allowed.newSongs()) {
      doubts.add("There is no such song; an engineer can add it.");
    }
    return read.as(kindAllowed ? read.kind() : java.util.Optional.of("rough"), doubts);
  }

  private static Integer orNull(OptionalInt value) {
    return value.isPresent() ? value.getAsInt() : null;
  }
}

package org.mixaccord.filenames;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.mixaccord.filenames.NameProposal.Side;
import org.mixaccord.filenames.NameProposal.Use;

/** A proposal in the making. */
final class Draft {
  static final String FROM_FOLDER = "The title is taken from the folder.";

  Use use = Use.BOUNCE;
  Optional<String> leaveOut = Optional.empty();
  Optional<String> songId = Optional.empty();
  Optional<String> title = Optional.empty();

  /** The title, if only the folder has it. */
  Optional<String> folderTitle = Optional.empty();

  Optional<String> kind = Optional.empty();
  Optional<String> label = Optional.empty();
  OptionalInt number = OptionalInt.empty();
  OptionalInt sampleRateHz = OptionalInt.empty();
  OptionalInt bitDepth = OptionalInt.empty();
  Optional<String> element = Optional.empty();
  Optional<Side> side = Optional.empty();
  Optional<String> date = Optional.empty();
  OptionalInt pairWith = OptionalInt.empty();

  /** Whether a number at the end was taken for a counter of takes and left away. */
  boolean takeDropped;

  List<String> doubts = List.of();

  void song(NameContext.KnownSong song) {
    songId = Optional.of(song.id());
    title = Optional.of(song.title());
  }

  NameProposal proposal() {
    return new NameProposal(
        use,
        leaveOut,
        songId,
        title,
        kind,
        label,
        number,
        sampleRateHz,
        bitDepth,
        element,
        side,
        date,
        pairWith,
        doubts);
  }
}

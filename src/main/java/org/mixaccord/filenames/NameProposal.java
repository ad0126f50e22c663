package org.mixaccord.filenames;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What a name seems to say. Nothing of it is certain; whoever uploads confirms it.
 *
 * @param use what the file seems to be
 * @param leaveOut why it should not be uploaded; empty if it should
 * @param songId the song it belongs to, if there is one by that title
 * @param title the song's title; empty if the name has none
 * @param kind kind of a bounce, as on the wire; empty for parts and for what is left out
 * @param label what the bounce may be called once it is sent
 * @param number the number of the mix
 * @param sampleRateHz the rate the name speaks of
 * @param bitDepth the depth the name speaks of
 * @param element the part; empty for bounces that name none
 * @param side one channel of two
 * @param date the day the name speaks of, as 2031-04-30
 * @param pairWith place in the list of the other channel
 * @param doubts what whoever confirms should look at, in sentences
 */
public record NameProposal(
    Use use,
    Optional<String> leaveOut,
    Optional<String> songId,
    Optional<String> title,
    Optional<String> kind,
    Optional<String> label,
    OptionalInt number,
    OptionalInt sampleRateHz,
    OptionalInt bitDepth,
    Optional<String> element,
    Optional<Side> side,
    Optional<String> date,
    OptionalInt pairWith,
    List<String> doubts) {

  /** What a file is dropped as. */
  public enum Use {
    BOUNCE,
    STEM
  }

  /** One channel of two. */
  public enum Side {
    LEFT,
    RIGHT;

    /** The other channel. */
    public Side other() {
      return this == LEFT ? RIGHT : LEFT;
    }

    /** Name on the wire and in words. */
    public String word() {
      return this == LEFT ? "left" : "right";
    }
  }

  public NameProposal {
    doubts = List.copyOf(doubts);
  }

  /** The same as another kind, with other doubts. */
  public NameProposal as(Optional<String> otherKind, List<String> otherDoubts) {
    return new NameProposal(
        use,
        leaveOut,
        songId,
        title,
        otherKind,
        otherKind.equals(kind) ? label : Optional.empty(),
        number,
        sampleRateHz,
        bitDepth,
        element,
        side,
        date,
        pairWith,
        otherDoubts);
  }

  /** Whether nothing about it is doubtful. */
  public boolean sure() {
    return doubts.isEmpty();
  }

  /** What was read, and what is doubtful, in sentences. */
  public String words() {
    return ProposalWords.of(this);
  }
}

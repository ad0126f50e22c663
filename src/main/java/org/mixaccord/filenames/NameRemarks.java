package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.mixaccord.filenames.NameProposal.Use;

/** Holds a file's name against its sound and against the files that were there before it. */
public final class NameRemarks {
  private static final String MAIN = "main";

  private final KnownFile here;
  private final List<KnownFile> before;
  private final NameContext context;
  private final List<NameRemark> remarks = new ArrayList<>();

  private NameRemarks(KnownFile here, List<KnownFile> before, NameContext context) {
    this.here = here;
    this.before = before;
    this.context = context;
  }

  /**
   * What is to be said of a file.
   *
   * @param before the project's earlier files the reader may know of, oldest first
   * @param context the project's songs
   */
  public static List<NameRemark> of(KnownFile here, List<KnownFile> before, NameContext context) {
    return new NameRemarks(here, before, context).all();
  }

  private List<NameRemark> all() {
    if (!sameSound()) {
      sameName();
      numberBack();
    }
    NameProposal read = read(here);
    if (read.leaveOut().isPresent()) {
      return remarks;
    }
    rate(read);
    depth(read);
    kind(read);
    song(read);
    return remarks;
  }

  /** The mix that is there already: the newest of the song, else of another. */
  private boolean sameSound() {
    KnownFile same = null;
    for (KnownFile other : before) {
      boolean equal =
          other.sha256().equals(here.sha256())
              || (here.pcmSha256().isPresent() && here.pcmSha256().equals(other.pcmSha256()));
      boolean nearer = same == null || ofThisSong(other) || !ofThisSong(same);
      if (equal && nearer) {
        same = other;
      }
    }
    if (same == null) {
      return false;
    }
    boolean bytes = same.sha256().equals(here.sha256());
    say(
        bytes ? "same-bytes" : "same-sound",
        "This is the mix you already have, "
            + called(same)
            + (bytes
                ? ": byte for byte the same file."
                : ": another file, but the same sound, sample for sample."),
        same);
    return true;
  }

  private void sameName() {
    String name = Fold.composed(here.fileName());
    KnownFile same = null;
    for (KnownFile other : before) {
      if (ofThisSong(other) && Fold.composed(other.fileName()).equalsIgnoreCase(name)) {
        same = other;
      }
    }
    if (same != null && here.pcmSha256().isPresent() && same.pcmSha256().isPresent()) {
      say("same-name", called(same) + " has the same file name, but other sound.", same);
    }
  }

  private void numberBack() {
    OptionalInt number = read(here).number();
    if (!here.kind().equals(MAIN) || number.isEmpty()) {
      return;
    }
    KnownFile newest = null;
    for (KnownFile other : before) {
      if (ofThisSong(other) && other.kind().equals(MAIN)) {
        newest = other;
      }
    }
    if (newest == null) {
      return;
    }
    OptionalInt last = read(newest).number();
    if (last.isPresent() && number.getAsInt() < last.getAsInt()) {
      say(
          "number-back",
          "The name says number "
              + number.getAsInt()
              + ", but the mix uploaded before it, “"
              + newest.fileName()
              + "”, is number "
              + last.getAsInt()
              + ". Is it the one you meant?",
          newest);
    }
  }

  private void rate(NameProposal read) {
    OptionalInt named = read.sampleRateHz();
    if (named.isPresent()
        && here.sampleRateHz().isPresent()
        && !named.equals(here.sampleRateHz())) {
      say(
          "rate-differs",
          "The name says "
              + ProposalWords.kiloHertz(named.getAsInt())
              + ", the file has "
              + ProposalWords.kiloHertz(here.sampleRateHz().getAsInt())
              + ".",
          null);
    }
  }

  private void depth(NameProposal read) {
    OptionalInt named = read.bitDepth();
    if (named.isPresent() && here.bitDepth().isPresent() && !named.equals(here.bitDepth())) {
      say(
          "depth-differs",
          "The name says "
              + named.getAsInt()
              + " bits, the file has "
              + here.bitDepth().getAsInt()
              + ".",
          null);
    }
  }

  private void kind(NameProposal read) {
    String named = read.kind().orElse(MAIN);
    if (!named.equals(MAIN) && !named.equals(here.kind())) {
      say(
          "kind-differs",
          "The name reads like this kind of mix: "
              + named.replace('-', ' ')
              + ". It was uploaded as "
              + here.kind().replace('-', ' ')
              + ".",
          null);
    }
  }

  private void song(NameProposal read) {
    if (read.songId().isPresent() && !read.songId().get().equals(here.songId())) {
      say(
          "song-differs",
          "The name speaks of “"
              + read.title().orElse("")
              + "”, but this is “"
              + here.songTitle()
              + "”.",
          null);
    }
  }

  private NameProposal read(KnownFile file) {
    NamedFile named = new NamedFile(file.fileName(), OptionalLong.empty());
    return FileNames.read(List.of(named), context, Optional.of(Use.BOUNCE)).get(0);
  }

  private boolean ofThisSong(KnownFile other) {
    return other.songId().equals(here.songId());
  }

  private String called(KnownFile other) {
    return other.title()
        + (ofThisSong(other) ? "" : " of “" + other.songTitle() + "”")
        + " (“"
        + other.fileName()
        + "”)";
  }

  private void say(String code, String detail, KnownFile with) {
    remarks.add(new NameRemark(code, detail, Optional.ofNullable(with).map(KnownFile::id)));
  }
}

package org.mixaccord.api.v1.bounces;

import java.util.ArrayList;
import java.util.List;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Stem;
import org.mixaccord.songs.StemFit;

/** A part file as the API shows it. */
public record StemView(
    String id,
    String element,
    String bounce,
    String state,
    String file,
    BounceView.ProblemOfFile problem,
    FitView fit,
    List<StemRemark> remarks) {

  /** Whether it lies where its bounce lies; fits is the bounce it fits, if there is one. */
  public record FitView(String code, String words, String fits) {}

  /** Something odd about the part; stem is the other part, if it is about one. */
  public record StemRemark(String code, String words, String stem) {}

  /**
   * A part among the others of its bounce.
   *
   * @param mixes mains of the song the reader may hear
   */
  static StemView of(Stem stem, List<Stem> others, List<Bounce> mixes) {
    return new StemView(
        stem.id(),
        stem.element(),
        stem.bounce().id(),
        stem.state().wire(),
        stem.fileName(),
        stem.problemCode()
            .map(c -> new BounceView.ProblemOfFile(c, stem.problemDetail().orElse("")))
            .orElse(null),
        StemFit.of(stem, mixes)
            .map(f -> new FitView(f.code(), f.words(), f.fits().orElse(null)))
            .orElse(null),
        remarks(stem, others));
  }

  private static List<StemRemark> remarks(Stem stem, List<Stem> others) {
    List<StemRemark> remarks = new ArrayList<>();
    if (!stem.decoded()) {
      return remarks;
    }
    if (stem.silent()) {
      remarks.add(new StemRemark("silent", "There is nothing on it but silence.", null));
      return remarks;
    }
    if (stem.bounce()
        .facts()
        .map(AudioFacts::pcmSha256)
        .equals(java.util.Optional.of(stem.pcmSha256()))) {
      remarks.add(
          new StemRemark(
              "whole-mix", "This is the whole mix, sample for sample, not a part of it.", null));
    }
    for (Stem other : others) {
      if (!other.id().equals(stem.id())
          && other.decoded()
          && other.pcmSha256().equals(stem.pcmSha256())) {
        remarks.add(
            new StemRemark(
                "same-sound",
                "The same sound as “" + other.element() + "”, sample for sample.",
                other.id()));
      }
    }
    return remarks;
  }
}

package org.mixaccord.jobs;

import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.filenames.FileNames;
import org.mixaccord.filenames.NameProposal;
import org.mixaccord.filenames.NameProposal.Side;
import org.mixaccord.filenames.NameProposal.Use;
import org.mixaccord.filenames.NamedFile;
import org.mixaccord.intake.PairedWav;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.FileRemarks;
import org.mixaccord.songs.StemFit;

/** Left and right that came as two files: noticed, and on request put together as a new bounce. */
@ApplicationScoped
public class Pairing {
  private static final int LONGEST_BASE = 200;
  private static final int UNSAID_BITS = 32;

  /**
   * The other channel of a bounce.
   *
   * @param side which channel the bounce asked about is
   * @param possible whether the two go together as they are
   */
  public record Offer(Bounce with, Side side, boolean possible, String words) {}

  private final Samples samples;
  private final Uploading uploading;

  Pairing(Samples samples, Uploading uploading) {
    this.samples = samples;
    this.uploading = uploading;
  }

  /** The bounce whose name is the same but for the side, to whoever may put the two together. */
  public static Optional<Offer> offer(Bounce bounce, Access access) {
    if (!mono(bounce)) {
      return Optional.empty();
    }
    for (Bounce other : Bounce.of(bounce.song())) {
      if (other.id().equals(bounce.id())
          || !mono(other)
          || other.kind() != bounce.kind()
          || !other.mayBeHeardBy(access)
          || !mayPair(bounce, other, access)) {
        continue;
      }
      Optional<Side> side = sideByNames(bounce, other);
      if (side.isPresent() && Bounce.pairOf(bounce, other).isEmpty()) {
        Optional<String> against = against(bounce, other);
        return Optional.of(
            new Offer(
                other,
                side.get(),
                against.isEmpty(),
                against.orElse(
                    "This looks like the "
                        + side.get().word()
                        + " channel, and “"
                        + other.fileName()
                        + "” like the "
                        + side.get().other().word()
                        + ". They can be put together as one stereo mix; both files stay as they"
                        + " are.")));
      }
    }
    return Optional.empty();
  }

  /** Engineers pair anything; others what they uploaded themselves and may upload. */
  public static boolean mayPair(Bounce one, Bounce other, Access access) {
    String me = access.person().id();
    return access.may(Act.UPLOAD_MAIN)
        || (access.may(Act.UPLOAD_ROUGH)
            && one.kind().fromAnyone()
            && one.uploader().id().equals(me)
            && other.uploader().id().equals(me));
  }

  /**
   * What is to be put together, looked at in a transaction of its own before anything is written.
   *
   * @param made the pair, if the two have been put together before
   */
  public record Plan(
      Bounce left, Bounce right, String song, Optional<String> main, Optional<Bounce> made) {}

  /**
   * Looks whether two bounces can be put together.
   *
   * @param said which side the first is, where the names do not tell
   */
  public Plan plan(Bounce one, Bounce other, Optional<Side> said) {
    if (one.id().equals(other.id())) {
      throw new ProblemException(Problem.INVALID, "A pair needs two different files.");
    }
    if (!one.song().id().equals(other.song().id()) || one.kind() != other.kind()) {
      throw new ProblemException(
          Problem.INVALID, "Only two files of one song and one kind are put together.");
    }
    if (!one.ready() || !other.ready()) {
      throw new ProblemException(
          Problem.NOT_MEASURED, "Both files have to be measured before they are put together.");
    }
    if (!mono(one) || !mono(other)) {
      throw new ProblemException(
          Problem.LAYOUT_DIFFERS, "Only two mono files are put together as left and right.");
    }
    against(one, other)
        .ifPresent(
            words -> {
              throw new ProblemException(Problem.WRONG_STATE, words);
            });
    Side side =
        said.or(() -> sideByNames(one, other))
            .orElseThrow(
                () ->
                    new ProblemException(
                            Problem.INVALID,
                            "The names do not say which file is left. Say the “side” of this one.")
                        .with("field", "side"));
    Bounce left = side == Side.LEFT ? one : other;
    Bounce right = side == Side.LEFT ? other : one;
    return new Plan(
        left, right, left.song().id(), left.main().map(Bounce::id), Bounce.pairOf(left, right));
  }

  /** Makes the stereo bounce; a pair made before is answered again. */
  public Bounce make(Plan plan, Uploading.Sender sender) {
    return plan.made().orElseGet(() -> write(plan, sender));
  }

  private Bounce write(Plan plan, Uploading.Sender sender) {
    try (PcmFile left = samples.open(plan.left());
        PcmFile right = samples.open(plan.right());
        PairedWav wav =
            new PairedWav(left, right, Math.max(bits(plan.left()), bits(plan.right())))) {
      Uploading.Sender named =
          new Uploading.Sender(
              sender.person(), sender.role(), name(plan.left()), OptionalLong.of(wav.length()));
      return uploading.pair(wav, named, plan);
    } catch (IOException e) {
      throw new ProblemException(
          Problem.BUSY, "The two files could not be read just now. Try again in a moment.");
    }
  }

  private static int bits(Bounce bounce) {
    Integer depth = bounce.facts().orElseThrow().bitDepth();
    return depth == null ? UNSAID_BITS : depth;
  }

  private static String name(Bounce left) {
    String name = FileNames.withoutSide(left.fileName());
    int end =
        name.offsetByCodePoints(0, Math.min(LONGEST_BASE, name.codePointCount(0, name.length())));
    return name.substring(0, end) + " (left and right paired).wav";
  }

  private static boolean mono(Bounce bounce) {
    return bounce.ready() && bounce.facts().map(f -> f.channels() == 1).orElse(false);
  }

  /** Why two mono bounces cannot become one, in words. */
  private static Optional<String> against(Bounce one, Bounce other) {
    AudioFacts a = one.facts().orElseThrow();
    AudioFacts b = other.facts().orElseThrow();
    String named = "“" + other.fileName() + "” would be the other channel, but ";
    if (a.sampleRate() != b.sampleRate()) {
      return Optional.of(named + "it has another sample rate. Print both again from one session.");
    }
    if (a.frames() != b.frames()) {
      double apart = Math.abs((double) (a.frames() - b.frames())) / a.sampleRate();
      return Optional.of(
          named
              + "it is "
              + StemFit.apart(apart)
              + (b.frames() > a.frames() ? " longer" : " shorter")
              + " ("
              + Math.abs(a.frames() - b.frames())
              + " samples). Print both from the same start to the same end.");
    }
    if (!a.sampleFormat().equals(b.sampleFormat())) {
      return Optional.of(
          named + "one is floating point and the other is not. Print both in the same format.");
    }
    return Optional.empty();
  }

  private static Optional<Side> sideByNames(Bounce one, Bounce other) {
    List<NameProposal> read =
        FileNames.read(
            List.of(
                new NamedFile(one.fileName(), OptionalLong.empty()),
                new NamedFile(other.fileName(), OptionalLong.empty())),
            FileRemarks.context(one.song().project()),
            Optional.of(Use.BOUNCE));
    return read.get(0).pairWith().isPresent() ? read.get(0).side() : Optional.empty();
  }
}

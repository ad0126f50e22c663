package org.mixaccord.api.v1.bounces;

import com.fasterxml.jackson.annotation.JsonRawValue;
import java.time.Instant;
import java.util.List;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.filenames.NameRemark;
import org.mixaccord.jobs.Pairing;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.AudioState;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.FileRemarks;

/** A bounce as the API shows it. */
public record BounceView(
    String id,
    String song,
    int number,
    String label,
    String proposedLabel,
    String title,
    String kind,
    String of,
    boolean sent,
    Instant sentAt,
    Integer round,
    String message,
    String state,
    double progress,
    ProblemOfFile problem,
    FileView file,
    @JsonRawValue String defects,
    String uploader,
    String uploaderName,
    Instant uploadedAt,
    List<RemarkView> nameRemarks,
    PairOffer pairOffer,
    List<String> pairedFrom) {

  /** Something odd about the file's name; with is the other bounce, if it is about one. */
  public record RemarkView(String code, String detail, String with) {
    static RemarkView of(NameRemark remark) {
      return new RemarkView(remark.code(), remark.detail(), remark.with().orElse(null));
    }
  }

  /** The bounce that looks like the other channel of this one. */
  public record PairOffer(String with, String title, String side, boolean possible, String words) {
    static PairOffer of(Pairing.Offer offer) {
      return new PairOffer(
          offer.with().id(),
          offer.with().title(),
          offer.side().word(),
          offer.possible(),
          offer.words());
    }
  }

  /** Why a file could not be used. */
  public record ProblemOfFile(String code, String detail) {}

  /** The file as uploaded; what only decoding tells is null until then. */
  public record FileView(
      String name,
      long bytes,
      String sha256,
      String container,
      String codec,
      Integer sampleRate,
      Integer bitDepth,
      Integer significantBits,
      Integer channels,
      Long frames,
      Double seconds,
      Boolean lossy,
      String pcmSha256) {
    static FileView of(Bounce bounce) {
      AudioFacts facts = bounce.facts().orElse(null);
      if (facts == null) {
        return new FileView(
            bounce.fileName(),
            bounce.bytes(),
            bounce.sha256(),
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null);
      }
      return new FileView(
          bounce.fileName(),
          bounce.bytes(),
          bounce.sha256(),
          facts.container(),
          facts.codec(),
          facts.sampleRate(),
          facts.bitDepth(),
          facts.significantBits(),
          facts.channels(),
          facts.frames(),
          facts.seconds(),
          facts.lossy(),
          facts.pcmSha256());
    }
  }

  /** A bounce the reader may hear, in a list: nothing is said of it beside others. */
  public static BounceView of(Bounce bounce, Access access) {
    return of(bounce, access, null, null, null);
  }

  /** A bounce by itself, with what can be said of it beside the others the reader may hear. */
  public static BounceView alone(Bounce bounce, Access access) {
    return of(
        bounce,
        access,
        FileRemarks.of(bounce, access).stream().map(RemarkView::of).toList(),
        Pairing.offer(bounce, access).map(PairOffer::of).orElse(null),
        bounce.halves().stream().filter(b -> b.mayBeHeardBy(access)).map(Bounce::id).toList());
  }

  private static BounceView of(
      Bounce bounce,
      Access access,
      List<RemarkView> remarks,
      PairOffer pair,
      List<String> pairedFrom) {
    return new BounceView(
        bounce.id(),
        bounce.song().id(),
        bounce.number(),
        bounce.label().orElse(null),
        access.may(Act.SEND) ? bounce.proposedLabel().orElse(null) : null,
        bounce.title(),
        bounce.kind().wire(),
        bounce.main().map(Bounce::id).orElse(null),
        bounce.sent(),
        bounce.sentAt().orElse(null),
        bounce.round().orElse(null),
        bounce.message().orElse(null),
        bounce.state().wire(),
        bounce.state() == AudioState.READY ? 1 : bounce.progress(),
        bounce
            .problemCode()
            .map(code -> new ProblemOfFile(code, bounce.problemDetail().orElse("")))
            .orElse(null),
        FileView.of(bounce),
        bounce.defects(),
        bounce.uploader().id(),
        bounce.uploader().name(),
        bounce.uploadedAt(),
        remarks,
        pair,
        pairedFrom);
  }
}

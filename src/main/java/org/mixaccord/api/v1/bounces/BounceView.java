package org.mixaccord.api.v1.bounces;

import com.fasterxml.jackson.annotation.JsonRawValue;
import java.time.Instant;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.AudioState;
import org.mixaccord.songs.Bounce;

/** A bounce as the API shows it. */
public record BounceView(
    String id,
    String song,
    int number,
    String label,
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
    Instant uploadedAt) {

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

  /** A bounce the reader may hear. */
  public static BounceView of(Bounce bounce) {
    return new BounceView(
        bounce.id(),
        bounce.song().id(),
        bounce.number(),
        bounce.label().orElse(null),
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
        bounce.uploadedAt());
  }
}

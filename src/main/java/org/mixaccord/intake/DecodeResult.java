package org.mixaccord.intake;

/** What became of decoding a file. */
public sealed interface DecodeResult {
  /** There is sound, and it has been kept. */
  record Decoded(DecodedFile file) implements DecodeResult {}

  /** No sound can be had from it; {@code detail} says in a musician's words why and what to do. */
  record Rejected(Reason reason, String detail) implements DecodeResult {}

  /** Why there is no sound. */
  enum Reason {
    NOT_AUDIO("not-audio"),
    UNSUPPORTED_FORMAT("unsupported-format"),
    NO_AUDIO_FRAMES("no-audio-frames"),
    EMPTY("empty-upload"),
    DISK_FULL("disk-full");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    /** Code of the problem catalogue. */
    public String code() {
      return code;
    }
  }
}

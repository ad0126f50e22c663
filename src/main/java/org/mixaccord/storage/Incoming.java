package org.mixaccord.storage;

/** What became of an upload. */
public sealed interface Incoming {
  /**
   * The bytes are on the disk for good.
   *
   * @param alreadyHere true if the same bytes had been stored before
   */
  record Stored(Sha256 sha256, long bytes, boolean alreadyHere) implements Incoming {}

  /** Nothing was kept; {@code detail} says in plain words why and what to do. */
  record Refused(Reason reason, String detail) implements Incoming {}

  /** Why an upload was not kept. */
  enum Reason {
    EMPTY("empty-upload", 422),
    TOO_LARGE("too-large", 413),
    DISK_FULL("disk-full", 507),
    /** The line broke before the whole file had arrived. */
    CUT_OFF("upload-cut", 400);

    private final String code;
    private final int status;

    Reason(String code, int status) {
      this.code = code;
      this.status = status;
    }

    /** Code of the problem catalogue. */
    public String code() {
      return code;
    }

    /** HTTP status that goes with it. */
    public int status() {
      return status;
    }
  }
}

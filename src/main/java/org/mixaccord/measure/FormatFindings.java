package org.mixaccord.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/** Findings about the file: what it says of itself, and the bits it really uses. */
final class FormatFindings {
  /** Word lengths audio is made in; what uses no more was made in that one. */
  private static final int[] MADE_IN = {16, 24};

  private static final double BITS_FROM_SECONDS = 1;

  private final MeasureTrack track;
  private final DeliveryLimits limits;
  private final FileFacts file;
  private final List<Finding> all = new ArrayList<>();

  FormatFindings(MeasureTrack track, DeliveryLimits limits, FileFacts file) {
    this.track = track;
    this.limits = limits;
    this.file = file;
  }

  List<Finding> work() {
    rate();
    depth();
    usedBits();
    return all;
  }

  private void rate() {
    if (limits.sampleRate().isEmpty() || limits.sampleRate().getAsInt() == file.sampleRate()) {
      return;
    }
    int agreed = limits.sampleRate().getAsInt();
    all.add(
        whole(
            "out-of-spec",
            Severity.FAULT,
            "The file has a sample rate of "
                + Words.hertz(file.sampleRate())
                + "; "
                + Words.hertz(agreed)
                + " was agreed.",
            OptionalDouble.of(file.sampleRate()),
            agreed,
            Basis.AGREED));
  }

  private void depth() {
    if (limits.bitDepth().isEmpty()) {
      return;
    }
    int agreed = limits.bitDepth().getAsInt();
    if (file.bitDepth().isPresent() && file.bitDepth().getAsInt() != agreed) {
      int bits = file.bitDepth().getAsInt();
      all.add(
          whole(
              "out-of-spec",
              Severity.FAULT,
              "The file has " + bits + " bits a sample; " + agreed + " bits were agreed.",
              OptionalDouble.of(bits),
              agreed,
              Basis.AGREED));
    } else if (file.lossy()) {
      all.add(
          whole(
              "out-of-spec",
              Severity.FAULT,
              "The file is lossy; a file of " + agreed + " bits a sample was agreed.",
              OptionalDouble.empty(),
              agreed,
              Basis.AGREED));
    }
  }

  private void usedBits() {
    if (file.lossy()
        || file.bitDepth().isEmpty()
        || track.seconds() < BITS_FROM_SECONDS
        || track.silent(0, track.cells().count())) {
      return;
    }
    int stored = file.bitDepth().getAsInt();
    OptionalInt used = file.floating() ? track.marks().gridBits() : file.usedBits();
    int made = 0;
    for (int bits : MADE_IN) {
      if (made == 0 && used.isPresent() && used.getAsInt() <= bits) {
        made = bits;
      }
    }
    if (made == 0 || made >= stored) {
      return;
    }
    boolean agreed = limits.bitDepth().isPresent() && limits.bitDepth().getAsInt() > made;
    String stands =
        file.floating()
            ? "The file is stored as floating point, but every sample is a " + made + "-bit value"
            : "The file has "
                + stored
                + " bits a sample, but only "
                + used.getAsInt()
                + " of them are used";
    all.add(
        whole(
            "fewer-bits",
            agreed && !file.floating() ? Severity.WARNING : Severity.HINT,
            stands + ". It looks as if it was made from a " + made + "-bit file or export.",
            OptionalDouble.of(used.getAsInt()),
            agreed ? limits.bitDepth().getAsInt() : stored,
            agreed ? Basis.AGREED : Basis.CUSTOM));
  }

  private Finding whole(
      String code,
      Severity severity,
      String detail,
      OptionalDouble value,
      double limit,
      Basis basis) {
    return new Finding(
        code, severity, detail, 0, track.seconds(), value, OptionalDouble.of(limit), basis);
  }
}

package org.mixaccord.measure;

import java.util.Arrays;

/** The kinds of findings and what stands behind each; the table in docs/measurement.md agrees. */
enum FindingCode {
  OVER("over", Basis.AGREED),
  CLIPPED("clipped", Basis.CUSTOM),
  FLAT_TOPS("flat-tops", Basis.CUSTOM),
  INTERSAMPLE_OVER("intersample-over", Basis.standard("ITU-R BS.1770")),
  DIGITAL_SILENCE("digital-silence", Basis.CUSTOM),
  DEAD_AIR("dead-air", Basis.CUSTOM),
  ONE_SIDED_SILENCE("one-sided-silence", Basis.CUSTOM),
  DC_OFFSET("dc-offset", Basis.CUSTOM),
  CUT_HEAD("cut-head", Basis.CUSTOM),
  CUT_TAIL("cut-tail", Basis.CUSTOM),
  DROPOUT("dropout", Basis.CUSTOM),
  CLICK("click", Basis.CUSTOM),
  MONO_LOSS("mono-loss", Basis.CUSTOM),
  LOOKS_LOSSY("looks-lossy", Basis.CUSTOM),
  FEWER_BITS("fewer-bits", Basis.CUSTOM),
  NOT_A_NUMBER("not-a-number", Basis.FACT),
  OUT_OF_SPEC("out-of-spec", Basis.AGREED);

  private final String word;
  private final Basis basis;

  FindingCode(String word, Basis basis) {
    this.word = word;
    this.basis = basis;
  }

  /** Kebab case, as it goes over the wire. */
  String word() {
    return word;
  }

  Basis basis() {
    return basis;
  }

  static FindingCode of(String word) {
    return Arrays.stream(values())
        .filter(c -> c.word.equals(word))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no finding is called " + word));
  }
}

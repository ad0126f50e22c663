package org.mixaccord.audio.container;

/** How the samples of a plain container are written. */
public enum SampleCoding {
  /** Two's complement, left-justified in its bytes. */
  SIGNED,
  /** Offset binary, silence in the middle of the range. */
  UNSIGNED,
  /** IEEE 754, full scale 1.0. */
  FLOAT,
  /** Not PCM: a coded stream inside the container. */
  CODED
}

package org.mixaccord.intake;

import io.quarkus.arc.Unremovable;
import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import java.time.Duration;

/** Limits of the child processes that decode and encode. */
@Unremovable
@ConfigMapping(prefix = "mixaccord.intake")
public interface IntakeConfig {
  /** The longest a child may take for one file. */
  @WithDefault("PT10M")
  Duration childTime();

  /** Address space of a child, in bytes. */
  @WithDefault("4294967296")
  long childMemoryBytes();

  /** The most decoded audio one file may turn into, in bytes (6 hours of 96 kHz stereo). */
  @WithDefault("17179869184")
  long maxDecodedBytes();
}

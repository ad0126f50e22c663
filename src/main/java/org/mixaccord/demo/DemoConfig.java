package org.mixaccord.demo;

import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;

/** Whether the server fills itself with an invented example. */
@ConfigMapping(prefix = "mixaccord")
public interface DemoConfig {
  /** Make the demo's people, songs and story at the first start. */
  @WithDefault("false")
  boolean demo();
}

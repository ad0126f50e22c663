package org.mixaccord.storage;

import io.quarkus.arc.Unremovable;
import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import io.smallrye.config.WithName;
import java.nio.file.Path;

/** Where files lie and how much room they may take. */
@Unremovable
@ConfigMapping(prefix = "mixaccord")
public interface StorageConfig {
  /** Folder of everything Mixaccord keeps: audio, derived files and, if embedded, the database. */
  @WithDefault("data")
  Path dataDir();

  Storage storage();

  /** Limits of the audio store. */
  interface Storage {
    /** The largest single file that is taken, in bytes. */
    @WithName("max-upload-bytes")
    @WithDefault("4294967296")
    long maxUploadBytes();

    /** Free space, in bytes, that uploads and derived files always leave on the disk. */
    @WithName("reserve-bytes")
    @WithDefault("268435456")
    long reserveBytes();
  }
}

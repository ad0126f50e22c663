package org.mixaccord.storage;

import io.quarkus.arc.Unremovable;
import io.smallrye.config.ConfigMapping;
import io.smallrye.config.WithDefault;
import io.smallrye.config.WithName;
import java.nio.file.Path;
import java.time.Duration;
import java.util.OptionalLong;

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
    /**
     * The largest single file that is taken, in bytes: 5 GiB, so that four full GiB of audio and
     * everything else in their file fit.
     */
    @WithName("max-upload-bytes")
    @WithDefault("5368709120")
    long maxUploadBytes();

    /** What the files of one project may take together, in bytes; without it, what the disk has. */
    @WithName("project-bytes")
    OptionalLong projectBytes();

    /** How many files one person may be sending at the same time. */
    @WithName("uploads-at-once")
    @WithDefault("16")
    int uploadsAtOnce();

    /** How many uploads one person may have begun and not finished. */
    @WithName("unfinished-uploads")
    @WithDefault("500")
    int unfinishedUploads();

    /** How long an upload that nobody goes on with is kept. */
    @WithName("unfinished-last")
    @WithDefault("P7D")
    Duration unfinishedLast();

    /** Free space, in bytes, that uploads and derived files always leave on the disk. */
    @WithName("reserve-bytes")
    @WithDefault("268435456")
    long reserveBytes();
  }
}

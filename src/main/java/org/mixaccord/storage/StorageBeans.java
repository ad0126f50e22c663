package org.mixaccord.storage;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Produces;
import jakarta.inject.Singleton;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Makes the stores that the configuration asks for. */
@ApplicationScoped
class StorageBeans {
  @Produces
  @Singleton
  Disk disk(StorageConfig config) throws IOException {
    return Disk.of(folder(config));
  }

  @Produces
  @Singleton
  AudioStore audioStore(StorageConfig config, Disk disk) throws IOException {
    return new FolderAudioStore(folder(config), config.storage().reserveBytes(), disk);
  }

  @Produces
  @Singleton
  DerivedFiles derivedFiles(StorageConfig config, Disk disk) throws IOException {
    return new DerivedFiles(folder(config), config.storage().reserveBytes(), disk);
  }

  private static Path folder(StorageConfig config) throws IOException {
    return Files.createDirectories(config.dataDir().toAbsolutePath().normalize());
  }
}

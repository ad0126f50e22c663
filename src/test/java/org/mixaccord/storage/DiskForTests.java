package org.mixaccord.storage;

import io.quarkus.test.Mock;
import jakarta.inject.Singleton;
import java.util.OptionalLong;

/** A disk as roomy as a test says; without word from one, there is plenty of room. */
@Mock
@Singleton
public class DiskForTests implements Disk {
  private static final long PLENTY = 1L << 40;

  private final StorageConfig config;
  private volatile OptionalLong room = OptionalLong.empty();

  DiskForTests(StorageConfig config) {
    this.config = config;
  }

  @Override
  public long usableBytes() {
    return room.orElse(PLENTY);
  }

  /** From now on just so many bytes fit beside the reserve. */
  public void leave(long bytes) {
    room = OptionalLong.of(config.storage().reserveBytes() + bytes);
  }

  /** There is plenty of room again. */
  public void clear() {
    room = OptionalLong.empty();
  }
}

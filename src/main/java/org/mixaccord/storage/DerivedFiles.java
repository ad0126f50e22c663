package org.mixaccord.storage;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * What was made from uploaded audio and can be made again: decoded PCM, measure tracks, listening
 * copies. All are found by the hash of the decoded audio; each kind has a folder of its own that
 * may be emptied at any time the server is down.
 */
public final class DerivedFiles {
  private final Path folder;
  private final Path unfinished;
  private final long reserveBytes;
  private final Disk disk;

  /** Derived files in this folder; {@code reserveBytes} always stay free on its disk. */
  public DerivedFiles(Path folder, long reserveBytes) throws IOException {
    this(folder, reserveBytes, Disk.of(folder));
  }

  /** The same with the disk's room told by somebody else. */
  public DerivedFiles(Path folder, long reserveBytes, Disk disk) throws IOException {
    this.folder = folder;
    this.unfinished = folder.resolve("unfinished");
    this.reserveBytes = reserveBytes;
    this.disk = disk;
    SafeFiles.deleteTree(unfinished);
    Files.createDirectories(unfinished);
  }

  /** Decoded samples, raw; {@code format} is {@code s32}, {@code f32} or {@code f64}. */
  public Path pcm(Sha256 pcmSha256, String format) {
    return folder.resolve("pcm").resolve(pcmSha256.place() + "." + format);
  }

  /** The measure track written by this version of the measuring. */
  public Path track(Sha256 pcmSha256, int version) {
    return folder.resolve("tracks").resolve(pcmSha256.place() + ".v" + version);
  }

  /** Folder of the listening copies. */
  public Path listening(Sha256 pcmSha256) {
    return folder.resolve("listening").resolve(pcmSha256.place());
  }

  /** A fresh empty file on the same file system; {@link #publish} moves it to its place. */
  public Path unfinished(String kind) throws IOException {
    return Files.createTempFile(unfinished, kind, ".part");
  }

  /** Puts a finished file in its place, durably; one that is there already is replaced. */
  public void publish(Path finished, Path target) throws IOException {
    SafeFiles.publish(finished, target);
  }

  /** Bytes that may be written before the reserve is touched; never negative. */
  public long roomBytes() throws IOException {
    return Math.max(0, disk.usableBytes() - reserveBytes);
  }

  /** Removes everything made from this audio. */
  public void remove(Sha256 pcmSha256) throws IOException {
    for (String format : new String[] {"s32", "f32", "f64"}) {
      Files.deleteIfExists(pcm(pcmSha256, format));
    }
    SafeFiles.deleteTree(listening(pcmSha256));
    Path tracks = track(pcmSha256, 0).getParent();
    if (Files.isDirectory(tracks)) {
      try (var files = Files.newDirectoryStream(tracks, pcmSha256.hex() + ".v*")) {
        for (Path file : files) {
          Files.deleteIfExists(file);
        }
      }
    }
  }
}

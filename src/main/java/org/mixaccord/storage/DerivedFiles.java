package org.mixaccord.storage;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/**
 * What was made from uploaded audio and can be made again: decoded PCM, measure tracks, listening
 * copies, copies on other time lines, short clips. All but the clips are found by the hash of the
 * decoded audio; each kind has a folder of its own that may be emptied at any time the server is
 * down, that of the listening copies also while it runs.
 */
public final class DerivedFiles {
  private static final int NO_VERSION = 0;

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

  /** A short stretch rendered to be listened to, by a name of its own. */
  public Path clip(String name) {
    return folder.resolve("clips").resolve(name + ".wav");
  }

  /** Folder of the copies of this audio that lie on the time lines of others. */
  public Path laid(Sha256 pcmSha256) {
    return folder.resolve("laid").resolve(pcmSha256.place());
  }

  /** Removes the clips and laid copies that were rendered before an instant. */
  public void removeRenderedBefore(Instant instant) throws IOException {
    for (Path rendered : List.of(folder.resolve("clips"), folder.resolve("laid"))) {
      if (Files.isDirectory(rendered)) {
        try (var files = Files.walk(rendered)) {
          for (Path file : files.filter(Files::isRegularFile).toList()) {
            if (Files.getLastModifiedTime(file).toInstant().isBefore(instant)) {
              Files.deleteIfExists(file);
            }
          }
        }
      }
    }
  }

  /** A fresh empty file on the same file system; {@link #publish} moves it to its place. */
  public Path unfinished(String kind) throws IOException {
    return Files.createTempFile(unfinished, kind, ".part");
  }

  /** Writes a file that nobody sees before it is whole. */
  @FunctionalInterface
  public interface Maker {
    void write(Path unfinished) throws IOException;
  }

  /**
   * Makes a file of at most so many bytes and puts it in its place; nothing is left of one that
   * could not be finished.
   *
   * @throws ProblemException {@code disk-full} when there is not room for twice as much: where
   *     moving is copying, the file is there two times for a moment
   */
  public void make(String kind, long mostBytes, Path target, Maker maker) throws IOException {
    if (roomBytes() < 2 * mostBytes) {
      throw new ProblemException(
          Problem.DISK_FULL,
          "The server has no room for what it makes from the sound. Tell whoever runs it.");
    }
    Path finished = unfinished(kind);
    try {
      maker.write(finished);
      publish(finished, target);
    } finally {
      Files.deleteIfExists(finished);
    }
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
    SafeFiles.deleteTree(laid(pcmSha256));
    removeTracksBut(pcmSha256, NO_VERSION);
  }

  /** Whether there is a measure track that another version of the measuring wrote. */
  public boolean hasTrackBut(Sha256 pcmSha256, int version) throws IOException {
    return !tracks(pcmSha256, track(pcmSha256, version)).isEmpty();
  }

  /** Removes the measure tracks that other versions of the measuring wrote. */
  public void removeTracksBut(Sha256 pcmSha256, int version) throws IOException {
    for (Path file : tracks(pcmSha256, track(pcmSha256, version))) {
      Files.deleteIfExists(file);
    }
  }

  private List<Path> tracks(Sha256 pcmSha256, Path but) throws IOException {
    Path there = but.getParent();
    List<Path> found = new ArrayList<>();
    if (Files.isDirectory(there)) {
      try (var files = Files.newDirectoryStream(there, pcmSha256.hex() + ".v*")) {
        files.forEach(found::add);
      }
    }
    found.remove(but);
    return found;
  }
}

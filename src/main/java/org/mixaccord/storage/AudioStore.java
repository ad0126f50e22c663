package org.mixaccord.storage;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Optional;

/** Uploaded files, byte for byte as they came, found by the hash of their bytes. */
public interface AudioStore {
  /**
   * Takes an upload. It is answered as stored only when it would survive a power cut; memory does
   * not grow with its length.
   *
   * @throws IOException if the store itself fails in a way that is nobody's material
   */
  Incoming receive(InputStream body, UploadLimits limits) throws IOException;

  /**
   * Takes over a file that has come whole and whose hash is known. Done twice, or after the same
   * bytes came another way, it changes nothing more; afterwards the file is gone from where it was.
   */
  void adopt(Path file, Sha256 sha256, long bytes) throws IOException;

  /** A local file with these bytes, to be read only. */
  Optional<Path> find(Sha256 sha256);

  /** Forgets these bytes, if they are there. */
  void remove(Sha256 sha256) throws IOException;
}

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
  default Incoming receive(InputStream body, UploadLimits limits) throws IOException {
    return receive(body, limits, whole -> {});
  }

  /**
   * Takes an upload that has to pass a proof once it has come whole. What does not pass was never
   * in the store, so that nobody else's equal bytes are touched by its end.
   *
   * @param proof ends the upload by throwing
   */
  Incoming receive(InputStream body, UploadLimits limits, Proof proof) throws IOException;

  /** Looks at a file before it is kept. */
  @FunctionalInterface
  interface Proof {
    void look(Path whole) throws IOException;
  }

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

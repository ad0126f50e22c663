package org.mixaccord.storage;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What the sender of a piece says its hash is. */
public final class Checksum {
  /** The algorithms that are understood, as the upload protocol names them. */
  public static final List<String> ALGORITHMS = List.of("sha1", "sha256", "md5");

  private final MessageDigest digest;
  private final byte[] expected;

  private Checksum(MessageDigest digest, byte[] expected) {
    this.digest = digest;
    this.expected = expected.clone();
  }

  /** A checksum for one piece; empty if nobody here knows the algorithm. */
  public static Optional<Checksum> of(String algorithm, byte[] expected) {
    String name = algorithm.toLowerCase(Locale.ROOT);
    if (!ALGORITHMS.contains(name)) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          new Checksum(MessageDigest.getInstance(name.replace("sha", "SHA-")), expected));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  MessageDigest digest() {
    return digest;
  }

  /** Whether what the digest has seen is what the sender sent. */
  boolean agrees() {
    return MessageDigest.isEqual(digest.digest(), expected);
  }
}

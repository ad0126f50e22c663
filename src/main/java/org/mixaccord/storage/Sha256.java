package org.mixaccord.storage;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.regex.Pattern;

/** SHA-256 as 64 lower-case hexadecimal digits: the name of a file by its content. */
public record Sha256(String hex) {
  private static final Pattern SHAPE = Pattern.compile("[0-9a-f]{64}");

  public Sha256 {
    if (!SHAPE.matcher(hex).matches()) {
      throw new IllegalArgumentException("not a SHA-256: " + hex);
    }
  }

  /** The hash a digest has come to; the digest starts anew. */
  public static Sha256 of(MessageDigest digest) {
    return new Sha256(HexFormat.of().formatHex(digest.digest()));
  }

  /** A fresh digest. */
  public static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Folder and name, so that no folder grows too large: {@code ab/abcd…}. */
  String place() {
    return hex.substring(0, 2) + "/" + hex;
  }

  @Override
  public String toString() {
    return hex;
  }
}

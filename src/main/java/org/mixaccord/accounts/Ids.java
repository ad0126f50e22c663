package org.mixaccord.accounts;

import java.security.SecureRandom;

/** Opaque ids and secrets: random, lower-case, safe in a path. */
public final class Ids {
  private static final String ALPHABET = "abcdefghijkmnpqrstuvwxyz23456789";
  private static final SecureRandom RANDOM = new SecureRandom();
  private static final int ID_CHARS = 16;
  private static final int SECRET_CHARS = 40;

  private Ids() {}

  /** A new id of 80 random bits. */
  public static String fresh() {
    return random(ID_CHARS);
  }

  /** A new secret of 200 random bits; only its hash is kept. */
  public static String secret() {
    return random(SECRET_CHARS);
  }

  /** A random number that nobody can guess, for an order or a draw. */
  public static long seed() {
    return RANDOM.nextLong();
  }

  private static String random(int chars) {
    StringBuilder id = new StringBuilder(chars);
    for (int i = 0; i < chars; i++) {
      id.append(ALPHABET.charAt(RANDOM.nextInt(ALPHABET.length())));
    }
    return id.toString();
  }
}

package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.List;

/** The tokens of one name, who has taken which, and what came of it so far. */
final class Board {
  /** What a token was taken for. */
  enum Claim {
    TRACK,
    SONG,
    ARTIST,
    DATE,
    RATE,
    KIND,
    NUMBER,
    FINAL,
    SIDE,
    NOISE
  }

  private final List<NameToken> tokens;
  private final Claim[] claims;
  private final List<String> doubts = new ArrayList<>();

  Board(String name) {
    tokens = NameTokens.of(name);
    claims = new Claim[tokens.size()];
  }

  int size() {
    return claims.length;
  }

  NameToken at(int i) {
    return tokens.get(i);
  }

  boolean free(int i) {
    return i >= 0 && i < claims.length && claims[i] == null;
  }

  boolean free(int from, int to) {
    for (int i = from; i < to; i++) {
      if (!free(i)) {
        return false;
      }
    }
    return to <= claims.length;
  }

  boolean is(int i, Claim claim) {
    return i >= 0 && i < claims.length && claims[i] == claim;
  }

  boolean any(Claim claim) {
    for (Claim c : claims) {
      if (c == claim) {
        return true;
      }
    }
    return false;
  }

  void claim(int from, int to, Claim claim) {
    for (int i = from; i < to; i++) {
      claims[i] = claim;
    }
  }

  /** The tokens folded and joined without anything between. */
  String joined(int from, int to) {
    StringBuilder joined = new StringBuilder();
    for (int i = from; i < to; i++) {
      joined.append(at(i).norm());
    }
    return joined.toString();
  }

  /** The tokens folded with single spaces between. */
  String spaced(int from, int to) {
    StringBuilder spaced = new StringBuilder();
    for (int i = from; i < to; i++) {
      spaced.append(i == from ? "" : " ").append(at(i).norm());
    }
    return spaced.toString();
  }

  /** The tokens as given, with single spaces for separators. */
  String text(int from, int to) {
    StringBuilder text = new StringBuilder();
    for (int i = from; i < to; i++) {
      boolean number = at(i).glued() && (at(i).digits() || at(Math.max(from, i - 1)).digits());
      if (i > from && !number) {
        text.append(' ');
      }
      text.append(at(i).text());
    }
    return text.toString();
  }

  void doubt(String sentence) {
    if (!doubts.contains(sentence)) {
      doubts.add(sentence);
    }
  }

  List<String> doubts() {
    return doubts;
  }
}

package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.List;

/** Cuts a name at its separators, at capitals inside words, and between letters and digits. */
final class NameTokens {
  /** Names are at most 255 letters on disks; whatever is longer was not typed. */
  private static final int LONGEST = 1024;

  private static final int SHORTEST_BEFORE_V = 3;

  private final String text;
  private final List<NameToken> tokens = new ArrayList<>();
  private int gapStart;

  private NameTokens(String text) {
    this.text = text;
  }

  static List<NameToken> of(String name) {
    String composed = Fold.composed(name);
    return new NameTokens(composed.length() > LONGEST ? composed.substring(0, LONGEST) : composed)
        .cut();
  }

  private List<NameToken> cut() {
    int at = 0;
    while (at < text.length()) {
      int c = text.codePointAt(at);
      if (isWord(c)) {
        int end = digit(c) ? numberEnd(at) : wordEnd(at);
        add(at, end);
        at = end;
        gapStart = end;
      } else if (standsForAnd(at)) {
        add(at, at + 1, "and");
        at++;
        gapStart = at;
      } else {
        at += Character.charCount(c);
      }
    }
    return tokens;
  }

  /** "Ebb & Flow", "ebb+flow"; the + of "vox+1" is a sign. */
  private boolean standsForAnd(int at) {
    char c = text.charAt(at);
    boolean betweenLetters =
        at > 0
            && at + 1 < text.length()
            && Character.isLetter(text.codePointBefore(at))
            && Character.isLetter(text.codePointAt(at + 1));
    return c == '&' || (c == '+' && betweenLetters);
  }

  private void add(int start, int end) {
    String word = text.substring(start, end);
    String norm = word.indexOf('.') >= 0 ? word : Fold.fold(word);
    if (!norm.isEmpty()) {
      add(start, end, norm);
    }
  }

  private void add(int start, int end, String norm) {
    String word = text.substring(start, end);
    String gap = text.substring(gapStart, start);
    if (!tokens.isEmpty()) {
      NameToken last = tokens.remove(tokens.size() - 1);
      tokens.add(new NameToken(last.text(), last.norm(), last.before(), gap));
    }
    int next = end;
    while (next < text.length() && !isWord(text.codePointAt(next))) {
      next += Character.charCount(text.codePointAt(next));
    }
    tokens.add(new NameToken(word, norm, gap, text.substring(end, next)));
  }

  private int numberEnd(int start) {
    int at = start;
    while (at < text.length()) {
      char c = text.charAt(at);
      boolean point =
          c == '.' && at > start && at + 1 < text.length() && digit(text.charAt(at + 1));
      if (!digit(c) && !point) {
        break;
      }
      at++;
    }
    return at;
  }

  private int wordEnd(int start) {
    int at = start;
    while (at < text.length()) {
      int c = text.codePointAt(at);
      int next = at + Character.charCount(c);
      if (digit(c) || (!isWord(c) && !apostropheInside(at))) {
        break;
      }
      if (at > start
          && ((Character.isUpperCase(c) && newWord(start, at)) || numberWord(start, at))) {
        break;
      }
      at = next;
    }
    return at;
  }

  private boolean newWord(int start, int at) {
    int before = text.codePointBefore(at);
    if (Character.isLowerCase(before)) {
      return at - start > 1; // "kHz" is one word
    }
    // "TVMix" is TV and Mix; "GTRs" and "LVox" stay whole
    return Character.isUpperCase(before)
        && at - start >= 2
        && at + 2 < text.length()
        && Character.isLowerCase(text.charAt(at + 1))
        && Character.isLowerCase(text.charAt(at + 2));
  }

  /** The v of "Ebbv2"; "bgv2" are backing vocals. */
  private boolean numberWord(int start, int at) {
    return at - start >= SHORTEST_BEFORE_V
        && Character.toLowerCase(text.charAt(at)) == 'v'
        && at + 1 < text.length()
        && digit(text.charAt(at + 1));
  }

  private boolean apostropheInside(int at) {
    return "'\u2019\u02bc\u00b4`".indexOf(text.charAt(at)) >= 0
        && at + 1 < text.length()
        && Character.isLetter(text.codePointAt(at + 1));
  }

  private static boolean isWord(int c) {
    int type = Character.getType(c);
    return Character.isLetterOrDigit(c)
        || type == Character.NON_SPACING_MARK
        || type == Character.COMBINING_SPACING_MARK;
  }

  private static boolean digit(int c) {
    return c >= '0' && c <= '9';
  }
}

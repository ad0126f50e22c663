package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.notes.Token.Kind;

/** Cuts a note into tokens in one pass. Typographic marks are read as their plain forms. */
final class Tokenizer {
  private static final int LONGEST_QUOTE = 80;
  private static final int MOST_DIGITS = 9;

  /** Words cut short, which end no sentence. */
  private static final Set<String> SHORTENED =
      Set.of("acous", "elec", "instr", "trmp", "approx", "incl", "esp", "ac", "el");

  private final String text;
  private final char[] plain;
  private final List<Token> tokens = new ArrayList<>();
  private int at;

  private Tokenizer(String text) {
    this.text = text;
    plain = new char[text.length()];
    for (int i = 0; i < plain.length; i++) {
      plain[i] = plain(text.charAt(i));
    }
  }

  static List<Token> tokenize(String text) {
    Tokenizer tokenizer = new Tokenizer(text);
    while (tokenizer.at < tokenizer.plain.length) {
      tokenizer.next();
    }
    return tokenizer.tokens;
  }

  private static char plain(char c) {
    switch (c) {
      case '\u2018', '\u2019', '\u02bc', '\u2032', '`', '\u00b4', '\uff07':
        return '\'';
      case '\u201c', '\u201d', '\u201e', '\u00ab', '\u00bb', '\u2033', '\uff02':
        return '"';
      case '\u2212', '\u2010', '\u2011':
        return '-';
      case '\u2013', '\u2014', '\u2015':
        return '\u2013';
      case '\u00a0', '\u2009', '\u202f', '\t':
        return ' ';
      case '\u2022', '\u00b7', '\u25cf', '\u25aa':
        return '\u2022';
      case '\r', '\u2028', '\u2029':
        return '\n';
      default:
        return Character.toLowerCase(c);
    }
  }

  private void next() {
    char c = plain[at];
    if (c == ' ') {
      at++;
    } else if (isDigit(c) || (c == '.' && isDigit(peek(1)) && !isDigit(peek(-1)))) {
      number(0);
    } else if (c == '\'' && closeOfSingle() > 0) {
      add(Kind.QUOTED, "\"", closeOfSingle() + 1 - at);
    } else if (Character.isLetter(c) || (c == '\'' && Character.isLetter(peek(1)))) {
      word();
    } else {
      mark(c);
    }
  }

  private char peek(int by) {
    int i = at + by;
    return i >= 0 && i < plain.length ? plain[i] : '\n';
  }

  private static boolean isDigit(char c) {
    return c >= '0' && c <= '9';
  }

  private void mark(char c) {
    switch (c) {
      case '\n' -> add(Kind.STOP, "\n", 1);
      case '.', '\u2026' -> stop(c);
      case ';' -> face(Kind.STOP);
      case '!' -> add(Kind.STOP, "!", 1);
      case '?' -> add(Kind.ASK, "?", 1);
      case ':' -> face(Kind.COLON);
      case '/' -> slash();
      case ',', ')', ']', '|', '~' -> add(Kind.MARK, String.valueOf(c), 1);
      case '(', '[' -> bracket();
      case '&' -> add(Kind.WORD, "and", 1);
      case '+', '-', '\u2013' -> signOrDash(c);
      case '"' -> quote();
      case '\u2022', '*', '>' -> add(lineStart() ? Kind.BULLET : Kind.MARK, "*", 1);
      case '%' -> add(Kind.WORD, "%", 1);
      case '@' -> at();
      case '<' -> at += Asides.tag(text, at);
      case '=' -> add(Kind.WORD, "=", 1);
      default -> at++;
    }
  }

  private void face(Kind otherwise) {
    int length = Asides.face(text, at);
    if (length > 0 && text.substring(at + length).isBlank()) {
      at += length;
      return;
    }
    String sign = String.valueOf(plain[at]);
    add(length > 0 ? Kind.MARK : otherwise, sign, Math.max(1, length));
  }

  /** "@1:30"; "@Maren" names who is meant to read it. */
  private void at() {
    if (isDigit(peek(1)) || peek(1) == ' ' && isDigit(peek(2))) {
      add(Kind.WORD, "at", 1);
      return;
    }
    at += 1 + Asides.mention(text, at + 1);
  }

  /** A full stop ends a sentence; three of them before more words are a pause. */
  private void stop(char c) {
    int end = at;
    while (end < plain.length && (plain[end] == '.' || plain[end] == '\u2026')) {
      end++;
    }
    int next = end;
    while (next < plain.length && plain[next] == ' ') {
      next++;
    }
    if (c == '.' && end - at == 1 && isShortened(next)) {
      at++;
      return;
    }
    boolean pause = (c == '\u2026' || end - at >= 2) && next < plain.length;
    if (pause && Character.isLetterOrDigit(plain[next])) {
      add(Kind.MARK, ",", end - at);
    } else {
      add(Kind.STOP, String.valueOf(c), 1);
    }
  }

  /** "Acous. brighter": the word was cut short, the sentence goes on. */
  private boolean isShortened(int next) {
    int start = at;
    while (start > 0 && Character.isLetter(plain[start - 1])) {
      start--;
    }
    boolean goesOn = next < plain.length && Character.isLetterOrDigit(plain[next]);
    return goesOn && next > at + 1 && SHORTENED.contains(new String(plain, start, at - start));
  }

  /** "L/R" is one word in two letters; any other slash stands between two things. */
  private void slash() {
    boolean letters =
        Character.isLetter(peek(-1))
            && !Character.isLetter(peek(-2))
            && Character.isLetter(peek(1))
            && !Character.isLetterOrDigit(peek(2));
    if (letters) {
      at++;
    } else {
      add(Kind.MARK, "/", 1);
    }
  }

  private void bracket() {
    // "(a)" and "(2)" before a point of a list
    if (peek(2) == ')' && Character.isLetterOrDigit(peek(1))) {
      add(Kind.BULLET, "*", 3);
    } else {
      add(Kind.MARK, "(", 1);
    }
  }

  private void signOrDash(char c) {
    boolean numberFollows = isDigit(peek(1)) || (peek(1) == '.' && isDigit(peek(2)));
    boolean adds = !tokens.isEmpty() && !tokens.get(tokens.size() - 1).is(Kind.WORD);
    boolean listed = adds && peek(-1) == ' ' && isNumber(tokens.get(tokens.size() - 1));
    boolean spacedNumber = c == '+' && peek(1) == ' ' && isDigit(peek(2)) && !listed;
    char before = peek(-1);
    boolean glued = Character.isLetterOrDigit(before);
    if (lineStart() && !numberFollows) {
      add(Kind.BULLET, "*", 1);
    } else if ((numberFollows && !glued) || (numberFollows && c == '+') || spacedNumber) {
      int sign = c == '+' ? 1 : -1;
      int start = at;
      at += spacedNumber ? 2 : 1;
      number(sign);
      Token last = tokens.remove(tokens.size() - 1);
      tokens.add(new Token(last.kind(), last.norm(), last.value(), sign, start, last.end()));
    } else if (c == '-' && glued && Character.isLetter(peek(1)) && Character.isLetter(before)) {
      at++;
    } else if (c == '+') {
      add(Kind.WORD, "and", 1);
    } else {
      add(Kind.DASH, "-", 1);
    }
  }

  /** "Chorus 1 + 2", "1:10 + 1:30". */
  private static boolean isNumber(Token token) {
    return token.is(Kind.NUMBER) && token.signed() == 0 || token.is(Kind.CLOCK);
  }

  private boolean lineStart() {
    for (int i = at - 1; i >= 0 && i >= at - 8; i--) {
      if (plain[i] == '\n') {
        return true;
      }
      if (plain[i] != ' ') {
        return false;
      }
    }
    return at <= 8;
  }

  /** Where a word or two in single quotation marks end, or −1: "on 'never'". */
  private int closeOfSingle() {
    boolean opens = Character.isLetter(peek(1)) && !Character.isLetterOrDigit(peek(-1));
    if (!opens) {
      return -1;
    }
    int spaces = 0;
    for (int i = at + 1; i < plain.length && i <= at + LONGEST_QUOTE && plain[i] != '\n'; i++) {
      spaces += plain[i] == ' ' ? 1 : 0;
      boolean ends = i + 1 >= plain.length || !Character.isLetterOrDigit(plain[i + 1]);
      if (plain[i] == '\'' && ends && plain[i - 1] != ' ') {
        return i;
      }
      if (spaces > 3) {
        return -1;
      }
    }
    return -1;
  }

  private void quote() {
    int close = -1;
    for (int i = at + 1; i < plain.length && i <= at + LONGEST_QUOTE && plain[i] != '\n'; i++) {
      if (plain[i] == '"') {
        close = i;
        break;
      }
    }
    if (close < 0) {
      at++;
    } else {
      add(Kind.QUOTED, "\"", close + 1 - at);
    }
  }

  private void word() {
    int start = at;
    StringBuilder norm = new StringBuilder();
    while (at < plain.length) {
      char c = plain[at];
      if (Character.isLetterOrDigit(c)) {
        norm.append(c);
      } else if (c != '\'' || !Character.isLetter(peek(1))) {
        break;
      }
      at++;
    }
    if (norm.toString().equals("w") && at < plain.length && plain[at] == '/') {
      at++;
      boolean without = at < plain.length && plain[at] == 'o';
      at += without ? 1 : 0;
      tokens.add(new Token(Kind.WORD, without ? "without" : "with", 0, 0, start, at));
      return;
    }
    boolean point = norm.length() == 1 && peek(0) == ')' && norm.charAt(0) <= 'h';
    boolean listLetter = norm.length() == 1 && peek(0) == ')' && startsLine(start);
    listLetter |= point && opensPoint(start);
    if (listLetter) {
      at++;
      tokens.add(new Token(Kind.BULLET, "*", 0, 0, start, at));
      return;
    }
    tokens.add(new Token(Kind.WORD, norm.toString(), 0, 0, start, at));
  }

  private boolean startsLine(int start) {
    int here = at;
    at = start;
    boolean starts = lineStart();
    at = here;
    return starts;
  }

  private void number(int sign) {
    int start = at;
    Optional<ClockTime> time = ClockTime.at(plain, start);
    if (time.isPresent()) {
      at = time.get().end();
      tokens.add(new Token(Kind.CLOCK, "clock", time.get().seconds(), 0, start, at));
      return;
    }
    int i = at;
    while (i < plain.length && isDigit(plain[i])) {
      i++;
    }
    boolean fraction =
        i + 1 < plain.length
            && (plain[i] == '.' || (plain[i] == ',' && isDecimalComma(i)))
            && isDigit(plain[i + 1]);
    if (fraction) {
      i++;
      while (i < plain.length && isDigit(plain[i])) {
        i++;
      }
    }
    boolean thousands = plain[at] != '0' && i - at <= 3 && isThousands(i);
    i += thousands ? 4 : 0;
    String digits = text.substring(at, i).replace(",", thousands ? "" : ".");
    boolean listNumber =
        sign == 0
            && !fraction
            && i - start <= 2
            && i + 1 < plain.length
            && (plain[i] == '.' || plain[i] == ')')
            && (startsLine(start) || plain[i] == ')' && opensPoint(start))
            && !isDigit(plain[i + 1]);
    at = i;
    if (listNumber) {
      at++;
      tokens.add(new Token(Kind.BULLET, "*", 0, 0, start, at));
      return;
    }
    String ordinal = ordinalSuffix();
    if (!ordinal.isEmpty()) {
      at += 2;
      tokens.add(new Token(Kind.WORD, digits + ordinal, 0, 0, start, at));
      return;
    }
    double value = parse(digits);
    tokens.add(new Token(Kind.NUMBER, digits, value, 0, start, at));
  }

  /** "… 2) the claps": a point of a list within a line, and no end of a bracket. */
  private boolean opensPoint(int start) {
    if (start == 0 || plain[start - 1] != ' ') {
      return false;
    }
    for (int i = start - 1; i >= 0 && i >= start - LONGEST_QUOTE; i--) {
      if (plain[i] == '(') {
        return false;
      }
      if (plain[i] == ')' || plain[i] == '\n') {
        return true;
      }
    }
    return true;
  }

  private boolean isDecimalComma(int comma) {
    return !(comma + 2 < plain.length && isDigit(plain[comma + 2]));
  }

  /** "1,250 Hz". */
  private boolean isThousands(int comma) {
    if (comma + 3 >= plain.length || plain[comma] != ',') {
      return false;
    }
    boolean three =
        isDigit(plain[comma + 1]) && isDigit(plain[comma + 2]) && isDigit(plain[comma + 3]);
    return three && !(comma + 4 < plain.length && isDigit(plain[comma + 4]));
  }

  private String ordinalSuffix() {
    if (at + 2 > plain.length || (at + 2 < plain.length && Character.isLetter(plain[at + 2]))) {
      return "";
    }
    String two = new String(plain, at, 2);
    return two.equals("st") || two.equals("nd") || two.equals("rd") || two.equals("th") ? two : "";
  }

  /** To a thousandth: nobody asks for less, and nothing shows more. */
  private static double parse(String digits) {
    int point = digits.indexOf('.');
    if ((point < 0 ? digits.length() : point) > MOST_DIGITS) {
      return Math.pow(10, MOST_DIGITS);
    }
    return Math.rint(1000 * Double.parseDouble(digits)) / 1000;
  }

  private void add(Kind kind, String norm, int length) {
    tokens.add(new Token(kind, norm, 0, 0, at, at + length));
    at += length;
  }
}

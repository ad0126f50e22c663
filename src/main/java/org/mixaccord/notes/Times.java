package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.mixaccord.notes.Token.Kind;

/**
 * Times and bars that are not written as a player shows them: "at 1.30", "45 seconds in", "m. 17",
 * "bars 9 and 12".
 */
final class Times {
  /** Minutes and seconds with a point between them, which as an amount nobody writes so. */
  private static final Pattern POINTED = Pattern.compile("\\d{1,2}\\.[0-5]\\d");

  private static final Set<String> LEADS = Set.of("at", "from", "in", "after", "before", "until");
  private static final Set<String> ROUGHLY = Set.of("around", "about", "near", "by", "till", "til");
  private static final Set<String> MOVED = Set.of("up", "down", "by", "plus", "minus", "louder");
  private static final Set<String> SECONDS = Set.of("s", "sec", "secs", "second", "seconds");
  private static final Set<String> BARS = Set.of("bars", "measures", "mm");

  /** What itself lasts so many seconds. */
  private static final Set<String> LASTING =
      Set.of(
          "delay",
          "echo",
          "reverb",
          "verb",
          "decay",
          "tail",
          "fade",
          "fades",
          "release",
          "ring",
          "predelay",
          "attack",
          "silence",
          "gap",
          "cut",
          "trim");

  private static final Set<String> MINUTES = Set.of("min", "mins", "minute", "minutes");

  private static final int NEAR = 5;

  private final List<Token> tokens;
  private final List<Token> out = new ArrayList<>();

  private Times(List<Token> tokens) {
    this.tokens = tokens;
  }

  /** The same tokens with such times and bars as clock times and bars. */
  static List<Token> of(List<Token> tokens) {
    Times times = new Times(tokens);
    int i = 0;
    while (i < tokens.size()) {
      i = times.step(i);
    }
    return times.out;
  }

  private int step(int i) {
    Token token = tokens.get(i);
    if (token.is(Kind.NUMBER) && token.signed() == 0) {
      if (isPointed(i)) {
        int point = token.norm().indexOf('.');
        double minutes = Double.parseDouble(token.norm().substring(0, point));
        double seconds = Double.parseDouble(token.norm().substring(point + 1));
        return clock(60 * minutes + seconds, i, i + 1);
      }
      if (isMinutes(i)) {
        int closes = i + 3 < tokens.size() && SECONDS.contains(tokens.get(i + 3).norm()) ? 4 : 3;
        return clock(60 * token.value() + tokens.get(i + 2).value(), i, i + closes);
      }
      int end = secondsEnd(i);
      if (end > i) {
        return clock(token.value(), i, end);
      }
    }
    boolean sign = token.is("m") || token.is("mm") || token.is("b");
    if (sign && isPoint(i + 1, token) && isCount(i + 2)) {
      out.add(new Token(Kind.WORD, "bar", 0, 0, token.start(), token.end()));
      out.add(tokens.get(i + 2));
      return i + 3;
    }
    if (token.is(Kind.WORD) && BARS.contains(token.norm()) && isCount(i + 1)) {
      return bars(i);
    }
    out.add(token);
    return i + 1;
  }

  /** "6 min 02", "3 minutes 10 seconds". */
  private boolean isMinutes(int i) {
    boolean minutes = i + 2 < tokens.size() && MINUTES.contains(tokens.get(i + 1).norm());
    Token rest = minutes ? tokens.get(i + 2) : null;
    return minutes && rest.is(Kind.NUMBER) && rest.signed() == 0 && rest.value() < 60;
  }

  private int clock(double seconds, int from, int next) {
    int start = tokens.get(from).start();
    out.add(new Token(Kind.CLOCK, "clock", seconds, 0, start, tokens.get(next - 1).end()));
    return next;
  }

  private boolean isPointed(int i) {
    if (!POINTED.matcher(tokens.get(i).norm()).matches() || Amounts.at(tokens, i).isPresent()) {
      return false;
    }
    boolean opens = i == 0 || tokens.get(i - 1).is(Kind.BULLET) || tokens.get(i - 1).is("\n");
    opens |= i > 0 && tokens.get(i - 1).is(Kind.STOP);
    if (opens) {
      return i + 1 < tokens.size() && !tokens.get(i + 1).is(Kind.STOP);
    }
    Token before = tokens.get(i - 1);
    if (LEADS.contains(before.norm())) {
      return true;
    }
    boolean moved = i > 1 && MOVED.contains(tokens.get(i - 2).norm());
    if (ROUGHLY.contains(before.norm())) {
      return !moved && !before.is("by");
    }
    boolean enclosed =
        before.is(Kind.MARK)
            && before.norm().equals("(")
            && i + 1 < tokens.size()
            && tokens.get(i + 1).is(Kind.MARK)
            && tokens.get(i + 1).norm().equals(")");
    // "1.30 to 1.45", "between 1.30 and 1.45"
    int last = out.size() - 1;
    boolean joins =
        before.is(Kind.DASH) || before.is("to") || before.is("and") || before.is(Kind.MARK);
    return enclosed || joins && last > 0 && out.get(last - 1).is(Kind.CLOCK);
  }

  /** Index after "45s" of "at 45s", or "45 seconds in"; the same index where it is an amount. */
  private int secondsEnd(int i) {
    if (i + 1 >= tokens.size() || !SECONDS.contains(tokens.get(i + 1).norm()) || lasts(i)) {
      return i;
    }
    int next = i + 2;
    if (next < tokens.size() && tokens.get(next).is("mark")) {
      return next + 1;
    }
    boolean closes =
        next < tokens.size()
            && tokens.get(next).is("in")
            && (next + 1 >= tokens.size() || !tokens.get(next + 1).is(Kind.WORD));
    if (closes) {
      return next + 1;
    }
    boolean led = i > 0 && (tokens.get(i - 1).is("at") || tokens.get(i - 1).is("from"));
    boolean edge = next < tokens.size() && (is(next, "from") || is(next, "before"));
    return led && !edge ? next : i;
  }

  private boolean lasts(int i) {
    for (int k = Math.max(0, i - NEAR); k < i; k++) {
      if (LASTING.contains(tokens.get(k).norm())) {
        return true;
      }
    }
    return false;
  }

  /** "Bars 9, 12 and 14" are three places. */
  private int bars(int i) {
    Token word = tokens.get(i);
    out.add(new Token(Kind.WORD, "bars", 0, 0, word.start(), word.end()));
    out.add(tokens.get(i + 1));
    int next = i + 2;
    double last = tokens.get(i + 1).value();
    while (next + 1 < tokens.size() && isListed(next, last)) {
      Token number = tokens.get(next + 1);
      out.add(tokens.get(next));
      out.add(new Token(Kind.WORD, "bar", 0, 0, number.start(), number.start()));
      out.add(number);
      last = number.value();
      next += 2;
    }
    return next;
  }

  private boolean isListed(int joint, double last) {
    boolean comma = tokens.get(joint).is(Kind.MARK) && tokens.get(joint).norm().equals(",");
    return (comma || tokens.get(joint).is("and"))
        && isCount(joint + 1)
        && tokens.get(joint + 1).value() > last
        && Amounts.at(tokens, joint + 1).isEmpty();
  }

  private boolean isPoint(int i, Token after) {
    return i < tokens.size()
        && tokens.get(i).is(Kind.STOP)
        && tokens.get(i).norm().equals(".")
        && tokens.get(i).start() == after.end();
  }

  private boolean isCount(int i) {
    return i < tokens.size()
        && tokens.get(i).is(Kind.NUMBER)
        && tokens.get(i).signed() == 0
        && !tokens.get(i).norm().contains(".");
  }

  private boolean is(int i, String word) {
    return tokens.get(i).is(word);
  }
}

package org.mixaccord.filenames;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.mixaccord.filenames.Board.Claim;
import org.mixaccord.filenames.Markers.About;

/** Finds the number of a mix and what to call it: "Mix 3a" out of MIX_03a, v3a, rev 3 a. */
final class NumberWords {
  private static final int MOST_DIGITS = 3;
  private static final int MOST_WORDS = 3;

  /** A bare number over this rather belongs to a title. */
  private static final int LARGEST_BARE = 20;

  private final Board board;
  private OptionalInt number = OptionalInt.empty();
  private Optional<String> written = Optional.empty();
  private Optional<String> ofFinal = Optional.empty();

  NumberWords(Board board) {
    this.board = board;
  }

  OptionalInt number() {
    return number;
  }

  /** What follows "Mix" in the label: 3, 3a, 1.2, B. */
  Optional<String> written() {
    return written;
  }

  /** The label when the name has no number but calls itself final. */
  Optional<String> ofFinal() {
    return ofFinal;
  }

  /** Takes words of number such as v3, "mix 3" or "3rd mix". */
  void takeNamed() {
    for (int i = 0; i < board.size(); i++) {
      ordinal(i);
      for (int to = Math.min(board.size(), i + MOST_WORDS); to > i; to--) {
        if (board.free(i, to)
            && Markers.is(board.joined(i, to), About.NUMBER)
            && after(i, to, Claim.NUMBER)) {
          break;
        }
      }
      if (board.free(i)
          && Markers.is(board.at(i).norm(), About.GLUED)
          && board.free(i + 1)
          && board.at(i + 1).glued()) {
        after(i, i + 1, Claim.NUMBER);
      }
    }
  }

  private void ordinal(int at) {
    if (board.free(at, at + 3)
        && board.at(at).digits()
        && short3(board.at(at))
        && board.at(at + 1).glued()
        && List.of("st", "nd", "rd", "th").contains(board.at(at + 1).norm())
        && Markers.is(board.at(at + 2).norm(), About.NUMBER)
        && number.isEmpty()) {
      number = OptionalInt.of(board.at(at).value());
      written = Optional.of(String.valueOf(board.at(at).value()));
      board.claim(at, at + 3, Claim.NUMBER);
    }
  }

  /** Takes "rough 2" and "master3", and what calls itself final. */
  void takeBehindKinds() {
    for (int i = 0; i < board.size(); i++) {
      if (board.is(i, Claim.KIND) && !board.is(i + 1, Claim.KIND) && number.isEmpty()) {
        after(i + 1, i + 1, Claim.NUMBER);
      }
    }
    for (int i = 0; i < board.size(); i++) {
      if (board.is(i, Claim.FINAL)) {
        String label = "Final";
        if (board.free(i + 1)
            && board.at(i + 1).digits()
            && short3(board.at(i + 1))
            && !board.at(i + 1).before().contains("(")) {
          label = "Final " + board.at(i + 1).value();
          board.claim(i + 1, i + 2, Claim.FINAL);
        }
        if (ofFinal.isEmpty() || label.length() > ofFinal.get().length()) {
          ofFinal = Optional.of(label);
        }
      }
    }
  }

  /** Takes a signature with a number (JQ3), else a bare number; both doubted. */
  void takeBare() {
    for (int i = 1; i < board.size() && number.isEmpty(); i++) {
      if (board.free(i, i + 1)
          && board.at(i).initials()
          && board.free(i + 1)
          && board.at(i + 1).glued()
          && after(i, i + 1, Claim.NUMBER)) {
        board.doubt("“" + board.text(i, i + 1) + number.getAsInt() + "” is taken for a number.");
      }
    }
    for (int i = 1; i < board.size() && number.isEmpty(); i++) {
      if (board.free(i)
          && board.at(i).digits()
          && board.at(i).text().length() <= 2
          && board.at(i).value() <= LARGEST_BARE
          && !board.at(i).before().contains("(")
          && after(i, i, Claim.NUMBER)) {
        board.doubt("The number stands alone; it may belong to the title.");
      }
    }
  }

  /** Doubts a name in which a second small number was left over, as in "mix 5 (master 2)". */
  void doubtSecond() {
    for (int i = 1; i < board.size() && number.isPresent(); i++) {
      if (board.free(i) && board.at(i).digits() && board.at(i).text().length() <= 2) {
        board.doubt("The name has more than one number.");
      }
    }
  }

  /** Takes the number that follows tokens from (inclusive) to (exclusive), if one does. */
  private boolean after(int from, int to, Claim claim) {
    if (!board.free(to)
        || board.at(to).before().contains("(")
        || (to > from && board.at(to).before().contains(" - "))) {
      return false;
    }
    NameToken token = board.at(to);
    int end = to + 1;
    String says;
    int value;
    if (token.digits() && short3(token)) {
      value = token.value();
      says = String.valueOf(value);
      if (board.free(end) && board.at(end).glued() && letter(board.at(end))) {
        says += board.at(end).norm();
        end++;
      }
    } else if (token.decimal() && token.text().matches("\\d{1,3}\\.\\d{1,3}")) {
      value = Integer.parseInt(token.text().substring(0, token.text().indexOf('.')));
      says = token.text();
    } else if (to > from && Markers.is(token.norm(), About.COUNT)) {
      value = Integer.parseInt(Markers.find(token.norm(), About.COUNT).orElseThrow().value());
      says = String.valueOf(value);
    } else {
      return false;
    }
    if (number.isEmpty()) {
      number = OptionalInt.of(value);
      written = Optional.of(says);
    } else if (number.getAsInt() != value) {
      board.doubt("The name has more than one number.");
    }
    board.claim(from, end, claim);
    return true;
  }

  private static boolean short3(NameToken token) {
    return token.text().length() <= MOST_DIGITS;
  }

  private static boolean letter(NameToken token) {
    return token.norm().length() == 1
        && token.norm().charAt(0) >= 'a'
        && token.norm().charAt(0) <= 'h';
  }
}

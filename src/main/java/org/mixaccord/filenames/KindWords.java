package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.filenames.Board.Claim;
import org.mixaccord.filenames.Markers.About;
import org.mixaccord.filenames.Markers.Marker;

/** Finds what a bounce is of its song, and says so of every word that means nothing more. */
final class KindWords {
  /** Words of one marker, as in "no lead vocal". */
  private static final int MOST_WORDS = 4;

  /** Decibels people print a vocal up or down by; "vox-07" is a part's number. */
  private static final double LARGEST_STEP_DB = 6;

  private static final List<String> WEAKER =
      List.of("main", "clean", "reference", "rough", "master", "loud-copy");

  private final Board board;
  private final boolean songKnown;
  private final Set<String> kinds = new LinkedHashSet<>();
  private final List<String> doubtful = new ArrayList<>();

  /**
   * Words of kind on a board.
   *
   * @param songKnown whether the title has been found, so that everyday words are no part of it
   */
  KindWords(Board board, boolean songKnown) {
    this.board = board;
    this.songKnown = songKnown;
  }

  /** Takes the words from the board. */
  void take() {
    for (int i = 0; i < board.size(); i++) {
      vocalMoved(i);
    }
    for (int i = 0; i < board.size(); i++) {
      for (int to = Math.min(board.size(), i + MOST_WORDS); to > i; to--) {
        if (board.free(i, to) && marker(i, to)) {
          break;
        }
      }
    }
  }

  private boolean marker(int from, int to) {
    Optional<Marker> found =
        Markers.find(
            board.joined(from, to),
            About.KIND,
            About.MAIN,
            About.FINAL,
            About.CUT,
            About.COPY,
            About.NOISE,
            About.STEMS);
    if (found.isEmpty() || (found.get().everyday() && beginsTitle(from, to))) {
      return false;
    }
    Marker marker = found.get();
    switch (marker.about()) {
      case KIND -> {
        kinds.add(marker.value());
        board.claim(from, to, Claim.KIND);
        if (board.joined(from, to).endsWith("edit")) {
          doubtful.add("“" + board.text(from, to) + "” may be a shorter edit.");
        }
        if (marker.everyday() && !songKnown && insideTitle(from)) {
          board.doubt("“" + board.text(from, to) + "” may belong to the title.");
        }
      }
      case FINAL -> board.claim(from, to, Claim.FINAL);
      case CUT -> {
        board.claim(from, to, Claim.NOISE);
        doubtful.add("It seems to be an edit (“" + board.text(from, to) + "”).");
      }
      default -> board.claim(from, to, Claim.NOISE);
    }
    return true;
  }

  /** "Clean Break": an everyday word in front, and words of the same kind go on. */
  private boolean beginsTitle(int from, int to) {
    if (songKnown) {
      return false;
    }
    for (int i = 0; i < from; i++) {
      if (board.free(i) || board.is(i, Claim.KIND)) {
        return false;
      }
    }
    return board.free(to)
        && board.at(to).letters()
        && !board.at(to).separated()
        && Markers.find(board.at(to).norm(), About.KIND, About.MAIN, About.NUMBER, About.FINAL)
            .isEmpty();
  }

  private boolean insideTitle(int at) {
    return board.free(at - 1) && !board.at(at).separated() && board.at(at).capital();
  }

  /** "vox up", "LV+0.5dB", "vocal -1". */
  private void vocalMoved(int at) {
    for (int to = at + 2; to > at; to--) {
      if (!board.free(at, to)
          || !Markers.is(board.joined(at, to), About.VOCAL)
          || !board.free(to)) {
        continue;
      }
      NameToken next = board.at(to);
      boolean step = next.digits() || next.decimal();
      if (Markers.is(next.norm(), About.UP)) {
        moved("vocal-up", at, to + 1);
      } else if (Markers.is(next.norm(), About.DOWN)) {
        moved("vocal-down", at, to + 1);
      } else if (step && next.before().contains("+")) {
        moved("vocal-up", at, to);
      } else if (step && minus(next)) {
        moved("vocal-down", at, to);
      } else {
        continue;
      }
      return;
    }
  }

  private static boolean minus(NameToken number) {
    String sign = number.before();
    return (sign.equals("-") || sign.equals(" -") || sign.indexOf('\u2212') >= 0)
        && (!number.text().startsWith("0") || number.decimal())
        && number.text().length() <= 4
        && Double.parseDouble(number.text().matches("\\d+(\\.\\d+)?") ? number.text() : "99")
            <= LARGEST_STEP_DB;
  }

  private void moved(String kind, int from, int to) {
    kinds.add(kind);
    int end = to;
    while (board.free(end)
        && (board.at(end).digits()
            || board.at(end).decimal()
            || board.at(end).norm().equals("db"))) {
      end++;
    }
    board.claim(from, end, Claim.KIND);
  }

  /** The one kind that tells most; doubted when several are named that no mix can be at once. */
  Optional<String> kind() {
    doubtful.forEach(board::doubt);
    if (kinds.isEmpty()) {
      return Optional.empty();
    }
    String strongest = null;
    for (String kind : kinds) {
      if (strongest == null || WEAKER.indexOf(kind) < WEAKER.indexOf(strongest)) {
        strongest = kind;
      }
    }
    if (kinds.size() > 1) {
      board.doubt("The name speaks of more than one kind: " + String.join(", ", kinds) + ".");
    }
    return Optional.of(strongest);
  }
}

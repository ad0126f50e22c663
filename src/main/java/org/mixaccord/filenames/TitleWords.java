package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.mixaccord.filenames.Board.Claim;

/** Finds the title among the words nobody has taken, and says which were not understood. */
final class TitleWords {
  /** Tokens from (inclusive) to (exclusive) that stand together. */
  private record Run(int from, int to) {}

  private TitleWords() {}

  /** A title that no song there is has. */
  static Optional<String> fresh(Board board) {
    List<Run> runs = runs(board);
    if (runs.isEmpty()) {
      return Optional.empty();
    }
    Run title = runs.get(0);
    if (runs.size() > 1 && dashed(board, title, runs.get(1))) {
      board.doubt("“" + board.text(title.from(), title.to()) + "” is taken for the artist.");
      runs.remove(title);
      title = runs.get(0);
    }
    for (Run run : runs) {
      if (run != title) {
        doubtRest(board, run);
      }
    }
    return Optional.of(capitals(board.text(title.from(), title.to())));
  }

  /**
   * A longer title that a known one is only a piece of: the words beside it are written like it.
   * Other words beside it are doubted.
   */
  static Optional<String> longer(Board board, SongWords.Found found) {
    int from = found.from();
    int to = found.to();
    while (goesOn(board, from - 1, from, found)) {
      from--;
    }
    while (goesOn(board, to, to, found)) {
      to++;
    }
    boolean longer = from < found.from() || to > found.to();
    if (longer) {
      board.doubt("There is “" + found.song().title() + "”, but the name says more.");
      return Optional.of(board.text(from, to));
    }
    runs(board).forEach(run -> doubtRest(board, run));
    return Optional.empty();
  }

  private static boolean goesOn(Board board, int at, int gap, SongWords.Found found) {
    if (!board.free(at) || gap >= board.size()) {
      return false;
    }
    NameToken token = board.at(at);
    String before = board.at(gap).before();
    return token.letters()
        && !token.initials()
        && token.capital()
        && board.at(found.from()).capital()
        && (before.isEmpty() || before.equals(" "));
  }

  private static void doubtRest(Board board, Run run) {
    boolean signature = true;
    for (int i = run.from(); i < run.to(); i++) {
      signature &= board.at(i).initials() || board.at(i).text().length() == 1;
    }
    if (!signature) {
      board.doubt("“" + board.text(run.from(), run.to()) + "” was not understood.");
    }
  }

  /** Artist and title: two runs in front with a dash between them. */
  private static boolean dashed(Board board, Run first, Run second) {
    boolean front = true;
    for (int i = 0; i < first.from(); i++) {
      front &= board.is(i, Claim.TRACK) || board.is(i, Claim.ARTIST);
    }
    return front && second.from() == first.to() && board.at(second.from()).separated();
  }

  private static List<Run> runs(Board board) {
    List<Run> runs = new ArrayList<>();
    int from = -1;
    for (int i = 0; i <= board.size(); i++) {
      boolean breaks = !board.free(i) || (from >= 0 && board.at(i).separated());
      if (breaks && from >= 0) {
        add(board, runs, from, i);
        from = -1;
      }
      if (from < 0 && board.free(i)) {
        from = i;
      }
    }
    return runs;
  }

  private static void add(Board board, List<Run> runs, int from, int to) {
    for (int i = from; i < to; i++) {
      if (board.at(i).letters()) {
        runs.add(new Run(from, to));
        return;
      }
    }
  }

  /** Titles typed without any capitals get one for each word. */
  private static String capitals(String title) {
    if (title.codePoints().anyMatch(c -> Character.isUpperCase(c) || Character.isTitleCase(c))) {
      return title;
    }
    StringBuilder capital = new StringBuilder();
    boolean begins = true;
    for (int c : title.codePoints().toArray()) {
      capital.appendCodePoint(begins ? Character.toTitleCase(c) : c);
      begins = c == ' ';
    }
    return capital.toString();
  }
}

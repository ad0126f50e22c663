package org.mixaccord.filenames;

import java.util.List;
import org.mixaccord.filenames.Board.Claim;
import org.mixaccord.filenames.Markers.About;

/** Tells folders that are named after a song from those that only hold files. */
final class FolderWords {
  private FolderWords() {}

  /**
   * Whether a folder's name is nothing but the artist, the project, a day, numbers, and words such
   * as mixes.
   */
  static boolean general(Board board, NameContext context) {
    if (holds(board, 0, board.size())) {
      return true;
    }
    for (String name : List.of(context.artist(), context.project())) {
      claim(board, Fold.fold(name));
    }
    DateWords.take(board);
    for (int i = 0; i < board.size(); i++) {
      if (board.free(i) && !board.at(i).digits() && !holds(board, i, i + 1)) {
        return false;
      }
    }
    return true;
  }

  private static void claim(Board board, String name) {
    for (int from = 0; from < board.size() && !name.isEmpty(); from++) {
      for (int to = from + 1; to <= board.size() && board.free(from, to); to++) {
        if (board.joined(from, to).equals(name)) {
          board.claim(from, to, Claim.ARTIST);
          return;
        }
      }
    }
  }

  private static boolean holds(Board board, int from, int to) {
    return Markers.find(
            board.joined(from, to),
            About.FOLDER,
            About.KIND,
            About.MAIN,
            About.STEMS,
            About.FINAL,
            About.NOISE,
            About.NUMBER,
            About.GLUED)
        .isPresent();
  }
}

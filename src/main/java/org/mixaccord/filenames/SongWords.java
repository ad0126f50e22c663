package org.mixaccord.filenames;

import java.util.Optional;
import org.mixaccord.filenames.NameContext.KnownSong;

/** Finds the title of a song there is, whatever its case, accents, punctuation, or small slips. */
final class SongWords {
  /** Shorter titles have too many neighbours to guess at. */
  private static final int SHORTEST_GUESSED = 5;

  private static final int LETTERS_PER_SLIP = 7;
  private static final int MOST_SLIPS = 2;

  /** Shorter titles are found as whole words only. */
  private static final int SHORTEST_INSIDE = 4;

  private static final int MORE_TOKENS = 3;

  /** A title found in tokens from (inclusive) to (exclusive). */
  record Found(KnownSong song, int from, int to, int slips) {}

  private SongWords() {}

  /** The longest title that is there to the letter, else the nearest. */
  static Optional<Found> find(Board board, NameContext context) {
    Found best = null;
    int bestLength = 0;
    for (KnownSong song : context.songs()) {
      String title = folded(song.title());
      for (int from = 0; from < board.size() && !title.isEmpty(); from++) {
        int to = end(board, from, title);
        if (to > from && wholeWords(board, from, to, title) && title.length() > bestLength) {
          best = new Found(song, from, to, 0);
          bestLength = title.length();
        }
      }
    }
    return Optional.ofNullable(best != null ? best : nearest(board, context));
  }

  /** A title as names are compared with it. */
  private static String folded(String title) {
    StringBuilder folded = new StringBuilder();
    for (NameToken token : NameTokens.of(title)) {
      folded.append(token.norm().replace(".", ""));
    }
    return folded.toString();
  }

  /** Where the tokens from one on have spelled the title to its end, or {@code from}. */
  private static int end(Board board, int from, String title) {
    int letters = 0;
    for (int to = from; to < board.size(); to++) {
      String norm = board.at(to).norm().replace(".", "");
      if (!board.free(to) || !title.startsWith(norm, letters)) {
        return from;
      }
      letters += norm.length();
      if (letters == title.length()) {
        return to + 1;
      }
    }
    return from;
  }

  private static boolean wholeWords(Board board, int from, int to, String title) {
    if (title.length() >= SHORTEST_INSIDE) {
      return true;
    }
    boolean begins = from == 0 || !board.at(from).glued() || board.at(from - 1).digits();
    boolean ends = to == board.size() || !board.at(to).glued();
    boolean runsOn = !ends && !board.at(to).letters();
    return begins && (ends || !runsOn);
  }

  private static Found nearest(Board board, NameContext context) {
    Found best = null;
    for (KnownSong song : context.songs()) {
      String title = folded(song.title());
      int allowed = Math.min(MOST_SLIPS, title.length() / LETTERS_PER_SLIP + 1);
      int words = NameTokens.of(song.title()).size();
      for (int from = 0; from < board.size() && title.length() >= SHORTEST_GUESSED; from++) {
        for (int to = from + 1;
            to <= Math.min(board.size(), from + words + MORE_TOKENS) && board.free(from, to);
            to++) {
          String there = counted(board, from, to);
          if (Math.abs(there.length() - title.length()) > allowed
              || !digits(there).equals(digits(title))) {
            continue;
          }
          boolean spelledOut = !there.equals(board.joined(from, to));
          int slips = Fold.distance(there, title) + (spelledOut ? MOST_SLIPS : 0);
          if (slips <= allowed + (spelledOut ? MOST_SLIPS : 0)
              && (best == null || slips < best.slips())) {
            best = new Found(song, from, to, slips);
          }
        }
      }
    }
    return best;
  }

  /** The tokens joined, with numbers in digits that are spelled out. */
  private static String counted(Board board, int from, int to) {
    StringBuilder counted = new StringBuilder();
    for (int i = from; i < to; i++) {
      String norm = board.at(i).norm();
      counted.append(
          Markers.find(norm, Markers.About.COUNT).map(Markers.Marker::value).orElse(norm));
    }
    return counted.toString();
  }

  private static String digits(String text) {
    return text.replaceAll("[^0-9]", "");
  }

  /** The one song whose words begin with the letters of a token such as LW. */
  static Optional<KnownSong> byInitials(String capitals, NameContext context) {
    KnownSong found = null;
    for (KnownSong song : context.songs()) {
      StringBuilder initials = new StringBuilder();
      for (NameToken token : NameTokens.of(song.title())) {
        initials.append(token.norm().charAt(0));
      }
      if (initials.length() >= 2 && initials.toString().equals(Fold.fold(capitals))) {
        if (found != null) {
          return Optional.empty();
        }
        found = song;
      }
    }
    return Optional.ofNullable(found);
  }
}

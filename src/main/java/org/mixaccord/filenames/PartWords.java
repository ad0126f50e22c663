package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.filenames.Board.Claim;
import org.mixaccord.notes.PartNames;

/** Finds the part a file is of, in the words notes use, with what tells it from its likes. */
final class PartWords {
  private static final int MOST_WORDS = 4;

  /** Of two parts in a name the one that is no group of parts is meant. */
  private static final Set<String> GROUPS =
      Set.of("percussion", "effects", "drums", "vocals", "guitars", "keys", "synth", "strings");

  private static final Map<String, String> PARTS = table("parts.tsv");
  private static final Map<String, String> QUALIFIERS = table("qualifiers.tsv");

  /**
   * A part.
   *
   * @param name as proposed, such as "kick in"
   * @param known whether one of its words is a part everybody knows
   * @param rest whether nothing was left over beside the part and what qualifies it
   */
  record Part(String name, boolean known, boolean rest) {}

  private PartWords() {}

  /** The part that the free tokens name. */
  static Optional<Part> of(Board board) {
    List<Integer> free = new ArrayList<>();
    for (int i = 0; i < board.size(); i++) {
      if (board.free(i)) {
        free.add(i);
      }
    }
    int bestFrom = -1;
    int bestTo = -1;
    String best = null;
    for (int from : free) {
      for (int to = from + 1; to <= Math.min(board.size(), from + MOST_WORDS); to++) {
        if (!board.free(from, to) || to - from < bestTo - bestFrom) {
          continue;
        }
        String part = named(board, from, to);
        boolean better = to - from > bestTo - bestFrom || (best != null && GROUPS.contains(best));
        if (part != null && better && !qualified(board, from, to, part)) {
          best = part;
          bestFrom = from;
          bestTo = to;
        }
      }
    }
    List<String> words = new ArrayList<>();
    boolean plain = true;
    if (best != null) {
      words.add(best);
    }
    for (int i : free) {
      if (i >= bestFrom && i < bestTo) {
        continue;
      }
      NameToken token = board.at(i);
      String qualifier = QUALIFIERS.getOrDefault(token.norm(), named(board, i, i + 1));
      plain &= qualifier != null || token.digits();
      if (token.digits() && token.text().length() <= 4) {
        // "V2" stays together, "BGV2" is the second of the backing vocals
        boolean glued = token.glued() && i > 0 && board.free(i - 1) && i != bestTo;
        words.add((glued ? words.remove(words.size() - 1) : "") + String.valueOf(token.value()));
      } else {
        words.add(qualifier != null ? qualifier : token.text().toLowerCase(java.util.Locale.ROOT));
      }
    }
    boolean letters = free.stream().anyMatch(i -> board.at(i).letters());
    if (words.isEmpty() || (best == null && !letters)) {
      return Optional.empty();
    }
    return Optional.of(new Part(String.join(" ", words), best != null, plain));
  }

  private static String named(Board board, int from, int to) {
    String spaced = board.spaced(from, to);
    String joined = board.joined(from, to);
    String own = PARTS.getOrDefault(spaced, PARTS.get(joined));
    return own != null
        ? own
        : PartNames.named(spaced).or(() -> PartNames.named(joined)).orElse(null);
  }

  /** "Bass DI" is the bass with a word that tells it from the amplifier: the word is kept. */
  private static boolean qualified(Board board, int from, int to, String part) {
    return to - from > 1
        && QUALIFIERS.containsKey(board.at(to - 1).norm())
        && part.equals(named(board, from, to - 1));
  }

  /** Takes words that only say which channel it is from the board. */
  static Optional<NameProposal.Side> takeSide(Board board, boolean part) {
    for (int i = board.size() - 1; i >= 0; i--) {
      if (!board.free(i)) {
        continue;
      }
      NameToken token = board.at(i);
      Optional<Markers.Marker> side = Markers.find(token.norm(), Markers.About.SIDE);
      boolean last = i == board.size() - 1 || !board.free(i + 1);
      boolean apart = board.size() > 1 && (i == 0 || !token.glued() || board.at(i - 1).digits());
      if (side.isPresent() && apart && (part || (last && !insideTitle(board, i)))) {
        board.claim(i, i + 1, Claim.SIDE);
        return Optional.of(
            side.get().value().equals("left") ? NameProposal.Side.LEFT : NameProposal.Side.RIGHT);
      }
    }
    return Optional.empty();
  }

  /** "Turn Left": a word of the title, while "Turn L" and "Turn.left" speak of a channel. */
  private static boolean insideTitle(Board board, int at) {
    NameToken token = board.at(at);
    return board.free(at - 1)
        && token.before().equals(" ")
        && !(token.text().length() == 1 && token.capital());
  }

  private static Map<String, String> table(String name) {
    Map<String, String> words = new HashMap<>();
    Table.lines(
        name,
        f -> {
          for (String word : f[1].split(", ")) {
            words.putIfAbsent(word, f[0]);
          }
        });
    return Map.copyOf(words);
  }
}

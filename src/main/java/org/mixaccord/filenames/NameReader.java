package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.mixaccord.filenames.Board.Claim;
import org.mixaccord.filenames.Markers.About;
import org.mixaccord.filenames.NameContext.KnownSong;
import org.mixaccord.filenames.NameProposal.Use;

/** Reads one name. */
final class NameReader {
  private static final int MOST_TRACK_DIGITS = 3;
  private static final int LARGEST_COPY = 20;

  private final NameContext context;
  private final Optional<KnownSong> given;

  /**
   * A reader.
   *
   * @param given the song everything is dropped on, if there is one
   */
  NameReader(NameContext context, Optional<KnownSong> given) {
    this.context = context;
    this.given = given;
  }

  /**
   * Reads a name.
   *
   * @param use what the file is dropped as; empty to find out
   * @param keepTakes whether a counter at the end tells parts apart
   */
  Draft read(NamedFile file, Optional<Use> use, boolean keepTakes) {
    List<String> folders = new ArrayList<>(List.of(file.path().split("[/\\\\]+")));
    String name = folders.isEmpty() ? "" : folders.remove(folders.size() - 1);
    Draft draft = new Draft();
    draft.leaveOut = LeaveOut.reason(folders, name);
    if (draft.leaveOut.isEmpty() && file.bytes().isPresent() && file.bytes().getAsLong() == 0) {
      draft.leaveOut = Optional.of("The file is empty.");
    }
    if (draft.leaveOut.isPresent()) {
      draft.use = use.orElse(Use.BOUNCE);
      return draft;
    }
    String bare =
        LeaveOut.extension(name)
            .map(e -> name.substring(0, name.length() - e.length() - 1))
            .orElse(name);
    Board board = new Board(bare);
    boolean part = use.map(u -> u == Use.STEM).orElseGet(() -> looksLikePart(folders, bare));
    draft.use = part ? Use.STEM : Use.BOUNCE;
    Optional<SongWords.Found> found =
        SongWords.find(board, context).filter(f -> !part || !isPartName(board, f));
    found.ifPresent(f -> board.claim(f.from(), f.to(), Claim.SONG));
    common(board, draft, part);
    if (part) {
      part(board, draft, found.isPresent(), keepTakes);
      Optional<KnownSong> song =
          given.or(() -> found.map(SongWords.Found::song)).or(() -> songOf(folders));
      song.ifPresent(draft::song);
      if (song.isEmpty()) {
        draft.folderTitle = folderTitle(folders);
        draft.title = draft.folderTitle;
        board.doubt(
            draft.title.isPresent()
                ? Draft.FROM_FOLDER
                : "The name does not say which song it belongs to.");
      }
    } else {
      bounce(board, draft, folders, found);
    }
    draft.doubts = board.doubts();
    return draft;
  }

  private void common(Board board, Draft draft, boolean part) {
    for (String words : List.of(context.artist(), part ? "" : context.project())) {
      claimName(board, words);
    }
    for (int i = 1; i < board.size(); i++) {
      NameToken token = board.at(i);
      if (board.free(i)
          && token.digits()
          && token.text().length() <= 2
          && token.value() <= LARGEST_COPY
          && token.before().contains("(")
          && token.after().contains(")")) {
        board.claim(i, i + 1, Claim.NOISE);
      }
    }
    draft.date = DateWords.take(board).map(Object::toString);
    takeTrackNumber(board, part);
    tempo(board);
    RateWords rates = RateWords.take(board);
    draft.sampleRateHz = rates.rateHz();
    draft.bitDepth = rates.bits();
  }

  /** The artist or project in front of everything else, or behind a dash. */
  private static void claimName(Board board, String words) {
    String wanted = Fold.fold(words);
    for (int from = 0; from < board.size() && !wanted.isEmpty(); from++) {
      for (int to = from + 1; to <= board.size() && board.free(from, to); to++) {
        boolean all = from == 0 && to == board.size();
        if (!all && board.joined(from, to).equals(wanted)) {
          board.claim(from, to, Claim.ARTIST);
          return;
        }
      }
    }
  }

  /** "03 - ", "03_", "Tr 05": the place on the record or in the session. */
  private static void takeTrackNumber(Board board, boolean part) {
    int first = 0;
    while (board.is(first, Claim.ARTIST)) {
      first++;
    }
    boolean word =
        board.free(first, first + 2)
            && List.of("tr", "trk", "track", "audio", "ch", "channel")
                .contains(board.at(first).norm());
    int at = word ? first + 1 : first;
    boolean number =
        board.free(at)
            && board.at(at).digits()
            && board.at(at).text().length() <= MOST_TRACK_DIGITS;
    boolean last = at + 1 >= board.size();
    if (!number || (!last && board.at(at + 1).glued()) || (last && !word)) {
      return;
    }
    NameToken token = board.at(at);
    boolean apart = !token.after().equals(" ") || token.text().startsWith("0");
    if (last || part || apart || !board.free(at + 1)) {
      board.claim(first, at + 1, Claim.TRACK);
    } else {
      board.doubt("“" + token.text() + "” may be the title’s or the place on the record.");
    }
  }

  private static void tempo(Board board) {
    for (int i = 0; i + 1 < board.size(); i++) {
      if (board.free(i, i + 2) && board.at(i).digits() && board.at(i + 1).norm().equals("bpm")) {
        board.claim(i, i + 2, Claim.NOISE);
        if (board.free(i + 2) && board.at(i + 2).text().matches("[A-G][b#]?(m|min|maj)?")) {
          board.claim(i + 2, i + 3, Claim.NOISE);
        }
      }
    }
  }

  private void part(Board board, Draft draft, boolean withSong, boolean keepTakes) {
    if (withSong) {
      NumberWords numbers = new NumberWords(board);
      numbers.takeNamed();
      draft.number = numbers.number();
    }
    for (int i = 0; i < board.size(); i++) {
      if (board.free(i)
          && Markers.find(board.at(i).norm(), About.NOISE, About.STEMS, About.COPY, About.FINAL)
              .isPresent()) {
        board.claim(i, i + 1, Claim.NOISE);
      }
    }
    int last = board.size() - 1;
    if (!keepTakes && last > 0 && board.free(last) && counter(board.at(last))) {
      board.claim(last, last + 1, Claim.NOISE);
      draft.takeDropped = true;
    }
    draft.side = PartWords.takeSide(board, true);
    Optional<PartWords.Part> part = PartWords.of(board);
    if (part.isEmpty()) {
      board.doubt("The name does not say which part it is.");
      return;
    }
    String side = draft.side.map(s -> " " + s.word()).orElse("");
    draft.element = Optional.of(part.get().name() + side);
    if (!part.get().known()) {
      board.doubt("“" + part.get().name() + "” is no part that notes know.");
    }
  }

  private static boolean counter(NameToken token) {
    return token.digits()
        && token.text().startsWith("0")
        && token.text().length() <= MOST_TRACK_DIGITS
        && "_.-".contains(token.before())
        && !token.glued();
  }

  private void bounce(
      Board board, Draft draft, List<String> folders, Optional<SongWords.Found> found) {
    NumberWords numbers = new NumberWords(board);
    KindWords kinds = new KindWords(board, found.isPresent() || given.isPresent());
    numbers.takeNamed();
    kinds.take();
    draft.side = PartWords.takeSide(board, false);
    numbers.takeBehindKinds();
    numbers.takeBare();
    if (found.isPresent()) {
      numbers.doubtSecond();
    }
    draft.kind = Optional.of(kinds.kind().or(() -> kindOf(folders)).orElse("main"));
    draft.number = numbers.number();
    draft.label = label(draft.kind.get(), numbers);
    if (numbers.number().isEmpty() && numbers.ofFinal().isPresent()) {
      board.doubt("“Final” is no number; the next one will be final too.");
    }
    title(board, draft, folders, found);
  }

  private static Optional<String> label(String kind, NumberWords numbers) {
    String word =
        switch (kind) {
          case "rough" -> "Rough ";
          case "reference" -> "Reference ";
          case "master" -> "Master ";
          default -> "Mix ";
        };
    return numbers.written().map(n -> word + n).or(numbers::ofFinal);
  }

  private void title(
      Board board, Draft draft, List<String> folders, Optional<SongWords.Found> found) {
    if (found.isPresent()) {
      if (found.get().slips() > 1) {
        board.doubt("“" + found.get().song().title() + "” is spelled otherwise.");
      }
      Optional<String> longer = TitleWords.longer(board, found.get());
      if (longer.isPresent()) {
        draft.title = longer;
      } else {
        draft.song(found.get().song());
      }
      return;
    }
    Optional<KnownSong> initials = Optional.empty();
    for (int i = 0; i < board.size() && initials.isEmpty(); i++) {
      if (board.free(i) && board.at(i).initials()) {
        initials = SongWords.byInitials(board.at(i).norm(), context);
      }
    }
    Optional<String> fresh = TitleWords.fresh(board);
    Optional<KnownSong> near = given.or(() -> songOf(folders));
    if (near.isPresent()) {
      draft.song(near.get());
      fresh.ifPresent(t -> board.doubt("“" + t + "” was not understood."));
    } else if (initials.isPresent()) {
      draft.song(initials.get());
      board.doubt("The song is guessed from its initials.");
    } else if (fresh.isPresent()) {
      draft.title = fresh;
    } else {
      withoutTitle(board, draft, folders);
    }
  }

  /** Nothing is left for a title: it is the folder's, or a word that was taken for a kind. */
  private void withoutTitle(Board board, Draft draft, List<String> folders) {
    draft.folderTitle = folderTitle(folders);
    draft.title = draft.folderTitle;
    boolean onlyWord = board.size() == 1 && board.is(0, Claim.KIND);
    if (draft.title.isPresent()) {
      board.doubt(Draft.FROM_FOLDER);
    } else if (onlyWord) {
      draft.title = Optional.of(board.text(0, 1));
      draft.kind = Optional.of("main");
      board.doubt("The name is one word that may be its title or its kind.");
    } else {
      board.doubt("The name has no title.");
    }
  }

  private Optional<KnownSong> songOf(List<String> folders) {
    for (int i = folders.size() - 1; i >= 0; i--) {
      Optional<SongWords.Found> found = SongWords.find(new Board(folders.get(i)), context);
      if (found.isPresent()) {
        return found.map(SongWords.Found::song);
      }
    }
    return Optional.empty();
  }

  private static Optional<String> kindOf(List<String> folders) {
    for (int i = folders.size() - 1; i >= 0; i--) {
      Board board = new Board(folders.get(i));
      Optional<Markers.Marker> kind = Markers.find(board.joined(0, board.size()), About.KIND);
      if (kind.isPresent()) {
        return kind.map(Markers.Marker::value);
      }
    }
    return Optional.empty();
  }

  /** The title in the innermost folder that says more than whose files lie in it, and of what. */
  private Optional<String> folderTitle(List<String> folders) {
    for (int i = folders.size() - 1; i >= 0; i--) {
      Board board = new Board(folders.get(i));
      if (!FolderWords.general(board, context)) {
        return TitleWords.fresh(board);
      }
    }
    return Optional.empty();
  }

  private static boolean isPartName(Board board, SongWords.Found found) {
    return found.to() - found.from() == board.size()
        && PartWords.of(board).map(PartWords.Part::known).orElse(false);
  }

  /** A name that is nothing but a part, or lies in a folder of parts, or says so. */
  private boolean looksLikePart(List<String> folders, String bare) {
    Board board = new Board(bare);
    for (int i = 0; i < board.size(); i++) {
      if (List.of("stem", "stems").contains(board.at(i).norm())) {
        return true;
      }
    }
    for (String folder : folders) {
      Board words = new Board(folder);
      for (int i = 0; i < words.size(); i++) {
        if (Markers.is(words.at(i).norm(), About.STEMS)) {
          return true;
        }
      }
    }
    if (SongWords.find(board, context).isPresent()) {
      return false;
    }
    takeTrackNumber(board, true);
    new KindWords(board, true).take();
    PartWords.takeSide(board, true);
    return !board.any(Claim.KIND)
        && PartWords.of(board).map(p -> p.known() && p.rest()).orElse(false);
  }
}

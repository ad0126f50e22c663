package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Pattern;
import org.mixaccord.filenames.NameContext.KnownSong;
import org.mixaccord.filenames.NameProposal.Side;
import org.mixaccord.filenames.NameProposal.Use;

/** Reads the names of files dropped together: each alone, then what they say about each other. */
public final class FileNames {
  private static final Pattern SIDE =
      Pattern.compile(
          "(?iu)[\\s._(-]*(?<![\\p{L}\\p{N}])(l|r|left|right|lft|rgt)\\)?(?=$|[\\s._-])");

  private final NameReader reader;

  private FileNames(NameContext context, Optional<KnownSong> given) {
    reader = new NameReader(context, given);
  }

  /**
   * Files dropped on a project.
   *
   * @param use what they are dropped as; empty to find out of each
   * @return a proposal for each, in the order of the files
   */
  public static List<NameProposal> read(
      List<NamedFile> files, NameContext context, Optional<Use> use) {
    return new FileNames(context, Optional.empty()).all(files, use);
  }

  /** Files dropped on one song. */
  public static List<NameProposal> readFor(
      KnownSong song, List<NamedFile> files, NameContext context, Optional<Use> use) {
    return new FileNames(context, Optional.of(song)).all(files, use);
  }

  /** A name without its ending and without the word that says which channel it is. */
  public static String withoutSide(String name) {
    String bare =
        LeaveOut.extension(name)
            .map(e -> name.substring(0, name.length() - e.length() - 1))
            .orElse(name);
    String cut = SIDE.matcher(bare).replaceFirst("").strip();
    return cut.isEmpty() ? bare : cut;
  }

  private List<NameProposal> all(List<NamedFile> files, Optional<Use> use) {
    List<Draft> drafts = new ArrayList<>();
    for (NamedFile file : files) {
      drafts.add(reader.read(file, use, false));
    }
    folderTitles(drafts);
    Map<String, List<Integer>> same = sameThings(drafts);
    for (List<Integer> alike : same.values()) {
      boolean takes = alike.size() > 1 && alike.stream().anyMatch(i -> drafts.get(i).takeDropped);
      for (int i : takes ? alike : List.<Integer>of()) {
        drafts.set(i, reader.read(files.get(i), use, true));
      }
    }
    folderTitles(drafts);
    for (List<Integer> alike : sameThings(drafts).values()) {
      for (int i : alike.size() > 1 ? alike : List.<Integer>of()) {
        List<String> doubts = new ArrayList<>(drafts.get(i).doubts);
        doubts.add(
            drafts.get(i).use == Use.STEM
                ? "Another of these files reads as the same part."
                : "Another of these files reads as the same mix.");
        drafts.get(i).doubts = doubts;
      }
    }
    pair(drafts);
    return drafts.stream().map(Draft::proposal).toList();
  }

  /** A folder named like a song that other files name themselves is that song's without a doubt. */
  private static void folderTitles(List<Draft> drafts) {
    Map<String, String> named = new HashMap<>();
    for (Draft draft : drafts) {
      if (draft.songId.isEmpty() && draft.folderTitle.isEmpty()) {
        draft.title.ifPresent(title -> named.putIfAbsent(Fold.fold(title), title));
      }
    }
    for (Draft draft : drafts) {
      Optional<String> same = draft.folderTitle.map(title -> named.get(Fold.fold(title)));
      if (same.isPresent()) {
        draft.title = same;
        draft.doubts = draft.doubts.stream().filter(d -> !d.equals(Draft.FROM_FOLDER)).toList();
      }
    }
  }

  /** Places in the list by what the files there say they are. */
  private static Map<String, List<Integer>> sameThings(List<Draft> drafts) {
    Map<String, List<Integer>> same = new HashMap<>();
    for (int i = 0; i < drafts.size(); i++) {
      Draft draft = drafts.get(i);
      boolean named = draft.use == Use.STEM ? draft.element.isPresent() : draft.title.isPresent();
      if (draft.leaveOut.isEmpty() && named) {
        same.computeIfAbsent(
                thing(draft) + draft.side.map(Side::word).orElse(""), t -> new ArrayList<>())
            .add(i);
      }
    }
    return same;
  }

  private static String thing(Draft draft) {
    String element =
        draft
            .element
            .map(e -> draft.side.map(s -> e.substring(0, e.length() - s.word().length())).orElse(e))
            .orElse("");
    return String.join(
        "\n",
        draft.use.name(),
        draft.songId.or(() -> draft.title.map(t -> t.toLowerCase(Locale.ROOT))).orElse(""),
        draft.kind.orElse(""),
        draft.label.orElse(""),
        draft.date.orElse(""),
        element,
        String.valueOf(draft.sampleRateHz),
        String.valueOf(draft.bitDepth));
  }

  private static void pair(List<Draft> drafts) {
    Map<String, Integer> waiting = new HashMap<>();
    for (int i = 0; i < drafts.size(); i++) {
      Draft draft = drafts.get(i);
      if (draft.side.isEmpty()) {
        continue;
      }
      Side side = draft.side.get();
      Integer other = waiting.remove(thing(draft) + side.other().word());
      if (other == null) {
        waiting.putIfAbsent(thing(draft) + side.word(), i);
      } else {
        draft.pairWith = OptionalInt.of(other);
        drafts.get(other).pairWith = OptionalInt.of(i);
      }
    }
  }
}

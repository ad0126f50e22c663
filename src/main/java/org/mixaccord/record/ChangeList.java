package org.mixaccord.record;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Hashes;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.Wish;
import org.mixaccord.changes.Wishes;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Song;

/** The changes of a song as one member sees them. */
public final class ChangeList {
  private static final int ETAG_CHARS = 24;

  /**
   * One change as it is shown.
   *
   * @param state what this member is told: until its bounce is sent, only engineers see it done
   * @param conflictsWith changes that cannot be followed together with it
   * @param mergedWith changes that ask for the same, or were joined to be worked as one
   */
  public record Row(
      Change change, ChangeState state, List<String> conflictsWith, List<String> mergedWith) {
    /** What the engineer answered, once it is shown. */
    public Optional<ChangeAnswer> answer() {
      return shown() ? change.answer() : Optional.empty();
    }

    /** Why, in words, once it is shown. */
    public Optional<String> reason() {
      return shown() ? change.reason() : Optional.empty();
    }

    /** The bounce it is done in, once it is shown. */
    public Optional<Bounce> doneIn() {
      return shown() ? change.doneIn() : Optional.empty();
    }

    private boolean shown() {
      return state == change.state();
    }

    /** Names what this member was shown, so that what they do not know cannot make it stale. */
    public String etag() {
      String said =
          String.join(
              "\n",
              change.id(),
              state.wire(),
              answer().map(ChangeAnswer::wire).orElse(""),
              reason().orElse(""),
              doneIn().map(Bounce::id).orElse(""),
              change.element(),
              change.aspect(),
              change.direction(),
              change.amount().map(a -> WireJson.write(a.wire())).orElse(""),
              WireJson.write(change.where().wire()),
              change.text(),
              Integer.toString(change.round()));
      return "\"" + Hashes.sha256(said).substring(0, ETAG_CHARS) + "\"";
    }
  }

  private final List<Row> rows;

  private ChangeList(List<Row> rows) {
    this.rows = List.copyOf(rows);
  }

  /** Everything this member may see, in the engineer's order, the rest oldest first. */
  static ChangeList of(Song song, Access access, Places places) {
    boolean engineer = access.may(Act.WORK_LIST);
    List<Change> visible = Change.of(song).stream().filter(c -> c.note().maySee(access)).toList();
    List<Wish> wishes =
        places.wishes(visible.stream().filter(c -> c.facts().stillWanted()).toList());
    Map<String, List<String>> conflicts = Wishes.contradictions(wishes);
    Map<String, List<String>> repeats = Wishes.repeats(wishes);
    Map<String, List<String>> joined = joined(visible);
    return new ChangeList(
        visible.stream()
            .map(
                c ->
                    new Row(
                        c,
                        c.facts().shownTo(engineer),
                        conflicts.getOrDefault(c.id(), List.of()),
                        together(c.id(), repeats, joined)))
            .toList());
  }

  /** What was joined by hand, as far as it is still wanted. */
  private static Map<String, List<String>> joined(List<Change> visible) {
    Map<String, List<String>> byMark =
        visible.stream()
            .filter(c -> c.facts().stillWanted() && c.joined().isPresent())
            .collect(
                Collectors.groupingBy(
                    c -> c.joined().orElseThrow(),
                    Collectors.mapping(Change::id, Collectors.toList())));
    return byMark.values().stream()
        .flatMap(group -> group.stream().map(id -> Map.entry(id, group)))
        .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
  }

  private static List<String> together(
      String id, Map<String, List<String>> repeats, Map<String, List<String>> joined) {
    Set<String> all = new LinkedHashSet<>(repeats.getOrDefault(id, List.of()));
    all.addAll(joined.getOrDefault(id, List.of()));
    all.remove(id);
    return List.copyOf(all);
  }

  public List<Row> rows() {
    return rows;
  }

  /** The row of a change; it has to be on the list. */
  Row row(String changeId) {
    return rows.stream().filter(r -> r.change().id().equals(changeId)).findFirst().orElseThrow();
  }

  /** The row of a change, if this member sees it. */
  Optional<Row> find(String changeId) {
    return rows.stream().filter(r -> r.change().id().equals(changeId)).findFirst();
  }
}

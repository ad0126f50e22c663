package org.mixaccord.api.v1.changes;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.NewWork;
import org.mixaccord.changes.UsualAmount;
import org.mixaccord.notes.Amount;
import org.mixaccord.record.Change;
import org.mixaccord.record.ChangeList;
import org.mixaccord.record.VerdictDesk;
import org.mixaccord.songs.Bounce;

/** A change as one member sees it; {@code verdicts} only on its own, for who may see them. */
public record ChangeView(
    String id,
    String etag,
    String element,
    String aspect,
    String direction,
    Object amount,
    Object where,
    boolean afterEnd,
    String text,
    String note,
    String author,
    String authorName,
    String bounce,
    String state,
    String answer,
    String reason,
    String doneIn,
    String follows,
    List<String> conflictsWith,
    List<String> mergedWith,
    boolean joined,
    String newWork,
    int round,
    Instant at,
    @JsonInclude(JsonInclude.Include.NON_NULL) UsualView usual,
    @JsonInclude(JsonInclude.Include.NON_NULL) List<VerdictView> verdicts) {
  /** What vague words of an amount usually mean, dB, and what was called good here. */
  public record UsualView(double fromDb, double toDb, boolean learned, List<GoodView> good) {
    /** By how much it moved where somebody called the same words good. */
    public record GoodView(String person, String name, double db) {}

    static UsualView of(UsualAmount usual) {
      return new UsualView(
          tenths(usual.fromDb()),
          tenths(usual.toDb()),
          usual.learned(),
          usual.good().stream()
              .map(g -> new GoodView(g.asker(), g.name(), tenths(g.db())))
              .toList());
    }

    private static double tenths(double db) {
      return Math.round(10 * db) / 10.0;
    }
  }

  /** What the evidence says in one bounce. */
  public record VerdictView(
      String bounce, String seen, Double measuredDb, Double deliveredDb, String detail) {
    static VerdictView of(VerdictDesk.InBounce found) {
      return new VerdictView(
          found.bounce().id(),
          found.verdict().seen().wire(),
          orNull(found.verdict().measuredDb()),
          orNull(found.verdict().deliveredDb()),
          found.verdict().detail());
    }

    private static Double orNull(OptionalDouble value) {
      return value.isPresent() ? value.getAsDouble() : null;
    }
  }

  static ChangeView of(ChangeList.Row row) {
    return of(row, null, null);
  }

  static ChangeView of(ChangeList.Row row, UsualView usual, List<VerdictView> verdicts) {
    Change change = row.change();
    return new ChangeView(
        change.id(),
        row.etag(),
        change.element(),
        change.aspect(),
        change.direction(),
        change.amount().map(Amount::wire).orElse(null),
        change.where().wire(),
        change.isAfterEnd(),
        change.text(),
        change.note().id(),
        change.asker().id(),
        change.asker().name(),
        change.bounce().id(),
        row.state().wire(),
        row.answer().map(ChangeAnswer::wire).orElse(null),
        row.reason().orElse(null),
        row.doneIn().map(Bounce::id).orElse(null),
        change.follows().map(Change::id).orElse(null),
        row.conflictsWith(),
        row.mergedWith(),
        change.isJoined(),
        change.newWork().map(NewWork::wire).orElse(null),
        change.round(),
        change.askedAt(),
        usual,
        verdicts);
  }
}

package org.mixaccord.notes;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Finds requests of one note that exclude each other: the kick up and the kick down. */
final class Contradictions {
  private static final Set<String> OPPOSED =
      Set.of(
          "up", "down", "out", "in", "wider", "narrower", "longer", "shorter", "earlier", "later");

  private Contradictions() {}

  /** Whether two ways of one aspect may exclude each other. */
  static boolean opposed(Pred one, Pred other) {
    return OPPOSED.contains(one.direction()) && OPPOSED.contains(other.direction());
  }

  static void mark(List<RequestedChange> changes) {
    Map<String, Integer> seen = new HashMap<>();
    for (int i = 0; i < changes.size(); i++) {
      RequestedChange change = changes.get(i);
      if (!OPPOSED.contains(change.direction())) {
        continue;
      }
      String what = change.element() + "|" + change.aspect() + "|" + change.where();
      Integer before = seen.putIfAbsent(what, i);
      boolean opposite =
          before != null && !changes.get(before).direction().equals(change.direction());
      if (opposite) {
        RequestedChange first = changes.get(before);
        NoteQuestion question =
            Questions.contradiction(change.element(), Wording.wish(first), Wording.wish(change));
        changes.set(before, asking(first, question));
        changes.set(i, asking(change, question));
      }
    }
    markAbsent(changes);
  }

  /** "Guitars down in V1" and "leave the guitars in V1": the same part, there. */
  static void markKept(List<RequestedChange> changes, List<RequestedKeep> keeps) {
    for (int i = 0; i < changes.size(); i++) {
      RequestedChange change = changes.get(i);
      boolean kept =
          !change.where().isWholeSong()
              && Set.of("level", "mute").contains(change.aspect())
              && keeps.stream()
                  .anyMatch(
                      k ->
                          k.element().equals(change.element())
                              && k.where().equals(change.where())
                              && k.start() > change.end());
      if (kept) {
        NoteQuestion question = Questions.changeOrKeep(change.element(), Wording.wish(change));
        changes.set(i, asking(change, question));
      }
    }
  }

  /** "Louder in the bridge" and "out of the bridge": the same part, there. */
  private static void markAbsent(List<RequestedChange> changes) {
    for (int i = 0; i < changes.size(); i++) {
      RequestedChange out = changes.get(i);
      if (!out.aspect().equals("mute") || !out.direction().equals("out")) {
        continue;
      }
      for (int k = 0; k < changes.size(); k++) {
        RequestedChange other = changes.get(k);
        boolean played =
            other.aspect().equals("level")
                && other.direction().equals("up")
                && other.element().equals(out.element())
                && other.where().equals(out.where());
        if (played) {
          NoteQuestion question =
              Questions.contradiction(out.element(), Wording.wish(other), Wording.wish(out));
          changes.set(k, asking(other, question));
          changes.set(i, asking(out, question));
        }
      }
    }
  }

  private static RequestedChange asking(RequestedChange change, NoteQuestion question) {
    return new RequestedChange(
        change.element(),
        change.aspect(),
        change.direction(),
        change.amount(),
        change.where(),
        Optional.of(question),
        change.text(),
        change.start(),
        change.end());
  }
}

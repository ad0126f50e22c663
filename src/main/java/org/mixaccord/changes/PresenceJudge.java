package org.mixaccord.changes;

import java.util.List;
import java.util.OptionalDouble;

/**
 * Judges a wish to take a part out somewhere, or to bring it in, by whether its file sounds there.
 * Where the two bounces agree, nothing was done; where the part was in the wished state before
 * already, nothing can be told.
 */
public final class PresenceJudge {
  private PresenceJudge() {}

  /**
   * Whether a part sounds in one section.
   *
   * @param section its name
   * @param before in the older bounce
   * @param now in the newer one
   */
  public record Presence(String section, boolean before, boolean now) {}

  /**
   * Judges one change of the aspect mute.
   *
   * @param in true to bring the part in, false to take it out
   * @param places the part in the places of the change; empty without the part's files
   */
  public static Verdict judge(boolean in, List<Presence> places) {
    List<Presence> toDo = places.stream().filter(p -> p.before() != in).toList();
    if (places.isEmpty()) {
      return Verdict.cannotTell("Both mixes need a file of this part.");
    }
    if (toDo.isEmpty()) {
      return Verdict.cannotTell(
          in ? "It sounded there before already." : "It was silent there before already.");
    }
    List<String> done = toDo.stream().filter(p -> p.now() == in).map(Presence::section).toList();
    Seen seen =
        done.size() == toDo.size() ? Seen.AS_ASKED : done.isEmpty() ? Seen.NOT_SEEN : Seen.PARTLY;
    String where =
        String.join(", ", done.isEmpty() ? toDo.stream().map(Presence::section).toList() : done);
    String what =
        done.isEmpty()
            ? (in ? "Still silent in " : "Still sounds in ")
            : (in ? "Sounds now in " : "Silent now in ");
    return new Verdict(seen, OptionalDouble.empty(), OptionalDouble.empty(), what + where + ".");
  }
}

package org.mixaccord.changes;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** How the open wishes of a song stand to each other. Quadratic only within one part and aspect. */
public final class Wishes {
  private Wishes() {}

  /**
   * Which wishes contradict which.
   *
   * @param open the wishes that are still wanted
   * @return ids by id, both ways round, in the order given; wishes without any are left out
   */
  public static Map<String, List<String>> contradictions(List<Wish> open) {
    return pairs(open, Wish::contradicts);
  }

  /**
   * Which wishes ask for the same.
   *
   * @param open the wishes that are still wanted
   * @return ids by id, both ways round, in the order given; wishes without any are left out
   */
  public static Map<String, List<String>> repeats(List<Wish> open) {
    return pairs(open, Wish::repeats);
  }

  private interface Relation {
    boolean holds(Wish one, Wish other);
  }

  private static Map<String, List<String>> pairs(List<Wish> open, Relation relation) {
    Map<String, List<Wish>> byMatter = new LinkedHashMap<>();
    for (Wish wish : open) {
      byMatter
          .computeIfAbsent(wish.element() + "\n" + wish.aspect(), key -> new ArrayList<>())
          .add(wish);
    }
    Map<String, List<String>> found = new LinkedHashMap<>();
    for (List<Wish> group : byMatter.values()) {
      for (Wish one : group) {
        for (Wish other : group) {
          if (relation.holds(one, other)) {
            found.computeIfAbsent(one.id(), key -> new ArrayList<>()).add(other.id());
          }
        }
      }
    }
    return found;
  }
}

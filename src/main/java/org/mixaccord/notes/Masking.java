package org.mixaccord.notes;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Parts that hide others or are hidden: "the pad covers her", "can't hear the bass". */
abstract class Masking extends Qualities {
  /** What hides others as much as the part that has it. */
  private static final Set<String> SPREADS = Set.of("reverb", "delay", "distortion");

  /** What says how something is to be heard. */
  private static final EnumSet<Type> HOW =
      EnumSet.of(Type.QUAL, Type.PRED, Type.UP, Type.DOWN, Type.LESS);

  Masking(Segment segment, List<Item> items) {
    super(segment, items);
  }

  // "the pad is swallowing the vocal", "can't hear the bass"

  void masking() {
    for (int i = 0; i < items.size(); i++) {
      Type type = type(i);
      if (type == Type.COVERS && !negatedBefore(i)) {
        List<String> before = elements(0, i);
        if (before.isEmpty() && items.stream().limit(i).anyMatch(x -> x.is(Type.SOMEONE))) {
          // "something keeps stepping on the vocal"
          add(i, Pred.of("other", "any").asUnclear().about(List.of(Vocabulary.MIX)));
          continue;
        }
        if (before.size() > 1 && elements(i + 1, items.size()).isEmpty()) {
          // they fight each other: which one should give way?
          add(i, Pred.of("other", "any").asUnclear().asComplaint().about(before.subList(0, 1)));
          continue;
        }
        List<String> hidden = elements(i + 1, items.size());
        boolean once = items.get(i).a().equals("than") && hidden.isEmpty();
        boolean asked =
            items.stream()
                .limit(i)
                .anyMatch(x -> x.is(Type.ADD) || x.is(Type.AUX) && x.a().equals("must"));
        if (once && !asked && !segment.has(Type.PLACE)) {
          // "louder than in the last mix": seen, not wished for
          use(i);
          continue;
        }
        if (items.get(i).a().equals("order")
            && before.isEmpty()
            && !hidden.isEmpty()
            && i <= 1
            && !copulaBefore(i)
            && !items.get(0).is(Type.PRON)) {
          // "bury the guitars": an order
          add(i, Pred.of("level", "down").about(hidden));
          continue;
        }
        if (asked && items.get(i).a().equals("than")) {
          // "make the second chorus louder than the first"
          add(i, Pred.of("level", "up").about(before));
          continue;
        }
        int effect = effectBefore(i);
        if (effect >= 0) {
          // "the guitar delay steps on the singing"
          use(i);
          add(effect, Pred.of(items.get(effect).a(), "down").asComplaint().about(before));
          continue;
        }
        Pred hides = Pred.of("level", "down").asComplaint().about(before);
        // "his guitar covers my guitar": which one?
        add(i, !before.isEmpty() && before.equals(hidden) ? hides.asUnclear() : hides);
        if (before.isEmpty()) {
          segment.targets.clear();
        }
      } else if (type == Type.LOST
          && items.get(i).a().equals("its")
          && !(i + 1 < items.size() && type(i + 1) == Type.PROP)) {
        // "it lost its chest": what is lost has no name here
        use(i);
      } else if (type == Type.LOST
          && i + 1 < items.size()
          && (type(i + 1) == Type.LESS || type(i + 1) == Type.MORE)) {
        // "I want to hear less strings"
        use(i);
      } else if (type == Type.LOST && items.get(i).a().equals("wish") && saysHow(i)) {
        // "I'd love to hear the vocal a bit drier"
        use(i);
      } else if (type == Type.LOST && rangeBefore(i) >= 0) {
        int range = rangeBefore(i);
        String aspect = items.get(range).a();
        use(i);
        found.removeIf(p -> p.aspect().equals(aspect));
        add(range, Pred.of(aspect, Vocabulary.directions(aspect).get(0)).asComplaint());
      } else if (type == Type.LOST && !used[i]) {
        List<String> before = elements(0, i);
        boolean it =
            before.isEmpty() && items.subList(0, i).stream().anyMatch(x -> x.is(Type.PRON));
        boolean who =
            items.subList(0, i).stream().anyMatch(x -> x.is(Type.HER) && x.a().equals("drowned"));
        if (it || who) {
          // "it's hiding behind the organ", "I get buried by the guitars"
          segment.targets.clear();
        }
        if (who) {
          segment.targets.add("lead vocal");
        }
        add(
            i,
            Pred.of("level", "up")
                .asComplaint()
                .about(before.isEmpty() ? elements(i + 1, items.size()) : before));
      } else if (type == Type.DOMINATES
          && found.stream().anyMatch(p -> p.complaint() && !p.aspect().equals("level"))
          && items.stream().limit(i).anyMatch(x -> x.is(Type.PROP))) {
        // "the esses on the bvs stick out"
        use(i);
      } else if (type == Type.DOMINATES && !negatedBefore(i)) {
        add(i, Pred.of("level", "down").asComplaint());
      }
    }
  }

  private boolean saysHow(int i) {
    List<Item> behind = items.subList(i + 1, items.size());
    boolean mix = behind.stream().anyMatch(x -> x.is(Type.ELEM) && x.a().equals(Vocabulary.MIX));
    boolean part = behind.stream().anyMatch(x -> x.is(Type.ELEM));
    return mix || part && behind.stream().anyMatch(x -> HOW.contains(x.type()));
  }

  /** The reverb, delay or distortion that hides something, or −1 where a part does. */
  private int effectBefore(int i) {
    for (int k = 0; k < i; k++) {
      if (items.get(k).is(Type.PROP) && SPREADS.contains(items.get(k).a()) && !used[k]) {
        return k;
      }
    }
    return -1;
  }

  /** "The low end disappears": what is lost is a range. */
  private int rangeBefore(int i) {
    for (int k = i - 1; k >= 0; k--) {
      if (items.get(k).is(Type.PROP) && items.get(k).b().equals("-")) {
        boolean more = Vocabulary.directions(items.get(k).a()).contains("up");
        return more && !items.get(k).a().equals("level") ? k : -1;
      }
      if (items.get(k).is(Type.ELEM)) {
        return -1;
      }
    }
    return -1;
  }

  List<String> elements(int from, int to) {
    List<String> names = new ArrayList<>();
    for (int i = from; i < to; i++) {
      if (items.get(i).is(Type.ELEM) && segment.targets.contains(items.get(i).a())) {
        names.add(items.get(i).a());
      }
    }
    return names;
  }
}

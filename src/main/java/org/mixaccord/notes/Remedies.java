package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** What a short wish means after what was said before it: "boomy, pull it down". */
final class Remedies {
  /** What there can be more or less of on another part: "less reverb on the snare, more on her". */
  private static final Set<String> AMOUNTS_OF =
      Set.of(
          "reverb",
          "delay",
          "compression",
          "distortion",
          "lows",
          "low mids",
          "mids",
          "highs",
          "impact");

  private static final EnumSet<Type> BARE_MORE =
      EnumSet.of(
          Type.MORE,
          Type.LESS,
          Type.AUX,
          Type.DEG,
          Type.PLACE,
          Type.PRON,
          Type.COPULA,
          Type.ADD,
          Type.TOOMUCH);

  private static final EnumSet<Type> TURNING =
      EnumSet.of(
          Type.UP,
          Type.DOWN,
          Type.CUT,
          Type.VERB,
          Type.PART,
          Type.PRON,
          Type.DEG,
          Type.AMOUNT,
          Type.AUX,
          Type.NUMBER);

  private static final int FEW = 3;
  private static final Set<String> REMOVABLE =
      Set.of("noise", "reverb", "delay", "effect", "width");

  private final Walk walk;

  Remedies(Walk walk) {
    this.walk = walk;
  }

  /** "The bass is boomy, pull it down": the remedy belongs to the fault named before. */
  Pred meant(Segment segment, Pred pred) {
    return ofTheHeading(segment, pred)
        .or(() -> ofTheBeater(segment, pred))
        .or(() -> ofTheProperty(segment, pred))
        .or(() -> ofTheFault(segment, pred))
        .or(() -> takenAway(segment, pred))
        .or(() -> ofWhatWasLiked(segment, pred))
        .orElseGet(() -> ofTheFade(segment, pred));
  }

  /** "BV delay: down 2 dB". */
  private Optional<Pred> ofTheHeading(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    boolean again =
        segment.joint == Segment.Joint.COMMA
            && segment.targets.isEmpty()
            && pred.generic()
            && pred.aspect().equals("level")
            && pred.amount() != null
            && last != null
            && !last.complaint()
            && AMOUNTS_OF.contains(last.aspect())
            && last.amount() == null
            && last.direction().equals(pred.direction())
            && walk.carried.predSentence == segment.sentence
            && walk.carried.propertySentence == segment.sentence;
    if (again) {
      // "vox delay: lower, maybe 3 dB lower"
      return Optional.of(pred.turned(last.aspect(), pred.direction()));
    }
    boolean headed = segment.joint == Segment.Joint.HEADED && walk.at > 0;
    if (!headed || !pred.generic() || !pred.aspect().equals("level")) {
      return Optional.empty();
    }
    return walk.segments.get(walk.at - 1).items.stream()
        .filter(x -> x.is(Type.PROP) && x.b().equals("-") && AMOUNTS_OF.contains(x.a()))
        .findFirst()
        .map(x -> pred.turned(x.a(), pred.direction()));
  }

  /** "Kick: more click", "kick more punch, less click". */
  private Optional<Pred> ofTheBeater(Segment segment, Pred pred) {
    boolean headed =
        segment.joint == Segment.Joint.HEADED && walk.carried.headElements.contains("kick");
    boolean same =
        walk.carried.elements.contains("kick") && walk.carried.elementSentence == segment.sentence;
    boolean click = segment.items.stream().anyMatch(x -> x.is(Type.PROP) && x.c().equals("click"));
    boolean wanted = segment.hasAny(EnumSet.of(Type.MORE, Type.LESS, Type.TOOMUCH));
    boolean kick = segment.targets.isEmpty() && (headed || same);
    return kick && click && wanted && pred.aspect().equals("noise")
        ? Optional.of(pred.turned("highs", segment.has(Type.MORE) ? "up" : "down"))
        : Optional.empty();
  }

  /** "The reverb at the end, make it shorter". */
  private Optional<Pred> ofTheProperty(Segment segment, Pred pred) {
    boolean tail =
        pred.aspect().equals("length")
            && (segment.has(Type.PRON)
                || segment.has(Type.WH)
                || segment.items.size() <= FEW && !segment.placeLeads)
            && segment.targets.isEmpty()
            && walk.carried.lastProperty != null
            && Set.of("reverb", "delay", "fade").contains(walk.carried.lastProperty)
            && segment.sentence - walk.carried.propertySentence <= 1;
    if (tail && walk.carried.lastProperty.equals("fade")) {
      return Optional.of(pred.turned("fade", pred.direction()));
    }
    if (tail) {
      return Optional.of(
          pred.turned(
              walk.carried.lastProperty, pred.direction().equals("longer") ? "up" : "down"));
    }
    boolean sooner =
        pred.aspect().equals("timing")
            && segment.has(Type.PRON)
            && segment.targets.isEmpty()
            && "fade".equals(walk.carried.lastProperty)
            && walk.carried.propertySentence == segment.sentence;
    if (sooner) {
      // "the fade is too long, finish it two seconds sooner"
      return Optional.of(
          pred.turned("fade", pred.direction().equals("earlier") ? "shorter" : "longer"));
    }
    return Optional.empty();
  }

  /** "Muddy, clean that up a bit". */
  private Optional<Pred> ofTheFault(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    boolean mute = pred.aspect().equals("mute");
    boolean removable = last != null && REMOVABLE.contains(last.aspect());
    boolean degree = pred.amount() != null && pred.amount().word().isPresent();
    boolean some = segment.items.size() == 2 && segment.has(Type.CUT) && segment.has(Type.DEG);
    boolean eased = says(segment, Type.DOWN, "ease") || some;
    // "boxy around 400, take that out": the fault, not the part
    boolean that = mute && says(segment, Type.OUT, "that");
    int since = segment.sentence - walk.carried.predSentence;
    // "clear it out a touch" takes nothing away for good
    boolean refers =
        (pred.generic() || mute && degree || that)
            && (pred.aspect().equals("level") || mute && (removable || degree || that))
            && segment.targets.isEmpty()
            && last != null
            && last.complaint()
            && (mute || goesAlong(pred, last))
            && (since == 0 || since == 1 && eased)
            && !segment.placeLeads
            && !last.aspect().equals("level")
            && !last.aspect().equals("other");
    if (refers) {
      Amount share = new Degrees(segment.items).amountFor(last.aspect(), 0);
      Amount amount = pred.amount() == null ? share : pred.amount();
      return Optional.of(pred.turned(last.aspect(), last.direction()).with(amount));
    }
    boolean cleared =
        pred.aspect().equals("distortion")
            && pred.direction().equals("down")
            && segment.targets.isEmpty()
            && last != null
            && last.complaint()
            && since == 0
            && Set.of("low mids", "lows", "mids", "reverb").contains(last.aspect());
    if (cleared) {
      // "the guitars get muddy, clean that up a bit"
      return Optional.of(pred.turned(last.aspect(), last.direction()));
    }
    boolean cleaned =
        pred.aspect().equals("distortion")
            && segment.targets.isEmpty()
            && last != null
            && last.aspect().equals("noise")
            && segment.sentence - walk.carried.predSentence <= 1;
    if (cleaned) {
      // "there is a hum, can it be cleaned up"
      return Optional.of(Pred.of("noise", "fix"));
    }
    return Optional.empty();
  }

  /** "There is a hum, get rid of it". */
  private Optional<Pred> takenAway(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    boolean mute = pred.aspect().equals("mute");
    boolean removable = last != null && REMOVABLE.contains(last.aspect());
    int since = segment.sentence - walk.carried.predSentence;
    boolean gone =
        mute
            && removable
            && segment.has(Type.PRON)
            && segment.targets.isEmpty()
            && last.complaint()
            && since <= 1;
    if (gone) {
      // "Is the hum on purpose? if it isn't, get rid of it"; "too wide, bring them in 20 %"
      Amount amount = new Degrees(segment.items).amountFor(last.aspect(), 0);
      return Optional.of(pred.turned(last.aspect(), last.direction()).with(amount));
    }
    boolean switchedOff =
        mute
            && pred.direction().equals("out")
            && segment.has(Type.PRON)
            && segment.targets.isEmpty()
            && last != null
            && last.aspect().equals("effect")
            && last.direction().equals("in")
            && since <= 1;
    if (switchedOff) {
      // "flanger on the toms? lose it"
      walk.drafts.changes.removeIf(
          d -> d.pred.aspect().equals("effect") && d.sentence == walk.carried.predSentence);
      return Optional.of(Pred.of("effect", "out"));
    }
    boolean drawnIn =
        mute
            && pred.direction().equals("in")
            && segment.has(Type.PRON)
            && segment.targets.isEmpty()
            && last != null
            && last.aspect().equals("width")
            && last.direction().equals("narrower")
            && since <= 1;
    if (drawnIn) {
      // "spread too far, bring them in a bit"
      Amount amount = new Degrees(segment.items).amountFor("width", 0);
      return Optional.of(pred.turned("width", "narrower").with(amount));
    }
    boolean gentler =
        pred.direction().equals("down")
            && (pred.aspect().equals("impact")
                || pred.aspect().equals("harshness") && segment.has(Type.PRON));
    boolean softened =
        gentler
            && segment.targets.isEmpty()
            && segment.items.size() <= FEW
            && last != null
            && last.complaint()
            && last.direction().equals("down")
            && Set.of("sibilance", "harshness", "impact").contains(last.aspect())
            && since <= 1;
    if (softened) {
      // "my esses whistle, can you soften them", "shrill, calm it down"
      return Optional.of(pred.turned(last.aspect(), "down"));
    }
    return Optional.empty();
  }

  /** "The reverb is lovely, more of it". */
  private Optional<Pred> ofWhatWasLiked(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    boolean mute = pred.aspect().equals("mute");
    String liked = walk.carried.lastProperty;
    boolean removed =
        mute
            && pred.direction().equals("out")
            && segment.targets.isEmpty()
            && walk.carried.removable != null
            && segment.sentence - walk.carried.removableSentence <= 1
            && (last == null
                || walk.carried.predSentence < walk.carried.removableSentence
                || last.unclear());
    if (removed) {
      // "Big breath at 1:33. Remove please", "that tremolo makes me seasick, turn it off"
      boolean noise = walk.carried.removable.equals("noise");
      return Optional.of(noise ? Pred.of("noise", "fix") : Pred.of("effect", "out"));
    }
    boolean restored =
        mute
            && pred.direction().equals("in")
            && segment.targets.isEmpty()
            && pred.amount() != null
            && segment.sentence - walk.carried.propertySentence <= 1
            && Set.of("sibilance", "harshness", "lows", "highs", "mids")
                .contains(String.valueOf(liked));
    if (restored) {
      // "you took the esses out, put some back"
      return Optional.of(pred.turned(liked, "up"));
    }
    boolean lost =
        mute
            && pred.direction().equals("in")
            && (segment.has(Type.PRON) || pred.amount() != null)
            && segment.targets.isEmpty()
            && last != null
            && last.aspect().equals("sibilance")
            && last.direction().equals("up")
            && segment.sentence - walk.carried.predSentence <= 1;
    if (lost) {
      // "her esses have gone. I'd like them back"
      return Optional.of(pred.turned("sibilance", "up").with(pred.amount()));
    }
    boolean moved =
        mute
            && pred.direction().equals("in")
            && says(segment, Type.ADD, "add")
            && segment.has(Type.PRON)
            && liked != null
            && AMOUNTS_OF.contains(liked)
            && walk.carried.propertySentence == segment.sentence;
    if (moved) {
      // "take the reverb off the bvs, put it on the lead"
      return Optional.of(pred.turned(liked, "up"));
    }
    boolean moreOfLiked =
        liked != null
            && segment.sentence - walk.carried.propertySentence <= (segment.has(Type.PRON) ? 1 : 0)
            && AMOUNTS_OF.contains(liked)
            && pred.generic()
            && pred.aspect().equals("level")
            && (segment.items.stream().allMatch(x -> BARE_MORE.contains(x.type()))
                || turnsIt(segment)
                || segment.has(Type.HALF) && segment.has(Type.PRON));
    if (moreOfLiked) {
      // "the reverb is lovely, more please"; "less of it in the verse, more in the chorus"
      return Optional.of(pred.turned(liked, pred.direction()));
    }
    boolean moreOfIt =
        segment.upon
            && pred.generic()
            && pred.aspect().equals("level")
            && last != null
            && walk.carried.predSentence == segment.sentence
            && AMOUNTS_OF.contains(last.aspect());
    if (moreOfIt) {
      return Optional.of(pred.turned(last.aspect(), pred.direction()));
    }
    return Optional.empty();
  }

  /** "The delay is a gimmick, take it down", and nothing else was asked in the sentence. */
  private boolean turnsIt(Segment segment) {
    return segment.has(Type.PRON)
        && segment.targets.isEmpty()
        && walk.carried.predSentence < segment.sentence
        && walk.carried.propertySentence == segment.sentence
        && segment.items.stream().allMatch(x -> TURNING.contains(x.type()));
  }

  private Pred ofTheFade(Segment segment, Pred pred) {
    Pred last = walk.carried.lastPred;
    boolean fade =
        (pred.generic() || segment.has(Type.PRON))
            && pred.aspect().equals("length")
            && segment.targets.isEmpty()
            && last != null
            && last.aspect().equals("fade");
    return fade ? pred.turned("fade", pred.direction()) : pred;
  }

  /** "Boomy, pull it down"; "the drums drag, bring them up" asks for two things. */
  private static boolean goesAlong(Pred move, Pred fault) {
    List<String> ways = Vocabulary.directions(fault.aspect());
    return !ways.contains("up") || move.direction().equals(fault.direction());
  }

  private static boolean says(Segment segment, Type type, String detail) {
    return segment.items.stream().anyMatch(x -> x.is(type) && x.a().equals(detail));
  }
}

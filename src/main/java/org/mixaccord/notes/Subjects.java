package org.mixaccord.notes;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Finds the part a request is about where its own words do not name one. */
final class Subjects {
  private static final Set<String> OF_THE_MIX = Set.of("fade", "length", "noise", "delivery");
  private static final java.util.regex.Pattern OF_A_VOICE =
      java.util.regex.Pattern.compile("auto ?tune|vocod|talk ?box|formant|harmonizer|robot");
  private static final Set<String> OF_THE_VOICE = Set.of("sibilance", "tuning");

  /** Sung by somebody who may be meant by "her". */
  private static final Set<String> SUNG =
      Set.of("backing vocals", "ad libs", "whisper", "spoken bit", "rap", "choir");

  /** "Warmer in verse 2": goes on about the part before it. */
  private static final EnumSet<Type> STARTS = EnumSet.of(Type.QUAL, Type.PRED, Type.DEG);

  private final Walk walk;

  Subjects(Walk walk) {
    this.walk = walk;
  }

  /** "Leave the drums in C1, C2 a little more": more of what was to be left alone elsewhere. */
  private List<String> keptJustBefore(Segment segment, Pred pred) {
    boolean it = pred.generic() || segment.has(Type.PRON);
    if (walk.drafts.keeps.isEmpty() || !segment.placeLeads || !it || pred.complaint()) {
      return List.of();
    }
    Draft last = walk.drafts.keeps.get(walk.drafts.keeps.size() - 1);
    boolean near = segment.sentence - last.sentence <= 1;
    boolean elsewhere = !last.places.isEmpty();
    boolean part = !last.element.equals(Vocabulary.MIX);
    return near && elsewhere && part ? List.of(last.element) : List.of();
  }

  List<String> of(int i, Pred pred, List<Place> own) {
    Segment segment = walk.segments.get(i);
    if (!pred.targets().isEmpty()) {
      return pred.targets();
    }
    boolean theirs = segment.quoted && walk.carried.headElements.stream().anyMatch(SUNG::contains);
    if (theirs) {
      return walk.carried.headElements;
    }
    boolean known =
        segment.her
            && segment.sentence - walk.carried.elementSentence <= 1
            && walk.carried.elements.stream().anyMatch(SUNG::contains);
    if (known) {
      return walk.carried.elements;
    }
    if (!segment.targets.isEmpty()) {
      return segment.targets;
    }
    String unknown = UnknownParts.in(segment);
    if (!unknown.isEmpty()) {
      return List.of(unknown);
    }
    boolean sameSentence = walk.carried.elementSentence == segment.sentence;
    boolean itself = segment.items.stream().anyMatch(x -> x.is(Type.IN) && x.a().equals("it"));
    boolean pointed = segment.points() || itself;
    // "top end harsh" is about the mix, "harsh" about nothing
    boolean range = segment.has(Type.PROP);
    boolean nowhere = own.isEmpty() && walk.inheritedPlaces().isEmpty() && !range;
    if (pred.generic()
        && pred.complaint()
        && nowhere
        && !pointed
        && walk.carried.elements.isEmpty()) {
      return List.of();
    }
    boolean someone = segment.has(Type.SOMEONE);
    // "Pitchy at 1:27" on a line of its own
    boolean anew = walk.carried.elements.isEmpty() || segment.newLine && !pointed;
    if (OF_THE_VOICE.contains(pred.aspect()) && anew && !someone) {
      return List.of("vocals");
    }
    boolean sung =
        pred.aspect().equals("effect")
            && segment.items.stream()
                .anyMatch(x -> x.is(Type.EFFECT) && OF_A_VOICE.matcher(x.a()).find());
    if (sung && walk.carried.elements.isEmpty()) {
      return List.of("vocals");
    }
    boolean headed =
        !walk.carried.headElements.isEmpty() && segment.joint != Segment.Joint.SENTENCE;
    boolean sameNoise =
        pred.aspect().equals("noise")
            && walk.carried.lastPred != null
            && walk.carried.lastPred.aspect().equals("noise")
            && sameSentence
            && segment.items.stream().noneMatch(x -> x.is(Type.PROP));
    boolean removed =
        pred.aspect().equals("noise")
            && "noise".equals(walk.carried.removable)
            && segment.sentence - walk.carried.removableSentence <= 1
            && walk.carried.elementSentence == walk.carried.removableSentence
            && segment.items.stream().noneMatch(x -> x.is(Type.PROP));
    if ((sameNoise || removed) && !walk.carried.elements.isEmpty()) {
      // "amp hiss on the guitar, clean it up"
      return walk.carried.elements;
    }
    boolean lasts =
        pred.aspect().equals("length")
            && pointed
            && own.isEmpty()
            && segment.sentence - walk.carried.elementSentence == 1
            && walk.carried.placeSentence <= walk.carried.elementSentence;
    if (lasts && !walk.carried.elements.isEmpty()) {
      // "the riser stops early. Make it a beat longer"
      return walk.carried.elements;
    }
    if (OF_THE_MIX.contains(pred.aspect())
        && !headed
        && !((pointed || pred.generic()) && sameSentence && !walk.carried.elements.isEmpty())) {
      return NoiseSource.of(segment, pred);
    }
    if (pred.aspect().equals("delay") && !(pointed || sameSentence)) {
      return List.of("vocals");
    }
    if (!walk.carried.headElements.isEmpty() && !sameSentence) {
      return walk.carried.headElements;
    }
    List<String> kept = keptJustBefore(segment, pred);
    if (!kept.isEmpty() && !own.isEmpty()) {
      return kept;
    }
    if (sameSentence
        && !walk.carried.elements.isEmpty()
        && (pointed
            || !segment.placeLeads
            || !own.isEmpty()
                && segment.joint != Segment.Joint.SENTENCE
                && (walk.carried.lastPred != null || headed)
                && pred.generic())) {
      return walk.carried.elements;
    }
    if (pointed && !segment.placeLeads && !walk.carried.elements.isEmpty()) {
      return walk.carried.elements;
    }
    boolean there = segment.places.stream().anyMatch(p -> p.is(Place.Kind.THERE));
    if (there
        && (pred.generic() || segment.adds)
        && segment.sentence - walk.carried.elementSentence <= 1) {
      if (!walk.carried.elements.isEmpty()) {
        // "The strings are too loud from 2:40. Down 2 there"
        return walk.carried.elements;
      }
    }
    boolean fault =
        walk.carried.lastPred != null && walk.carried.lastPred.complaint() && !segment.newLine;
    boolean doubted =
        walk.carried.elementSentence == segment.sentence - 1
            && (fault || walk.carried.predSentence < walk.carried.elementSentence)
            && !segment.placeLeads
            && pred.generic();
    if (doubted && pred.amount() != null && !walk.carried.elements.isEmpty()) {
      // "I'm torn about the organ. Maybe 1 dB down in the bridge?", "It is too loud. Down 1 dB …"
      return walk.carried.elements;
    }
    // "But the snare. Still too loud"
    boolean wishless = walk.carried.predSentence < walk.carried.elementSentence;
    boolean goesOn =
        wishless && pred.complaint() && segment.items.get(0).is(Type.COPULA) && !segment.asks;
    boolean fragment =
        own.isEmpty()
            && walk.carried.sentencePlaces.isEmpty()
            && (goesOn || !segment.has(Type.COPULA))
            && segment.sentence - walk.carried.elementSentence <= 1;
    boolean adjective =
        !segment.placeLeads
            && segment.joint == Segment.Joint.SENTENCE
            && !segment.has(Type.COPULA)
            && STARTS.contains(segment.items.get(0).type())
            && segment.sentence - walk.carried.elementSentence == 1;
    boolean back = segment.has(Type.BACKTO);
    if ((fragment || back || adjective) && !walk.carried.elements.isEmpty()) {
      return walk.carried.elements;
    }
    boolean floating =
        pred.generic() && own.isEmpty() && !range && walk.carried.sentencePlaces.isEmpty();
    if (floating && !pointed) {
      boolean follows =
          !walk.carried.elements.isEmpty() && segment.sentence - walk.carried.elementSentence <= 1;
      return follows && pred.amount() != null ? walk.carried.elements : List.of();
    }
    boolean preferred = segment.has(Type.PREFER);
    boolean please = segment.hasPlease();
    boolean aimed = segment.has(Type.VAGUEAIM) && segment.has(Type.MORE);
    boolean wanted = preferred || range || please || aimed;
    if (pred.unclear() && !pointed && own.isEmpty() && !wanted) {
      return List.of();
    }
    boolean voice = OF_THE_VOICE.contains(pred.aspect()) && !someone;
    return List.of(voice ? "vocals" : Vocabulary.MIX);
  }
}

package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.StreamSupport;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.changes.Judge;
import org.mixaccord.changes.Place;
import org.mixaccord.changes.PresenceJudge;
import org.mixaccord.changes.UsualAmount;
import org.mixaccord.changes.Verdict;
import org.mixaccord.notes.Amount;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;

/** Judges changes by the comparisons there are; for engineers only. */
@ApplicationScoped
public class VerdictDesk {
  /** What the evidence says of a change in one bounce. */
  public record InBounce(Bounce bounce, Verdict verdict) {}

  private final Evidence evidence;
  private final Places places;

  VerdictDesk(Evidence evidence, Places places) {
    this.evidence = evidence;
    this.places = places;
  }

  /**
   * A verdict for every later main that has been compared with the bounce the change is about, or
   * else with the main before it, unless the change was done in that one already. Empty for who may
   * not see verdicts.
   */
  @Transactional
  public List<InBounce> of(Change change, Access reader) {
    if (!reader.may(Act.SEE_CHECKS)) {
      return List.of();
    }
    List<Bounce> mains =
        Bounce.of(change.song()).stream()
            .filter(b -> b.kind() == BounceKind.MAIN && b.ready())
            .sorted(Comparator.comparingInt(Bounce::number))
            .toList();
    List<InBounce> verdicts = new ArrayList<>();
    Bounce before = null;
    for (Bounce main : mains) {
      boolean later = main.uploadedAt().isAfter(change.bounce().uploadedAt());
      if (later && !main.id().equals(change.bounce().id())) {
        Optional<String> json = evidence.comparison(main, change.bounce());
        Bounce previous = before;
        json.or(
                () ->
                    previous == null || isDoneBy(change, previous)
                        ? Optional.empty()
                        : evidence.comparison(main, previous))
            .ifPresent(found -> verdicts.add(new InBounce(main, judge(change, found))));
      }
      before = main;
    }
    return verdicts;
  }

  /**
   * What the vague amount of a change usually means, from what was called good in this project and
   * measured. Empty for who may not see figures of parts.
   */
  @Transactional
  public Optional<UsualAmount> usual(Change change, Access reader) {
    if (!reader.may(Act.SEE_CHECKS) || change.amount().flatMap(Amount::word).isEmpty()) {
      return Optional.empty();
    }
    List<UsualAmount.Good> good = new ArrayList<>();
    for (Change done : Change.calledGood(change.song().project())) {
      Optional<String> word = done.amount().flatMap(Amount::word);
      if (word.isPresent() && done.aspect().equals(change.aspect())) {
        moved(done, reader)
            .ifPresent(
                db ->
                    good.add(
                        new UsualAmount.Good(
                            done.asker().id(),
                            done.asker().name(),
                            word.get(),
                            done.aspect(),
                            Math.abs(db))));
      }
    }
    return UsualAmount.of(change.asker().id(), change.aspect(), change.amount(), good);
  }

  /** By how much a change was seen to move in the mix it was done in, dB. */
  private OptionalDouble moved(Change done, Access reader) {
    return of(done, reader).stream()
        .filter(in -> done.doneIn().filter(b -> b.id().equals(in.bounce().id())).isPresent())
        .map(in -> in.verdict().measuredDb())
        .filter(OptionalDouble::isPresent)
        .findFirst()
        .orElse(OptionalDouble.empty());
  }

  /** Whether a mix holds the change already, so that a later one moves nothing against it. */
  private static boolean isDoneBy(Change change, Bounce main) {
    return change.doneIn().filter(in -> in.number() <= main.number()).isPresent();
  }

  /** What one comparison says of a change. */
  Verdict judge(Change change, String comparison) {
    JsonNode tree = WireJson.tree(comparison);
    Place place = places.wishes(List.of(change)).get(0).place();
    List<Judge.Figure> figures = new ArrayList<>();
    List<PresenceJudge.Presence> presence = new ArrayList<>();
    for (JsonNode section : tree.path("sections")) {
      String name = section.path("name").asText();
      boolean here =
          place.isWholeSong() || place.sections().contains(name.toLowerCase(Locale.ROOT));
      if (here) {
        Optional<JsonNode> part = element(section, change.element());
        part.map(e -> figure(name, e)).ifPresent(figures::add);
        part.map(e -> presence(name, e)).ifPresent(presence::add);
      }
    }
    if (change.aspect().equals("mute")) {
      return PresenceJudge.judge(change.direction().equals("in"), presence);
    }
    if (figures.isEmpty() && place.isWholeSong()) {
      element(tree.path("whole"), change.element())
          .map(e -> figure("the whole song", e))
          .ifPresent(figures::add);
    }
    return Judge.judge(
        change.aspect(),
        change.direction(),
        change.amount(),
        tree.path("gainDb").asDouble(0),
        figures);
  }

  private static Optional<JsonNode> element(JsonNode side, String name) {
    return StreamSupport.stream(side.path("elements").spliterator(), false)
        .filter(e -> e.path("element").asText().equals(name))
        .findFirst();
  }

  private static Judge.Figure figure(String section, JsonNode element) {
    return new Judge.Figure(
        section, number(element, "gainChangeDb"), number(element, "plusMinusDb"));
  }

  private static PresenceJudge.Presence presence(String section, JsonNode element) {
    return new PresenceJudge.Presence(
        section,
        element.path("presentThere").asBoolean(true),
        element.path("present").asBoolean(true));
  }

  private static OptionalDouble number(JsonNode node, String field) {
    JsonNode value = node.path(field);
    return value.isNumber() ? OptionalDouble.of(value.doubleValue()) : OptionalDouble.empty();
  }
}

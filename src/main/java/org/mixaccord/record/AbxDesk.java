package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import jakarta.transaction.Transactional;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.review.AbxRules;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.SongDoor;

/** Listening tests: begun, answered trial by trial, and told at the end to who took them. */
@ApplicationScoped
public class AbxDesk {
  /** What is to be tested. */
  public record Plan(HeardPlaces.Pair pair, HeardPlaces.Place place, int trials) {}

  /** What came out, once all trials are answered. */
  public record Result(int right, double probability, String words) {}

  /** A test as its owner sees it. */
  public record Seen(AbxTest test, Optional<Result> result) {}

  /** A sound to be served: the test, and whether it is A's. */
  public record Sound(AbxTest test, Bounce a, Bounce b, boolean isA) {}

  private final Sheet sheet;
  private final HeardPlaces heard;
  private final EntityManager entities;

  AbxDesk(Sheet sheet, HeardPlaces heard, EntityManager entities) {
    this.sheet = sheet;
    this.heard = heard;
    this.entities = entities;
  }

  /** Looks at what somebody wants to test themselves on. */
  @Transactional
  public Plan plan(String songId, HeardPlaces.Asked asked, int trials) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.SEE_CHECKS);
    HeardPlaces.Pair pair = heard.pair(in, asked);
    if (pair.one().id().equals(pair.two().id())) {
      throw WireJson.invalid("mixes", "Choose two different mixes.");
    }
    if (!AbxRules.trialsFit(trials)) {
      throw WireJson.invalid(
          "trials",
          "Between " + AbxRules.LEAST_TRIALS + " and " + AbxRules.MOST_TRIALS + " trials.");
    }
    return new Plan(pair, heard.place(in, pair, asked), trials);
  }

  /** Begins a test. */
  @Transactional
  public Seen begin(String songId, Plan plan) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.SEE_CHECKS);
    HeardPlaces.Pair pair =
        new HeardPlaces.Pair(
            Bounce.findById(plan.pair().one().id()), Bounce.findById(plan.pair().two().id()));
    return seen(
        AbxTest.begin(pair, plan.place(), plan.trials(), in.access().person(), sheet.now()));
  }

  /** The caller's own tests, newest first. */
  @Transactional
  public List<Seen> list(String songId) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.SEE_CHECKS);
    return AbxTest.of(in.song(), in.access().person()).stream().map(AbxDesk::seen).toList();
  }

  @Transactional
  public Seen get(String testId) {
    return seen(own(testId));
  }

  /** A or B, which are known. */
  @Transactional
  public Sound known(String testId, boolean isA) {
    return sound(own(testId), isA);
  }

  /** X of the trial that is to be answered now, from 1. */
  @Transactional
  public Sound hidden(String testId, int trial) {
    AbxTest test = own(testId);
    check(test, trial);
    return sound(test, test.hiddenIsA(trial - 1));
  }

  private static Sound sound(AbxTest test, boolean isA) {
    test.a().facts();
    test.b().facts();
    return new Sound(test, test.a(), test.b(), isA);
  }

  /** Answers the trial that is to be answered now, from 1. */
  @Transactional
  public Seen answer(String testId, int trial, boolean saysA) {
    AbxTest test = own(testId);
    entities.refresh(test, LockModeType.PESSIMISTIC_WRITE);
    check(test, trial);
    test.answer(saysA);
    return seen(test);
  }

  private static void check(AbxTest test, int trial) {
    Sheet.check(AbxRules.answer(trial - 1, test.answered(), test.trials(), test.brokenOff()));
  }

  /** Breaks it off: nothing of it is shown, now or later. */
  @Transactional
  public void breakOff(String testId) {
    AbxTest test = own(testId);
    entities.refresh(test, LockModeType.PESSIMISTIC_WRITE);
    check(test, test.answered() + 1);
    test.breakOff(sheet.now());
  }

  private AbxTest own(String testId) {
    AbxTest test = AbxTest.<AbxTest>findByIdOptional(testId).orElseThrow(Doorkeeper::notFound);
    SongDoor.ToSong in = sheet.read(test.song().id());
    if (!test.person().id().equals(in.access().person().id())) {
      throw Doorkeeper.notFound();
    }
    in.access().require(Act.SEE_CHECKS);
    return test;
  }

  private static Seen seen(AbxTest test) {
    boolean shown = AbxRules.scoreShown(test.answered(), test.trials());
    return new Seen(
        test,
        shown
            ? Optional.of(
                new Result(
                    test.right(),
                    AbxRules.probability(test.right(), test.trials()),
                    AbxRules.words(test.right(), test.trials())))
            : Optional.empty());
  }
}

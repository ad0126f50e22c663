package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.LockModeType;
import jakarta.transaction.Transactional;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Member;
import org.mixaccord.review.BlindPickRules;
import org.mixaccord.review.BlindPickRules.Choice;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.SongDoor;

/** Blind picks: offered by the engineer, heard and picked by each, told to the last word. */
@ApplicationScoped
public class BlindPickDesk {
  /**
   * What is to be offered, looked at before anything is written.
   *
   * @param changes the two that contradict each other, or none
   */
  public record Plan(Bounce one, Bounce two, HeardPlaces.Place place, List<String> changes) {}

  /** What one person picked, for the last word. */
  public record Picked(String person, String name, Choice choice, Optional<Bounce> mix) {}

  /**
   * A blind pick as one person sees it.
   *
   * @param ear their own part; empty for who only reads along
   * @param mixes the two as the engineer named them, for engineers and whoever is told the picks
   * @param picks who picked what, for the last word alone; empty: not told
   * @param missing names of who has not picked, for engineers and the last word
   */
  public record Seen(
      BlindPick pick,
      Optional<BlindEar> ear,
      boolean open,
      boolean mayEnd,
      List<Bounce> mixes,
      Optional<List<Picked>> picks,
      List<String> missing,
      List<String> changes) {}

  /** A sound somebody may be served: which place, and which of its mixes. */
  public record Sound(BlindPick pick, Bounce one, Bounce two, BlindPickRules.Mix which) {}

  private final Sheet sheet;
  private final HeardPlaces heard;
  private final Places places;

  BlindPickDesk(Sheet sheet, HeardPlaces heard, Places places) {
    this.sheet = sheet;
    this.heard = heard;
    this.places = places;
  }

  /**
   * Looks at what the engineer wants to offer.
   *
   * @param change one of two that contradict each other, or null
   */
  @Transactional
  public Plan plan(String songId, HeardPlaces.Asked asked, String change) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.WORK_LIST);
    HeardPlaces.Pair pair = heard.pair(in, asked);
    Sheet.check(
        BlindPickRules.offer(
            pair.one().sent() && pair.two().sent(), !pair.one().id().equals(pair.two().id())));
    if (change == null) {
      return new Plan(pair.one(), pair.two(), heard.place(in, pair, asked), List.of());
    }
    ChangeList.Row row =
        ChangeList.of(in.song(), in.access(), places)
            .find(change)
            .orElseThrow(Doorkeeper::notFound);
    if (row.conflictsWith().isEmpty()) {
      throw WireJson.invalid("change", "Nothing contradicts this change.");
    }
    HeardPlaces.Place place =
        asked.saysPlace() ? heard.place(in, pair, asked) : heard.placeOf(pair, row.change());
    return new Plan(pair.one(), pair.two(), place, List.of(change, row.conflictsWith().get(0)));
  }

  /** Offers it to everybody who may write. */
  @Transactional
  public Seen offer(String songId, Plan plan) {
    SongDoor.ToSong in = sheet.write(songId);
    Access by = in.access();
    by.require(Act.WORK_LIST);
    List<Change> changes = plan.changes().stream().map(id -> Change.<Change>findById(id)).toList();
    BlindPick pick =
        BlindPick.offer(
            Bounce.findById(plan.one().id()),
            Bounce.findById(plan.two().id()),
            plan.place().span(),
            plan.place().words(),
            changes,
            by.person(),
            sheet.now());
    by.people().members().stream()
        .filter(Member::mayWrite)
        .forEach(m -> BlindEar.open(pick, m.person()));
    sheet.tell(
        by,
        in.song(),
        about(
            pick,
            "blind-pick-offered",
            by.person().name() + " asks for a blind pick in " + pick.place() + "."));
    return seen(pick, by);
  }

  /** The blind picks of a song, newest first. */
  @Transactional
  public List<Seen> list(String songId) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.SEE_LIST);
    List<BlindPick> picks = BlindPick.of(in.song());
    if (in.access().may(Act.WRITE_NOTE)
        && picks.stream().anyMatch(p -> BlindEar.of(p, in.access().person()).isEmpty())) {
      // Whoever joined since has ears too.
      sheet.lock(in.song());
      picks.stream()
          .filter(p -> BlindEar.of(p, in.access().person()).isEmpty())
          .forEach(p -> BlindEar.open(p, in.access().person()));
    }
    return picks.stream().map(p -> seen(p, in.access())).toList();
  }

  /** The sound behind one person's first or second; nobody else comes to it. */
  @Transactional
  public Sound sound(String earId, Choice which) {
    ToEar to = ear(earId);
    BlindPick pick = to.ear().pick();
    Bounce one = pick.mix(BlindPickRules.Mix.ONE);
    Bounce two = pick.mix(BlindPickRules.Mix.TWO);
    one.facts();
    two.facts();
    return new Sound(pick, one, two, to.ear().behind(which));
  }

  /** Notes that one of the two was served. */
  @Transactional
  public void served(String earId, Choice which) {
    ToEar to = ear(earId);
    // Both are fetched at once as a rule: neither may undo what the other noted.
    lock(to.ear());
    to.ear().heard(which, sheet.now());
  }

  /** Picks, once. */
  @Transactional
  public Seen pick(String earId, Choice choice) {
    ToEar to = ear(earId);
    BlindPick pick = to.ear().pick();
    sheet.lock(pick.song());
    lock(to.ear());
    Sheet.check(BlindPickRules.pick(standing(to.access(), Optional.of(to.ear())), pick.open()));
    to.ear().pick(choice, sheet.now());
    sheet.tell(
        to.access(),
        pick.song(),
        about(
            pick,
            "blind-pick-made",
            to.access().person().name() + " has picked in " + pick.place() + "."));
    return seen(pick, to.access());
  }

  /** Ends it before its contradiction is settled. */
  @Transactional
  public Seen end(String pickId) {
    BlindPick pick =
        BlindPick.<BlindPick>findByIdOptional(pickId).orElseThrow(Doorkeeper::notFound);
    SongDoor.ToSong in = sheet.write(pick.song().id());
    in.access().require(Act.SEE_LIST);
    Sheet.check(
        BlindPickRules.end(in.access().may(Act.WORK_LIST), in.access().hasLastWord(), pick.open()));
    pick.end(sheet.now());
    sheet.tell(
        in.access(),
        in.song(),
        about(
            pick,
            "blind-pick-ended",
            in.access().person().name() + " ended the blind pick in " + pick.place() + "."));
    return seen(pick, in.access());
  }

  private static void lock(BlindEar ear) {
    BlindEar.getEntityManager().refresh(ear, LockModeType.PESSIMISTIC_WRITE);
  }

  private record ToEar(Access access, BlindEar ear) {}

  private ToEar ear(String earId) {
    BlindEar ear = BlindEar.<BlindEar>findByIdOptional(earId).orElseThrow(Doorkeeper::notFound);
    SongDoor.ToSong in = sheet.read(ear.pick().song().id());
    if (!ear.person().id().equals(in.access().person().id())) {
      throw Doorkeeper.notFound();
    }
    in.access().require(Act.WRITE_NOTE);
    return new ToEar(in.access(), ear);
  }

  private static BlindPickRules.Ear standing(Access access, Optional<BlindEar> ear) {
    return new BlindPickRules.Ear(
        access.may(Act.WRITE_NOTE),
        ear.filter(BlindEar::heardBoth).isPresent(),
        ear.flatMap(BlindEar::choice).isPresent());
  }

  private static Seen seen(BlindPick pick, Access access) {
    Optional<BlindEar> own =
        access.may(Act.WRITE_NOTE) ? BlindEar.of(pick, access.person()) : Optional.empty();
    boolean open = pick.open();
    boolean engineer = access.may(Act.WORK_LIST);
    boolean told = BlindPickRules.toldPicks(access.hasLastWord(), standing(access, own), open);
    List<BlindEar> ears = BlindEar.of(pick);
    List<Bounce> mixes =
        engineer || told
            ? List.of(pick.mix(BlindPickRules.Mix.ONE), pick.mix(BlindPickRules.Mix.TWO))
            : List.of();
    return new Seen(
        pick,
        own,
        open,
        BlindPickRules.end(engineer, access.hasLastWord(), open).allowed(),
        mixes,
        told ? Optional.of(picks(pick, ears)) : Optional.empty(),
        engineer || access.hasLastWord() ? missing(ears, access) : List.of(),
        pick.changes().stream().filter(c -> c.note().maySee(access)).map(Change::id).toList());
  }

  private static List<Picked> picks(BlindPick pick, List<BlindEar> ears) {
    return ears.stream()
        .filter(e -> e.choice().isPresent())
        .map(
            e ->
                new Picked(
                    e.person().id(),
                    e.person().name(),
                    e.choice().orElseThrow(),
                    e.picked().map(pick::mix)))
        .toList();
  }

  private static List<String> missing(List<BlindEar> ears, Access access) {
    return access.people().members().stream()
        .filter(Member::mayWrite)
        .map(Member::person)
        .filter(
            p ->
                ears.stream()
                    .noneMatch(e -> e.person().id().equals(p.id()) && e.choice().isPresent()))
        .map(org.mixaccord.accounts.Person::name)
        .toList();
  }

  /** A row about a blind pick, which names neither mix nor order. */
  private static Happening about(BlindPick pick, String act, String detail) {
    return Happening.open("question", act, pick.id(), detail);
  }
}

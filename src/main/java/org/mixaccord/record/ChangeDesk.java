package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Texts;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.ChangeRules;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.FollowUp;
import org.mixaccord.changes.NewWork;
import org.mixaccord.notes.Where;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.review.Rounds;
import org.mixaccord.songs.AudioState;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.SongDoor;

/** The change list: reading it, working it, answering it after hearing, settling it. */
@ApplicationScoped
public class ChangeDesk {
  private static final int MOST_AT_ONCE = 500;
  private static final int REASON_CHARS = 1000;

  /** Many changes to be marked by one press. */
  public record Marking(
      List<String> changes, String state, String doneIn, String answer, String reason) {}

  /** What came of an answer after hearing. */
  public record Heard(ChangeState state, Optional<String> next) {}

  private final Sheet sheet;
  private final Places places;
  private final ChangeMoves moves;

  ChangeDesk(Sheet sheet, Places places, ChangeMoves moves) {
    this.sheet = sheet;
    this.places = places;
    this.moves = moves;
  }

  /** The list as the caller sees it, oldest first; null for every state. */
  @Transactional
  public List<ChangeList.Row> list(String songId, String state) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.SEE_LIST);
    Optional<ChangeState> wanted = Optional.ofNullable(state).map(ChangePatch::state);
    return ChangeList.of(in.song(), in.access(), places).rows().stream()
        .filter(row -> wanted.isEmpty() || row.state() == wanted.get())
        .toList();
  }

  /** One change as the caller sees it. */
  @Transactional
  public ChangeList.Row get(String changeId) {
    Sheet.ToChange to = sheet.change(changeId);
    return row(to);
  }

  private ChangeList.Row row(Sheet.ToChange to) {
    return ChangeList.of(to.song(), to.access(), places).row(to.change().id());
  }

  /**
   * Changes one change.
   *
   * @param ifMatch the ETag it was read with
   */
  @Transactional
  public ChangeList.Row patch(String changeId, String ifMatch, ChangePatch patch) {
    Sheet.ToChange to = sheet.changeToWrite(changeId);
    if (ifMatch == null || ifMatch.isBlank()) {
      throw new ProblemException(
          Problem.IF_MATCH_REQUIRED, "Send the ETag you read this change with as If-Match.");
    }
    ChangeList.Row row = row(to);
    if (!matches(ifMatch, row.etag())) {
      throw new ProblemException(
              Problem.CHANGED_MEANWHILE,
              "Somebody else changed this a moment ago. Look at it again.")
          .with("etag", row.etag());
    }
    Access by = to.access();
    Change change = to.change();
    if (patch.fields() != null) {
      edit(by, change, patch);
    }
    if (patch.newWork().isPresent()) {
      by.require(Act.WORK_LIST);
      change.callWork(NewWork.of(patch.newWork().get()));
    }
    if (patch.round().isPresent()) {
      takeInto(by, change, patch.round().get());
    }
    if (patch.state().isPresent()) {
      move(by, to.song(), row, patch.state().get(), patch);
    } else if (patch.doneIn().isPresent() || patch.answer().isPresent()) {
      correct(by, to.song(), change, patch);
    }
    return row(to);
  }

  private static boolean matches(String sent, String etag) {
    for (String one : sent.split(",")) {
      String bare = one.strip().replaceFirst("^W/", "").replace("\"", "");
      if (bare.equals("*") || bare.equals(etag.replace("\"", ""))) {
        return true;
      }
    }
    return false;
  }

  private void edit(Access by, Change change, ChangePatch patch) {
    boolean closed = Rounds.listClosed(change.round(), change.song().roundForNewNotes());
    Sheet.check(ChangeRules.edit(change.facts(), Sheet.actor(by, change), closed));
    change.say(patch.over(change.asked(), SongPlaces.of(change.song(), change.bounce())));
    sheet.tell(
        by,
        change.song(),
        Sheet.about(
            change,
            "change-reworded",
            by.person().name() + " put " + Sheet.quote(change.text()) + " in other fields."));
  }

  private void takeInto(Access by, Change change, int round) {
    by.require(Act.WORK_LIST);
    if (!Rounds.mayTakeInto(round, change.song().roundForNewNotes())) {
      throw new ProblemException(Problem.INVALID, "There is no round " + round + " yet.")
          .with("field", "round");
    }
    change.putInto(round);
    sheet.tell(
        by,
        change.song(),
        Sheet.about(
            change,
            "change-taken-in",
            by.person().name()
                + " took "
                + Sheet.quote(change.text())
                + " into round "
                + round
                + "."));
  }

  private void move(Access by, Song song, ChangeList.Row row, ChangeState to, ChangePatch patch) {
    Optional<Bounce> doneIn = doneIn(by, song, to, patch.doneIn());
    ChangeMoves.Move move = new ChangeMoves.Move(to, doneIn, patch.answer(), patch.reason());
    moves.move(by, row.change(), move);
    repeats(by, row, move);
  }

  /** What asks for the same is worked by the same press; what people say of it stays their own. */
  private void repeats(Access by, ChangeList.Row row, ChangeMoves.Move move) {
    if (move.to() == ChangeState.DONE || move.to() == ChangeState.LEFT) {
      List<Change> same = row.mergedWith().stream().map(id -> Change.<Change>findById(id)).toList();
      moves.moveRepeats(by, row.change(), same, move);
    }
  }

  private static Optional<Bounce> doneIn(
      Access by, Song song, ChangeState to, Optional<String> wanted) {
    if (to != ChangeState.DONE) {
      return Optional.empty();
    }
    if (wanted.isPresent()) {
      return Optional.of(NoteDesk.bounceOf(new SongDoor.ToSong(by, song), wanted.get()));
    }
    return Optional.of(
        Bounce.of(song).stream()
            .filter(b -> b.kind() == BounceKind.MAIN && b.mayBeHeardBy(by))
            .filter(b -> b.state() != AudioState.FAILED)
            .max(java.util.Comparator.comparingInt(Bounce::number))
            .orElseThrow(
                () ->
                    new ProblemException(
                        Problem.NO_BOUNCE, "There is no mix yet that it could be done in.")));
  }

  /** Another bounce or answer for what is done and not sent. */
  private void correct(Access by, Song song, Change change, ChangePatch patch) {
    by.require(Act.WORK_LIST);
    if (change.state() != ChangeState.DONE || change.facts().doneInSent()) {
      throw new ProblemException(
          Problem.WRONG_STATE, "Only what is done in a mix not yet sent can be put elsewhere.");
    }
    if (patch.answer().filter(a -> !a.fits(ChangeState.DONE)).isPresent()) {
      throw WireJson.invalid("answer", "What is done is done as asked or differently.");
    }
    Bounce in =
        patch.doneIn().isPresent()
            ? doneIn(by, song, ChangeState.DONE, patch.doneIn()).orElseThrow()
            : change.doneIn().orElseThrow();
    change.becomeDone(
        in,
        patch.answer().or(change::answer).orElse(ChangeAnswer.AS_ASKED),
        patch.reason().or(change::reason).orElse(null),
        sheet.now());
    Happening row =
        Sheet.about(
            change, "change-done", Sheet.quote(change.text()) + " is done in " + in.title() + ".");
    sheet.tell(by, song, in.sent() ? row : row.about(in.id()).forEngineers());
  }

  /** Marks many at once: all of them, or none when one of them cannot be. */
  @Transactional
  public List<ChangeList.Row> mark(String songId, Marking marking) {
    SongDoor.ToSong in = sheet.write(songId);
    in.access().require(Act.WORK_LIST);
    if (marking.changes() == null
        || marking.changes().isEmpty()
        || marking.changes().size() > MOST_AT_ONCE) {
      throw WireJson.invalid("changes", "Name 1 to " + MOST_AT_ONCE + " changes.");
    }
    if (marking.state() == null) {
      throw WireJson.invalid("state", "Say what they are: done, left, or asked again.");
    }
    ChangeState to = ChangePatch.state(marking.state());
    Optional<String> why =
        Optional.ofNullable(Texts.lineOrNull("reason", marking.reason(), REASON_CHARS));
    ChangeMoves.Move move =
        new ChangeMoves.Move(
            to,
            doneIn(in.access(), in.song(), to, Optional.ofNullable(marking.doneIn())),
            Optional.ofNullable(marking.answer()).map(ChangePatch::answer),
            why);
    Set<String> wanted = new LinkedHashSet<>(marking.changes());
    ChangeList before = ChangeList.of(in.song(), in.access(), places);
    List<ChangeList.Row> rows = new ArrayList<>();
    for (String id : wanted) {
      rows.add(before.find(id).orElseThrow(Doorkeeper::notFound));
    }
    for (ChangeList.Row row : rows) {
      // A repeat may have gone along with the one before it.
      boolean there =
          row.change().state() == to
              && row.change().doneIn().map(Bounce::id).equals(move.doneIn().map(Bounce::id));
      if (!there) {
        moves.move(in.access(), row.change(), move);
        repeats(in.access(), row, move);
      }
    }
    ChangeList after = ChangeList.of(in.song(), in.access(), places);
    return wanted.stream().map(after::row).toList();
  }

  /** What somebody says after hearing what was done. */
  @Transactional
  public Heard hear(String changeId, String bounceId, String says) {
    Sheet.ToChange to = sheet.changeToWrite(changeId);
    FollowUp.Says said =
        FollowUp.Says.of(says)
            .orElseThrow(
                () -> WireJson.invalid("says", "Say good, more, too-much, halfway or put-back."));
    Change change = to.change();
    if (bounceId == null) {
      throw WireJson.invalid("bounce", "Name the mix you heard.");
    }
    Bounce heard = NoteDesk.bounceOf(new SongDoor.ToSong(to.access(), to.song()), bounceId);
    Sheet.check(ChangeRules.hear(change.facts(), Sheet.actor(to.access(), change)));
    if (!heard.sent()) {
      throw new ProblemException(Problem.WRONG_STATE, "This mix has not been sent yet.");
    }
    if (said == FollowUp.Says.GOOD) {
      moves.move(to.access(), change, ChangeMoves.Move.to(ChangeState.GOOD));
      return new Heard(ChangeState.GOOD, Optional.empty());
    }
    Change next = follow(to, heard, said);
    return new Heard(ChangeState.FOLLOWED, Optional.of(next.id()));
  }

  private Change follow(Sheet.ToChange to, Bounce heard, FollowUp.Says said) {
    Change change = to.change();
    FollowUp follow =
        FollowUp.of(said, change.aspect(), change.direction(), change.amount(), firstWords(change));
    Instant now = sheet.now();
    Change.Asked asked =
        new Change.Asked(
            change.element(),
            follow.aspect(),
            follow.direction(),
            follow.amount(),
            whereOn(change, heard),
            follow.text(),
            change.asked().start(),
            change.asked().end());
    Change next =
        change.followUp(to.access().person(), heard, asked, to.song().roundForNewNotes(), now);
    change.heard(ChangeState.FOLLOWED, now);
    sheet.tell(
        to.access(),
        to.song(),
        Sheet.about(
                next,
                "change-followed",
                to.access().person().name()
                    + " heard "
                    + heard.title()
                    + ". "
                    + Sheet.quote(follow.text()))
            .about(heard.id()));
    return next;
  }

  /** The words of the first change of a chain, so that they are not quoted over and over. */
  private static String firstWords(Change change) {
    Change first = change;
    while (first.follows().isPresent()) {
      first = first.follows().get();
    }
    return first.text();
  }

  /** The place on the bounce that was heard; where it cannot be moved, its section or the song. */
  private Where whereOn(Change change, Bounce heard) {
    Where where = change.where();
    if (where.fromSeconds().isEmpty()) {
      return where;
    }
    Places.Shown shown =
        places.show(
            change.bounce(),
            heard,
            where.fromSeconds().getAsDouble(),
            where.toSeconds().getAsDouble());
    return shown.fromSeconds().isEmpty()
        ? Where.WHOLE_SONG
        : Where.between(shown.fromSeconds().get(), shown.toSeconds().orElseThrow());
  }

  /** Settles a contradiction: the change wins, and what it conflicts with is left. */
  @Transactional
  public ChangeList.Row settle(String changeId, String reason) {
    Sheet.ToChange to = sheet.changeToWrite(changeId);
    ChangeList.Row row = row(to);
    boolean contradicted = !row.conflictsWith().isEmpty();
    Sheet.check(
        ChangeRules.settle(
            to.change().facts(), contradicted, Sheet.actor(to.access(), to.change())));
    Instant now = sheet.now();
    String why = Texts.lineOrNull("reason", reason, REASON_CHARS);
    String by = "settled by " + to.access().person().name();
    for (String loserId : row.conflictsWith()) {
      Change loser = Change.findById(loserId);
      loser.lose(to.access().person(), why == null ? by : by + ": " + why, now);
      moves.closeQuestions(to.access(), loser, now);
      sheet.tell(
          to.access(),
          to.song(),
          Sheet.about(
              loser,
              "change-left",
              Sheet.quote(loser.text()) + " is left, " + by + (why == null ? "." : ": " + why)));
    }
    sheet.tell(
        to.access(),
        to.song(),
        Sheet.about(
            to.change(),
            "change-settled",
            to.access().person().name() + " settled it: " + Sheet.quote(to.change().text())));
    return row(to);
  }
}

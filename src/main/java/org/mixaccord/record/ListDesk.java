package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Ids;
import org.mixaccord.changes.ChangeRules;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.review.Rounds;
import org.mixaccord.songs.SongDoor;

/** Arranges the change list: one line into several, several worked as one, and their order. */
@ApplicationScoped
public class ListDesk {
  private static final int MOST_PARTS = 12;
  private static final int MOST_AT_ONCE = 500;

  private final Sheet sheet;
  private final Places places;

  ListDesk(Sheet sheet, Places places) {
    this.sheet = sheet;
    this.places = places;
  }

  /**
   * Makes several changes of one; each keeps the author's words.
   *
   * @param parts for each part the fields that differ from the change's own
   */
  @Transactional
  public List<ChangeList.Row> split(String changeId, List<JsonNode> parts) {
    Sheet.ToChange to = sheet.changeToWrite(changeId);
    Change change = to.change();
    mayEdit(to.access(), change);
    if (change.state() == ChangeState.UNCLEAR) {
      throw new ProblemException(
          Problem.WRONG_STATE,
          "This is still unclear. Wait for the answer, or take it as it reads, and split it then.");
    }
    if (parts == null || parts.size() < 2 || parts.size() > MOST_PARTS) {
      throw WireJson.invalid("parts", "Name 2 to " + MOST_PARTS + " parts.");
    }
    SongPlaces there = SongPlaces.of(to.song(), change.bounce());
    Change.Asked whole = change.asked();
    List<Change.Asked> asked = new ArrayList<>();
    for (JsonNode part : parts) {
      asked.add(ChangePatch.fieldsOf(part).over(whole, there));
    }
    int last = Change.of(change.note()).stream().mapToInt(Change::position).max().orElse(0);
    List<Change> made = new ArrayList<>(List.of(change));
    change.say(asked.get(0));
    for (Change.Asked one : asked.subList(1, asked.size())) {
      made.add(change.splitOff(one, ++last));
    }
    rankBehind(to, change, made);
    sheet.tell(
        to.access(),
        to.song(),
        Sheet.about(
            change,
            "change-split",
            to.access().person().name()
                + " made "
                + made.size()
                + " lines of "
                + Sheet.quote(change.text())
                + "."));
    ChangeList list = ChangeList.of(to.song(), to.access(), places);
    return made.stream().map(c -> list.row(c.id())).toList();
  }

  /** The parts stand where the whole stood. */
  private static void rankBehind(Sheet.ToChange to, Change whole, List<Change> made) {
    List<Change> order = new ArrayList<>(Change.of(to.song()));
    order.removeAll(made);
    int at = (int) Change.of(to.song()).stream().takeWhile(c -> c != whole).count();
    order.addAll(Math.min(at, order.size()), made);
    rank(order);
  }

  /** Lets changes be worked as one; everybody keeps their words and their say. */
  @Transactional
  public List<ChangeList.Row> join(String songId, List<String> ids) {
    SongDoor.ToSong in = sheet.write(songId);
    in.access().require(Act.SEE_LIST);
    ChangeList list = ChangeList.of(in.song(), in.access(), places);
    List<ChangeList.Row> rows = rows(list, ids, 2);
    Set<String> wanted = new LinkedHashSet<>(ids);
    rows.forEach(row -> mayEdit(in.access(), row.change()));
    for (ChangeList.Row row : rows) {
      if (row.conflictsWith().stream().anyMatch(wanted::contains)) {
        throw new ProblemException(
            Problem.WRONG_STATE,
            "These go against each other. They have to be settled before they can be one.");
      }
    }
    String mark = Ids.fresh();
    // Whoever was joined to one of them before comes along.
    Set<String> marks = new LinkedHashSet<>();
    rows.forEach(row -> row.change().joined().ifPresent(marks::add));
    for (ChangeList.Row row : list.rows()) {
      boolean along = row.change().joined().filter(marks::contains).isPresent();
      if (along || wanted.contains(row.change().id())) {
        row.change().join(mark);
      }
    }
    Change first = rows.get(0).change();
    sheet.tell(
        in.access(),
        in.song(),
        Sheet.about(
            first,
            "changes-joined",
            in.access().person().name()
                + " joined "
                + rows.size()
                + " lines; "
                + Sheet.quote(first.text())
                + " is one of them."));
    ChangeList after = ChangeList.of(in.song(), in.access(), places);
    return ids.stream().map(after::row).toList();
  }

  /** Takes a change out of what it was joined to. */
  @Transactional
  public ChangeList.Row part(String changeId) {
    Sheet.ToChange to = sheet.changeToWrite(changeId);
    mayEdit(to.access(), to.change());
    if (to.change().joined().isEmpty()) {
      throw new ProblemException(
          Problem.WRONG_STATE, "This line was not joined to another by hand.");
    }
    to.change().join(null);
    sheet.tell(
        to.access(),
        to.song(),
        Sheet.about(
            to.change(),
            "change-parted",
            to.access().person().name()
                + " took "
                + Sheet.quote(to.change().text())
                + " out of what it was joined to."));
    return ChangeList.of(to.song(), to.access(), places).row(changeId);
  }

  /** Puts changes into an order among themselves; all others stay where they are. */
  @Transactional
  public void order(String songId, List<String> ids) {
    SongDoor.ToSong in = sheet.write(songId);
    in.access().require(Act.WORK_LIST);
    List<ChangeList.Row> rows = rows(ChangeList.of(in.song(), in.access(), places), ids, 1);
    Set<String> moved = new LinkedHashSet<>(ids);
    List<Change> order = new ArrayList<>(Change.of(in.song()));
    int next = 0;
    for (int i = 0; i < order.size(); i++) {
      if (moved.contains(order.get(i).id())) {
        order.set(i, rows.get(next++).change());
      }
    }
    rank(order);
    sheet.tell(
        in.access(),
        in.song(),
        Sheet.about(
            rows.get(0).change(),
            "list-ordered",
            in.access().person().name() + " put the list into another order."));
  }

  private static void rank(List<Change> order) {
    for (int i = 0; i < order.size(); i++) {
      order.get(i).rank(i);
    }
  }

  private static List<ChangeList.Row> rows(ChangeList list, List<String> ids, int least) {
    if (ids == null
        || ids.contains(null)
        || new LinkedHashSet<>(ids).size() != ids.size()
        || ids.size() < least
        || ids.size() > MOST_AT_ONCE) {
      throw WireJson.invalid(
          "changes", "Name " + least + " to " + MOST_AT_ONCE + " changes, each once.");
    }
    return ids.stream().map(id -> list.find(id).orElseThrow(Doorkeeper::notFound)).toList();
  }

  private static void mayEdit(Access by, Change change) {
    boolean closed = Rounds.listClosed(change.round(), change.song().roundForNewNotes());
    Sheet.check(ChangeRules.edit(change.facts(), Sheet.actor(by, change), closed));
  }
}

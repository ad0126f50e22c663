package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.audio.TempoMap;
import org.mixaccord.changes.AmountBounds;
import org.mixaccord.changes.ChangeAnswer;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.changes.NewWork;
import org.mixaccord.notes.Where;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.SongDoor;
import org.mixaccord.worksheet.AskWords;
import org.mixaccord.worksheet.OnePiece;
import org.mixaccord.worksheet.WorkSheet;

/** Writes the change list down for one mix, with its places on that mix. */
@ApplicationScoped
public class WorkSheetDesk {
  /**
   * A list written down.
   *
   * @param bars of the song, in seconds of the mix
   */
  public record Written(WorkSheet sheet, Bounce mix, TempoMap bars) {}

  private final Sheet sheet;
  private final Places places;
  private final VerdictDesk verdicts;
  private final BarsOnRecord bars;

  WorkSheetDesk(Sheet sheet, Places places, VerdictDesk verdicts, BarsOnRecord bars) {
    this.sheet = sheet;
    this.places = places;
    this.verdicts = verdicts;
    this.bars = bars;
  }

  /**
   * The list as the caller sees it.
   *
   * @param bounceId the mix; null for the newest main the caller may hear
   * @param needs what the caller has to be allowed beside seeing the list
   */
  @Transactional
  public Written write(String songId, String bounceId, Act... needs) {
    SongDoor.ToSong in = sheet.read(songId);
    Access access = in.access();
    access.require(Act.SEE_LIST);
    for (Act act : needs) {
      access.require(act);
    }
    Bounce mix =
        bounceId != null
            ? NoteDesk.bounceOf(in, bounceId)
            : Bounce.newestMain(in.song(), access)
                .orElseThrow(
                    () ->
                        new ProblemException(
                            Problem.NO_BOUNCE, "There is no mix yet that a list could be for."));
    List<Section> sections = places.sectionsOn(in.song(), mix);
    List<WorkSheet.Line> lines = new ArrayList<>();
    Set<String> written = new HashSet<>();
    List<List<ChangeList.Row>> pieces = new ArrayList<>();
    ChangeList list = ChangeList.of(in.song(), access, places);
    for (ChangeList.Row row : list.rows()) {
      boolean gone = row.state() == ChangeState.WITHDRAWN || row.state() == ChangeState.FOLLOWED;
      if (!gone && written.add(row.change().id())) {
        List<ChangeList.Row> piece = new ArrayList<>(List.of(row));
        row.mergedWith().stream()
            .map(list::row)
            .filter(other -> other.state() == row.state() && written.add(other.change().id()))
            .forEach(piece::add);
        pieces.add(piece);
      }
    }
    pieces.sort(
        Comparator.comparingInt((List<ChangeList.Row> p) -> placeInSong(p.get(0), sections))
            .thenComparing(p -> String.join(",", named(p.get(0), sections))));
    for (int i = 0; i < pieces.size(); i++) {
      lines.addAll(
          OnePiece.lines(
              i + 1, pieces.get(i).stream().map(one -> line(one, mix, sections, access)).toList()));
    }
    List<WorkSheet.Keep> keeps =
        Keep.of(in.song()).stream()
            .filter(k -> k.holds() && k.note().maySee(access))
            .map(k -> keep(k, mix, sections))
            .toList();
    Song song = in.song();
    mix.facts();
    WorkSheet made =
        new WorkSheet(
            song.title(), song.project().artist(), mix.title(), song.round(), lines, keeps);
    return new Written(made, mix, bars.map(song, mix));
  }

  /** As on the page: what concerns the whole song first, then section by section. */
  private static int placeInSong(ChangeList.Row row, List<Section> sections) {
    List<String> names = named(row, sections);
    return names.isEmpty() ? -1 : indexOf(names.get(0), sections);
  }

  /** The sections it concerns, in the order of the song. */
  private static List<String> named(ChangeList.Row row, List<Section> sections) {
    Where where = row.change().where();
    if (where.fromSeconds().isPresent()) {
      double from = where.fromSeconds().getAsDouble();
      double to = where.toSeconds().orElse(from);
      return sections.stream()
          .filter(s -> s.from() <= to && s.to() > from)
          .map(Section::name)
          .toList();
    }
    return where.sections().stream()
        .sorted(Comparator.comparingInt((String name) -> indexOf(name, sections)))
        .toList();
  }

  private static int indexOf(String name, List<Section> sections) {
    for (int i = 0; i < sections.size(); i++) {
      if (sections.get(i).name().equalsIgnoreCase(name)) {
        return i;
      }
    }
    return sections.size();
  }

  /** What one person asks for; its number comes with the piece it belongs to. */
  private WorkSheet.Line line(
      ChangeList.Row row, Bounce mix, List<Section> sections, Access access) {
    Change change = row.change();
    return new WorkSheet.Line(
        "",
        AskWords.part(change.element()),
        AskWords.ask(change.aspect(), change.direction(), change.amount().map(AmountBounds::words)),
        List.of(new WorkSheet.Said(change.asker().name(), change.text())),
        where(change.where(), change.isAfterEnd()),
        stretches(change.where(), change.bounce(), mix, sections),
        state(row.state()),
        row.answer().map(WorkSheetDesk::answer),
        row.reason(),
        moved(row, access),
        change.newWork().map(WorkSheetDesk::newWork));
  }

  /** Where it lies on the mix; nowhere, if that is after its end. */
  private List<WorkSheet.Stretch> stretches(
      Where where, Bounce writtenOn, Bounce mix, List<Section> sections) {
    if (SongPlaces.isAfterEnd(where, writtenOn)) {
      return List.of();
    }
    if (where.fromSeconds().isPresent()) {
      Places.Shown shown =
          places.show(
              writtenOn, mix, where.fromSeconds().getAsDouble(), where.toSeconds().getAsDouble());
      double end = mix.facts().map(AudioFacts::seconds).orElse(Double.MAX_VALUE);
      return shown.fromSeconds().stream()
          .filter(from -> from <= end + SongPlaces.PAST_END_SECONDS)
          .map(
              from ->
                  new WorkSheet.Stretch(
                      where(where, false),
                      Math.min(from, end),
                      Math.min(shown.toSeconds().orElse(from), end)))
          .toList();
    }
    return sections.stream()
        .filter(s -> where.sections().stream().anyMatch(name -> name.equalsIgnoreCase(s.name())))
        .map(s -> new WorkSheet.Stretch(s.name(), s.from(), s.to()))
        .toList();
  }

  private Optional<String> moved(ChangeList.Row row, Access access) {
    if (row.doneIn().isEmpty() || !access.may(Act.WORK_LIST)) {
      return Optional.empty();
    }
    String doneIn = row.doneIn().get().id();
    return verdicts.of(row.change(), access).stream()
        .filter(in -> in.bounce().id().equals(doneIn))
        .map(in -> in.verdict().measuredDb())
        .filter(OptionalDouble::isPresent)
        .map(db -> AskWords.decibels(db.getAsDouble()))
        .findFirst();
  }

  private WorkSheet.Keep keep(Keep keep, Bounce mix, List<Section> sections) {
    return new WorkSheet.Keep(
        AskWords.part(keep.element()),
        where(keep.where(), keep.isAfterEnd()),
        stretches(keep.where(), keep.note().bounce(), mix, sections),
        new WorkSheet.Said(keep.note().author().name(), keep.text()));
  }

  private static String where(Where where, boolean afterEnd) {
    if (where.fromSeconds().isPresent()) {
      double from = where.fromSeconds().getAsDouble();
      if (afterEnd) {
        return "after the end of the mix (" + AskWords.clock(from) + ")";
      }
      double to = where.toSeconds().orElse(from);
      return to - from < 0.5
          ? "at " + AskWords.clock(from)
          : AskWords.clock(from) + " to " + AskWords.clock(to);
    }
    return where.isWholeSong() ? "Whole song" : AskWords.sections(where.sections());
  }

  private static WorkSheet.State state(ChangeState state) {
    return switch (state) {
      case UNCLEAR -> WorkSheet.State.UNCLEAR;
      case ASKED -> WorkSheet.State.OPEN;
      case DONE -> WorkSheet.State.DONE;
      case LEFT, WITHDRAWN -> WorkSheet.State.LEFT;
      case GOOD, FOLLOWED -> WorkSheet.State.ANSWERED;
    };
  }

  private static String answer(ChangeAnswer answer) {
    return switch (answer) {
      case AS_ASKED -> "as asked";
      case DIFFERENTLY -> "solved differently";
      case TRIED -> "tried and left";
      case CANNOT -> "can\u2019t be done";
      case NEED_FILES -> "needs files";
      case NEW_WORK -> "new work";
    };
  }

  private static String newWork(NewWork kind) {
    return switch (kind) {
      case TAKE -> "a new take";
      case PART -> "a new part";
      case FORM -> "an edit of the form";
    };
  }
}

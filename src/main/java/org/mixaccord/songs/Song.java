package org.mixaccord.songs;

import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Project;
import org.mixaccord.accounts.Texts;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** A song of a project: its tempo, its due date, and which round its notes belong to. */
@Entity
public class Song extends PanacheEntityBase {
  @Id private String id;
  @Version private int version;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "project")
  private Project project;

  private String title;

  @Column(name = "tempo_bpm")
  private Double tempoBpm;

  @Column(name = "beats_per_bar")
  private Integer beatsPerBar;

  @Column(name = "first_bar_seconds")
  private Double firstBarSeconds;

  private LocalDate due;

  @Column(name = "created_at")
  private Instant createdAt;

  private int round;

  @Column(name = "round_closed_at")
  private Instant roundClosedAt;

  protected Song() {}

  /** A new song without bounces. */
  public static Song begin(Project project, String title, Instant now) {
    Song song = new Song();
    song.id = Ids.fresh();
    song.project = project;
    song.title = Texts.line("title", title, 200);
    song.createdAt = now;
    song.persist();
    return song;
  }

  /** The songs of a project in the order they were made. */
  public static List<Song> of(Project project) {
    return list("project = ?1 order by createdAt, id", project);
  }

  public void rename(String newTitle) {
    title = Texts.line("title", newTitle, 200);
  }

  public void dueOn(LocalDate date) {
    due = date;
  }

  /**
   * Sets the musical grid.
   *
   * @param tempo beats per minute, 20 to 400, or null
   * @param beats beats per bar, 1 to 32, or null
   * @param firstBar where bar 1 begins, in seconds, or null
   */
  public void setGrid(Double tempo, Integer beats, Double firstBar) {
    if (tempo != null && !(tempo >= 20 && tempo <= 400)) {
      throw new ProblemException(Problem.INVALID, "A tempo lies between 20 and 400 bpm.");
    }
    if (beats != null && (beats < 1 || beats > 32)) {
      throw new ProblemException(Problem.INVALID, "A bar has 1 to 32 beats.");
    }
    if (firstBar != null && !(firstBar >= -3600 && firstBar <= 36000)) {
      throw new ProblemException(Problem.INVALID, "Bar 1 has to begin inside the song.");
    }
    tempoBpm = tempo;
    beatsPerBar = beats;
    firstBarSeconds = firstBar;
  }

  /** A main was sent: its round opens for notes. */
  public void openRound(int number) {
    round = number;
    roundClosedAt = null;
  }

  /** The engineer begins to work: later notes go to the next round. */
  public void closeRound(Instant now) {
    if (round == 0) {
      throw new ProblemException(
          Problem.WRONG_STATE, "No mix has been sent yet, so there is no list to close.");
    }
    if (roundClosedAt != null) {
      throw new ProblemException(Problem.WRONG_STATE, "This round’s list is closed already.");
    }
    roundClosedAt = now;
  }

  /** The round new notes belong to; 1 before anything was sent. */
  public int roundForNewNotes() {
    return Math.max(1, roundClosedAt == null ? round : round + 1);
  }

  /** The round of the newest main sent; 0 before. */
  public int round() {
    return round;
  }

  public boolean roundClosed() {
    return roundClosedAt != null;
  }

  public Optional<Instant> roundClosedAt() {
    return Optional.ofNullable(roundClosedAt);
  }

  public String id() {
    return id;
  }

  public Project project() {
    return project;
  }

  public String title() {
    return title;
  }

  public OptionalDouble tempoBpm() {
    return tempoBpm == null ? OptionalDouble.empty() : OptionalDouble.of(tempoBpm);
  }

  public OptionalInt beatsPerBar() {
    return beatsPerBar == null ? OptionalInt.empty() : OptionalInt.of(beatsPerBar);
  }

  public OptionalDouble firstBarSeconds() {
    return firstBarSeconds == null ? OptionalDouble.empty() : OptionalDouble.of(firstBarSeconds);
  }

  public Optional<LocalDate> due() {
    return Optional.ofNullable(due);
  }

  public Instant createdAt() {
    return createdAt;
  }
}

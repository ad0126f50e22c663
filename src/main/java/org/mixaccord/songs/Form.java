package org.mixaccord.songs;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.hibernate.orm.panache.PanacheEntityBase;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Texts;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/**
 * The sections of a song as somebody drew them on one bounce. Each drawing is a row of its own, so
 * the original places are kept for ever; the newest is in force.
 */
@Entity
public class Form extends PanacheEntityBase {
  /** A song with more sections than this is a mistake. */
  public static final int MOST_SECTIONS = 200;

  /** The longest name of a section. */
  public static final int MOST_NAME_CHARS = 60;

  private static final ObjectMapper JSON = new ObjectMapper();

  /** Rounding of times in scripts is no overlap and no overrun. */
  private static final double TOLERANCE_SECONDS = 0.0005;

  @Id private String id;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "song")
  private Song song;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "bounce")
  private Bounce bounce;

  @ManyToOne(fetch = FetchType.LAZY)
  @JoinColumn(name = "drawn_by")
  private Person drawnBy;

  @Column(name = "drawn_at")
  private Instant drawnAt;

  private String sections;

  protected Form() {}

  /**
   * Draws the sections of a song anew.
   *
   * @throws ProblemException {@code section-past-end}, {@code sections-overlap}, {@code
   *     section-name-taken} or {@code invalid}
   */
  public static Form draw(Bounce bounce, List<Section> drawn, Person by, Instant now) {
    double end =
        bounce
            .facts()
            .orElseThrow(
                () ->
                    new ProblemException(
                        Problem.NOT_MEASURED, "Wait until this mix has been measured."))
            .seconds();
    Form form = new Form();
    form.id = Ids.fresh();
    form.song = bounce.song();
    form.bounce = bounce;
    form.drawnBy = by;
    form.drawnAt = now;
    try {
      form.sections = JSON.writeValueAsString(checked(drawn, end));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("sections cannot be written", e);
    }
    form.persist();
    return form;
  }

  private static List<Section> checked(List<Section> drawn, double end) {
    if (drawn.size() > MOST_SECTIONS) {
      throw new ProblemException(
          Problem.INVALID, "A song has at most " + MOST_SECTIONS + " sections.");
    }
    List<Section> sorted = new ArrayList<>();
    Set<String> names = new HashSet<>();
    for (Section section : drawn) {
      String name = Texts.line("name", section.name(), MOST_NAME_CHARS);
      if (!names.add(name.toLowerCase(Locale.ROOT))) {
        throw new ProblemException(
            Problem.SECTION_NAME_TAKEN,
            "Two sections are called “" + name + "”. Number them, as in “Chorus 1”, “Chorus 2”.");
      }
      if (!(section.from() >= 0) || !(section.to() > section.from())) {
        throw new ProblemException(
            Problem.INVALID,
            "“" + name + "” has to end after it begins, and begin at 0:00 or later.");
      }
      if (!(section.to() <= end + TOLERANCE_SECONDS)) {
        throw new ProblemException(
            Problem.SECTION_PAST_END,
            String.format(
                Locale.ROOT,
                "“%s” ends at %s, but the mix ends at %s.",
                name,
                clock(section.to()),
                clock(end)));
      }
      sorted.add(new Section(name, section.from(), Math.min(section.to(), end)));
    }
    sorted.sort(Comparator.comparingDouble(Section::from));
    for (int i = 1; i < sorted.size(); i++) {
      if (sorted.get(i).from() < sorted.get(i - 1).to() - TOLERANCE_SECONDS) {
        throw new ProblemException(
            Problem.SECTIONS_OVERLAP,
            String.format(
                Locale.ROOT,
                "“%s” begins at %s, before “%s” ends at %s.",
                sorted.get(i).name(),
                clock(sorted.get(i).from()),
                sorted.get(i - 1).name(),
                clock(sorted.get(i - 1).to())));
      }
    }
    return sorted;
  }

  /** A time as m:ss.mmm. */
  static String clock(double seconds) {
    long millis = Math.round(seconds * 1000);
    return String.format(
        Locale.ROOT, "%d:%02d.%03d", millis / 60000, millis / 1000 % 60, millis % 1000);
  }

  /** The sections in force for a song. */
  public static Optional<Form> of(Song song) {
    return find("song = ?1 order by drawnAt desc, id desc", song).firstResultOptional();
  }

  /** The sections, in song order, on {@link #bounce()}'s time line. */
  public List<Section> sections() {
    try {
      return JSON.readValue(sections, new TypeReference<List<Section>>() {});
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("sections of form " + id + " cannot be read", e);
    }
  }

  public String id() {
    return id;
  }

  public Bounce bounce() {
    return bounce;
  }

  public Instant drawnAt() {
    return drawnAt;
  }
}

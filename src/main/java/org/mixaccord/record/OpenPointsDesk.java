package org.mixaccord.record;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Person;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.review.ApprovalBook;
import org.mixaccord.review.OpenPoint;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;

/** Finds what still stands between a bounce and its approval, as far as the reader may know. */
@ApplicationScoped
public class OpenPointsDesk {
  private final Places places;
  private final SpecCheck specs;

  OpenPointsDesk(Places places, SpecCheck specs) {
    this.places = places;
    this.specs = specs;
  }

  /**
   * The open points of a bounce.
   *
   * @param awaited changes an approval would wait for; they do not count
   */
  public List<OpenPoint> of(
      Bounce bounce, Access reader, ApprovalBook book, Collection<String> awaited) {
    ChangeList list = ChangeList.of(bounce.song(), reader, places);
    return OpenPoint.of(
        new OpenPoint.Facts(
            bounce.ready(),
            bounce.sent(),
            defects(bounce),
            questions(bounce, reader, list),
            changes(bounce, list, awaited),
            specs.misses(bounce),
            book.stops().stream().map(stop -> name(stop.person()) + " has said stop").toList()));
  }

  private static String name(String person) {
    return Person.<Person>findByIdOptional(person).map(Person::name).orElse("somebody");
  }

  private static List<String> defects(Bounce bounce) {
    List<String> found = new ArrayList<>();
    for (JsonNode defect : WireJson.tree(bounce.defects())) {
      if (defect.path("affectsSound").asBoolean()) {
        found.add(defect.path("detail").asText());
      }
    }
    return found;
  }

  private static List<String> questions(Bounce bounce, Access reader, ChangeList list) {
    List<String> open = new ArrayList<>();
    for (Question question : Question.of(bounce.song())) {
      if (!question.answered() && question.note().maySee(reader)) {
        open.add(question.note().author().name() + " was asked: " + question.text());
      }
    }
    for (ChangeList.Row row : list.rows()) {
      for (String otherId : row.conflictsWith()) {
        // Each pair once.
        if (row.change().id().compareTo(otherId) < 0) {
          Change other = list.row(otherId).change();
          open.add(Sheet.quote(row.change().text()) + " against " + Sheet.quote(other.text()));
        }
      }
    }
    return open;
  }

  private static List<String> changes(Bounce bounce, ChangeList list, Collection<String> awaited) {
    List<String> open = new ArrayList<>();
    for (ChangeList.Row row : list.rows()) {
      Change change = row.change();
      if (awaited.contains(change.id())) {
        continue;
      }
      if (change.facts().shownTo(false) == ChangeState.ASKED) {
        open.add(Sheet.quote(change.text()));
      } else if (onlyLater(change, bounce)) {
        open.add(
            Sheet.quote(change.text()) + " is only in " + change.doneIn().orElseThrow().title());
      }
    }
    return open;
  }

  /** Done, but in a main that came after this one. */
  private static boolean onlyLater(Change change, Bounce bounce) {
    boolean done = change.state() == ChangeState.DONE || change.state() == ChangeState.GOOD;
    Optional<Bounce> main = bounce.kind() == BounceKind.MAIN ? Optional.of(bounce) : bounce.main();
    return done
        && main.isPresent()
        && change
            .doneIn()
            .filter(b -> b.sent() && b.kind() == BounceKind.MAIN)
            .filter(b -> b.number() > main.get().number())
            .isPresent();
  }
}

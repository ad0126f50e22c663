package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.transaction.Transactional;
import org.mixaccord.accounts.PeopleChanged;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Project;
import org.mixaccord.songs.Song;

/** Writes who came, went or changed place into the history of each song of the project. */
@ApplicationScoped
public class PeopleInHistory {
  private final History history;

  PeopleInHistory(History history) {
    this.history = history;
  }

  @Transactional(Transactional.TxType.MANDATORY)
  void changed(@Observes PeopleChanged change) {
    Project project = Project.findById(change.project());
    Person by = Person.findById(change.by());
    for (Song song : Song.of(project)) {
      history.append(
          song, by, Happening.open("people", change.act(), change.subject(), change.detail()));
    }
  }
}

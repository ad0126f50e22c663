package org.mixaccord.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.DeliverySpec;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Links;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Project;
import org.mixaccord.accounts.Projects;
import org.mixaccord.accounts.Role;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.jobs.Jobs;
import org.mixaccord.songs.Song;

/** Makes the demo's people and songs once, and a sign-in link for each of its people. */
@ApplicationScoped
public class DemoStart {
  private final Projects projects;
  private final SignIn signIn;
  private final Doorkeeper doorkeeper;
  private final Links links;
  private final Jobs jobs;
  private final Clock clock;

  DemoStart(
      Projects projects,
      SignIn signIn,
      Doorkeeper doorkeeper,
      Links links,
      Jobs jobs,
      Clock clock) {
    this.projects = projects;
    this.signIn = signIn;
    this.doorkeeper = doorkeeper;
    this.links = links;
    this.jobs = jobs;
    this.clock = clock;
  }

  /** The demo's scripts, in the order they are told. */
  static List<DemoScript> scripts() {
    return List.of(DemoScript.first(), DemoScript.second());
  }

  /**
   * Makes the demo if it is not there, and has its mixes composed in the background.
   *
   * @return one line a person: their role, name and a sign-in link that works once
   */
  @Transactional
  public List<String> people() {
    Map<String, DemoScript.Person> everybody = new LinkedHashMap<>();
    for (DemoScript script : scripts()) {
      script.people().forEach(p -> everybody.putIfAbsent(p.address(), p));
    }
    if (Person.count() == 0) {
      everybody.values().forEach(p -> Person.named(p.name(), p.address(), false, clock.instant()));
      scripts().forEach(this::begin);
    }
    List<String> lines = new ArrayList<>();
    boolean known = false;
    for (DemoScript.Person person : everybody.values()) {
      Optional<Person> account = Person.withEmail(person.address());
      if (account.isPresent()) {
        known = true;
        lines.add(
            String.format(
                "%-9s %-16s %s%n",
                person.role().name().toLowerCase(java.util.Locale.ROOT),
                person.name(),
                links.signIn(signIn.linkFor(account.get()))));
      }
    }
    if (known) {
      jobs.enqueue(DemoStory.NAME, DemoStory.SUBJECT);
      lines.add("Each link signs in once; the demo’s mixes are composed within a minute.\n");
    }
    return lines;
  }

  private void begin(DemoScript script) {
    Person engineer = account(script.people().get(0));
    Project project =
        projects.begin(engineer, script.project(), script.song().artist(), Role.ENGINEER);
    project.agreeOn(new DeliverySpec(-1.0, null, null, null, 48000, 24, 3));
    Access access = doorkeeper.access(engineer, project.id());
    for (DemoScript.Person person : script.people().subList(1, script.people().size())) {
      Role role = Role.of(person.role().name().toLowerCase(java.util.Locale.ROOT));
      Projects.Invited invited = projects.invite(access, null, role, 1);
      Member member =
          projects
              .accept(invited.secret(), Optional.of(account(person)), person.name(), null)
              .member();
      if (person.approver()) {
        projects.change(
            doorkeeper.access(engineer, project.id()),
            member.id(),
            new Projects.Settings(null, null, true, null));
      }
    }
    Song song = Song.begin(project, script.song().title(), clock.instant());
    song.setGrid(
        script.song().tempoBpm(), script.song().beatsPerBar(), script.song().firstBarSeconds());
  }

  private static Person account(DemoScript.Person person) {
    return Person.withEmail(person.address()).orElseThrow();
  }
}

package org.mixaccord.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.mixaccord.record.ProjectForTests.hash;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Role;
import org.mixaccord.songs.Song;

@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class WaitingOnDeskTest {
  @Inject ProjectForTests projects;
  @Inject WaitingOnDesk desk;
  @Inject Doorkeeper doorkeeper;

  @Test
  @Transactional
  void aPrivateMixIsWaitedForOnlyInTheEyesOfTheEngineer() {
    var cast = projects.begin(Map.of("art", Role.ARTIST));
    projects.bounce(cast, hash(1));
    assertEquals("send", waiting(cast, "eng").code());
    assertEquals("first-mix", waiting(cast, "art").code());
    assertEquals(List.of("eng"), waiting(cast, "art").names());
  }

  @Test
  @Transactional
  void aSentMixWaitsForWhoeverHasToApproveIt() {
    var cast = projects.begin(Map.of("art", Role.ARTIST));
    projects.send(cast, projects.bounce(cast, hash(2)));
    assertEquals("approve", waiting(cast, "eng").code());
    assertEquals(List.of("art"), waiting(cast, "eng").names());
    assertEquals("to decide on Mix 1", waiting(cast, "eng").reason());
  }

  private WaitingOnDesk.Waiting waiting(ProjectForTests.Cast cast, String who) {
    var access = doorkeeper.access(Person.findById(cast.person(who)), cast.project());
    return desk.of(Song.findById(cast.song()), access).orElseThrow();
  }
}

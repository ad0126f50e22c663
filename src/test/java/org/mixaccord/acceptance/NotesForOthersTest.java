package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.not;
import static org.mixaccord.record.ProjectForTests.hash;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.accounts.Role;

/** What an engineer writes down for somebody is about a mix that person may know. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class NotesForOthersTest extends ReviewStage {
  private String path(String end) {
    return "/songs/" + cast.song() + end;
  }

  private void nothingNames(String who, String bounce) {
    for (String end : new String[] {"/notes", "/changes", "/keeps", "/questions", "/history"}) {
      get(who, path(end)).statusCode(200).body(not(containsString(bounce)));
    }
  }

  /** The artist once read the id of a mix nobody had sent in their own note. */
  @Test
  void aNoteForSomebodyIsAboutTheNewestMixThatWasSent() {
    String unsent = projects.bounce(cast, hash(2));
    post(
            "eng",
            path("/notes"),
            Map.of(
                "text",
                "bass up 1 dB, fix the thing at the end",
                "bounce",
                unsent,
                "from",
                12.0,
                "behalfOf",
                cast.person("art")))
        .statusCode(201);
    for (String who : new String[] {"art", "eng"}) {
      get(who, path("/notes")).body("", hasSize(1)).body("[0].bounce", equalTo(mix1));
      get(who, path("/changes")).body("[0].bounce", equalTo(mix1));
    }
    nothingNames("art", unsent);
    nothingNames("drummer", unsent);
  }

  @Test
  void anEngineersOwnNoteStaysOnTheMixItWasWrittenFor() {
    String unsent = projects.bounce(cast, hash(2));
    post("eng", path("/notes"), Map.of("text", "bass up 1 dB", "bounce", unsent)).statusCode(201);
    get("eng", path("/notes")).body("[0].bounce", equalTo(unsent));
    get("art", path("/notes")).body("", hasSize(0));
    projects.send(cast, unsent);
    get("art", path("/notes")).body("[0].bounce", equalTo(unsent));
  }

  @Test
  void beforeAnythingWasSentTheNoteWaitsWithItsMix() {
    cast = projects.begin(Map.of("art", Role.ARTIST));
    String first = projects.bounce(cast, hash(3));
    post(
            "eng",
            path("/notes"),
            Map.of("text", "bass up 1 dB", "bounce", first, "behalfOf", cast.person("art")))
        .statusCode(201);
    get("art", path("/notes")).body("", hasSize(0));
    nothingNames("art", first);
    projects.send(cast, first);
    get("art", path("/notes")).body("[0].bounce", equalTo(first));
  }
}

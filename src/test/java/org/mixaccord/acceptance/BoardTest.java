package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.contains;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.nullValue;
import static org.mixaccord.record.ProjectForTests.hash;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** What the board says of a song since its reader last heard it. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class BoardTest extends ReviewStage {
  @Test
  void theBoardSaysWhichSectionsMovedSinceOneLastHeardTheSong() {
    get("art", "/me/board")
        .body("[0].changedSinceHeard", equalTo(true))
        .body("[0].moved", nullValue());
    projects.hears(cast, "art", mix1);
    get("art", "/me/board")
        .body("[0].changedSinceHeard", equalTo(false))
        .body("[0].moved", nullValue());
    String mix2 = projects.bounce(cast, hash(2));
    projects.compared(
        mix2,
        mix1,
        """
        {"likeness": "sections", "gainDb": 0, "timeMap": [], "sections": [
          {"name": "Verse 1", "from": 0, "to": 30, "difference": "unchanged"},
          {"name": "Chorus 1", "from": 30, "to": 60, "difference": "changed"},
          {"name": "Bridge", "from": null, "to": null, "difference": "only-there"},
          {"name": "Verse 2", "from": 60, "to": 100, "difference": "uncertain"}]}
        """);
    get("art", "/me/board")
        .body("[0].changedSinceHeard", equalTo(false))
        .body("[0].moved", nullValue());
    projects.send(cast, mix2);
    get("art", "/me/board")
        .body("[0].changedSinceHeard", equalTo(true))
        .body("[0].moved.name", contains("Verse 1", "Chorus 1", "Verse 2"))
        .body("[0].moved.moved", contains(false, true, false))
        .body("[0].moved[1].from", equalTo(30f))
        .body("[0].moved[1].to", equalTo(60f));
    get("boss", "/me/board")
        .body("[0].changedSinceHeard", equalTo(true))
        .body("[0].moved", nullValue());
  }
}

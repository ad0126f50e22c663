package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** Every route of the published description × everybody who may come along. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class RightsMatrixTest extends MeasuredStage {
  private static final Set<String> METHODS =
      Set.of("get", "put", "post", "delete", "options", "head", "patch");

  /** Those who may do least come first, so that a stage is used as long as nothing has changed. */
  private static final List<String> ORDER =
      List.of("nobody", "stranger", "gone", "ear", "boss", "art", "eng");

  @Test
  void theTableHoldsEveryPublishedRouteAndNoOther() {
    Set<String> published = new TreeSet<>();
    Map<String, Map<String, Object>> paths =
        JsonPath.from(given().get("/q/openapi?format=json").asString()).getMap("paths");
    paths.forEach(
        (path, item) ->
            item.keySet().stream()
                .filter(METHODS::contains)
                .forEach(m -> published.add(m.toUpperCase(Locale.ROOT) + " " + path)));
    assertTrue(published.size() > 60, published.toString());
    assertEquals(
        published,
        RightsTable.rows().stream()
            .map(RightsTable.Row::route)
            .collect(Collectors.toCollection(TreeSet::new)));
  }

  @Test
  void everybodyGetsWhatTheTableSays() {
    List<String> wrong = new ArrayList<>();
    RightsStage stage = stage();
    for (RightsTable.Row row : RightsTable.rows()) {
      for (String who : ORDER) {
        RightsStage.Answer answer =
            stage.call(who, row, stage.filled(row.path()), stage.filled(row.body()));
        // A comparison that is still worked out says so by 202.
        int status = answer.status() == 202 ? 200 : answer.status();
        if (status != row.expected().get(who)) {
          wrong.add(
              row
                  + " by "
                  + who
                  + ": "
                  + answer.status()
                  + " instead of "
                  + row.expected().get(who)
                  + " "
                  + answer.body());
        }
        if (answer.status() >= 400
            && !row.method().equals("HEAD")
            && !answer.type().startsWith("application/problem+json")) {
          wrong.add(row + " by " + who + ": a refusal as " + answer.type());
        }
        if (answer.status() < 300 && !row.method().equals("GET")) {
          stage = stage();
        }
      }
    }
    assertEquals(List.of(), wrong, String.join("\n", wrong));
  }

  /** Whoever does not belong must not learn whether something exists. */
  @Test
  void whatIsNotForOneLooksLikeWhatDoesNotExist() {
    RightsStage stage = stage();
    List<String> told = new ArrayList<>();
    for (RightsTable.Row row : RightsTable.rows()) {
      for (String who : RightsTable.CALLERS) {
        int expected = row.expected().get(who);
        boolean outside = expected == 404 || (expected == 401 && row.path().contains("{"));
        if (!outside || row.method().equals("HEAD")) {
          continue;
        }
        RightsStage.Answer there =
            stage.call(who, row, stage.filled(row.path()), stage.filled(row.body()));
        RightsStage.Answer nowhere =
            stage.call(who, row, RightsStage.made(row.path()), RightsStage.made(row.body()));
        // Who may see the song, but not this mix of it, knows the song.
        boolean member = List.of("eng", "art", "boss", "ear").contains(who);
        RightsStage.Answer compared =
            member && row.path().startsWith("/songs/{s}")
                ? stage.call(
                    who,
                    row,
                    RightsStage.made(row.path().replace("{s}", stage.cast.song())),
                    RightsStage.made(row.body()))
                : nowhere;
        if (!there.equals(compared)) {
          told.add(row + " by " + who + ": " + there + " against " + compared);
        }
      }
    }
    assertEquals(List.of(), told, String.join("\n", told));
  }
}

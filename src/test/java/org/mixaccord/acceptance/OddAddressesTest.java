package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** Numbers and names in addresses and headers that make no sense are refused in words. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class OddAddressesTest extends MeasuredStage {
  private static final List<String> REFUSED =
      List.of(
          "/songs/{s}/history?limit=0",
          "/songs/{s}/history?limit=-1",
          "/songs/{s}/history?limit=501",
          "/songs/{s}/history?limit=many",
          "/songs/{s}/history?limit=1.5",
          "/songs/{s}/history?limit=99999999999",
          "/songs/{s}/notes?offset=-1",
          "/songs/{s}/notes?offset=x",
          "/songs/{s}/bounces?kind=nothing",
          "/songs/{s}/changes?state=nothing",
          "/bounces/{b}/outline?points=0",
          "/bounces/{b}/outline?points=-1",
          "/bounces/{b}/outline?points=5001",
          "/bounces/{b}/outline?points=x",
          "/bounces/{b}/level-match",
          "/bounces/{b}/level-match?with={b:before}&from=NaN&to=1",
          "/bounces/{b}/level-match?with={b:before}&from=0&to=NaN",
          "/bounces/{b}/level-match?with={b:before}&from=-1",
          "/bounces/{b}/level-match?with={b:before}&from=0&to=Infinity",
          "/bounces/{b}/level-match?with={b:before}&from=1&to=0.5",
          "/bounces/{b}/level-match?with={b:before}&from=x",
          "/bounces/{b}/comparison",
          "/bounces/{b}/comparison?with=zzz",
          "/bounces/{b}/time-map",
          "/bounces/{b}/listening/segments/-1",
          "/bounces/{b}/listening/segments/99999",
          "/bounces/{b}/listening/segments/99999999999999",
          "/bounces/{b}/listening/segments/first");

  /** Odd, but there is an answer: an empty page, or a stretch past the end, is no mistake. */
  private static final List<String> ANSWERED =
      List.of(
          "/songs/{s}/history?offset=2147483647",
          "/songs/{s}/history?limit=500&offset=2147483647",
          "/bounces/{b}/level-match?with={b:before}&from=1e300&to=1e301",
          "/bounces/{b}/level-match?with={b:before}&from=0.1&to=0.1000001",
          "/bounces/{b}/level-match?with={b}");

  /** A browser gets the page, which says so; a program gets words it can read. */
  @Test
  void anAddressThatDoesNotExistIsSaidToWhoeverAsks() {
    for (String path : List.of("/songs/abc/approval", "/nowhere", "/projects/a/b/c")) {
      given()
          .header("Accept", "text/html,application/xhtml+xml,*/*;q=0.8")
          .get(path)
          .then()
          .statusCode(404)
          .contentType("text/html")
          .header("Content-Security-Policy", containsString("'self'"))
          .body(containsString("<mix-app"));
      given().get(path).then().statusCode(404).contentType("application/problem+json");
    }
    given()
        .header("Accept", "text/html")
        .get("/api/v1/nowhere")
        .then()
        .statusCode(404)
        .contentType("application/problem+json");
    given().header("Accept", "text/html").get("/").then().statusCode(200);
    given().header("Accept", "text/html").get("/no-such-file.js").then().statusCode(404);
  }

  @Test
  void whatMakesNoSenseIsRefusedInWords() {
    RightsStage stage = stage();
    List<String> wrong = new ArrayList<>();
    for (String path : REFUSED) {
      RightsStage.Answer answer = get(stage, path);
      boolean fair =
          answer.status() >= 400
              && answer.status() < 500
              && answer.type().startsWith("application/problem+json")
              && answer.body().contains("\"detail\":");
      if (!fair) {
        wrong.add(path + ": " + answer);
      }
    }
    assertEquals(List.of(), wrong, String.join("\n", wrong));
  }

  /** The framework's own answer was that there is nothing at such an address. */
  @Test
  void whatShouldBeANumberAndIsNoneIsSaid() {
    RightsStage stage = stage();
    for (String path :
        List.of(
            "/songs/{s}/history?limit=many",
            "/songs/{s}/notes?offset=x",
            "/bounces/{b}/outline?points=x",
            "/bounces/{b}/series?from=abc",
            "/bounces/{b}/level-match?with={b:before}&from=x")) {
      RightsStage.Answer answer = get(stage, path);
      assertEquals(422, answer.status(), path + ": " + answer);
      assertTrue(answer.body().contains("A number was expected"), path + ": " + answer);
    }
    assertEquals(404, get(stage, "/bounces/{b}/listening/segments/first").status());
  }

  @Test
  void whatIsOddIsAnsweredWithoutNonsense() {
    RightsStage stage = stage();
    List<String> wrong = new ArrayList<>();
    for (String path : ANSWERED) {
      RightsStage.Answer answer = get(stage, path);
      if (answer.status() != 200 || answer.body().matches("(?s).*(NaN|Infinity).*")) {
        wrong.add(path + ": " + answer);
      }
    }
    assertEquals(List.of(), wrong, String.join("\n", wrong));
  }

  private static RightsStage.Answer get(RightsStage stage, String path) {
    RightsTable.Row row = new RightsTable.Row(0, "GET", path, Map.of(), "");
    return stage.call("eng", row, stage.filled(path), "");
  }

  @Test
  void rangesThatAreNoneGiveTheWholeFileOrSayWhereItEnds() {
    String bounce = measured("mix.wav", Sound.wav(48000, Sound.sine(48000, 440, -20, 0.5)));
    String path = "/api/v1/bounces/" + bounce + "/audio";
    int size = 44 + 3 * 24000;
    for (String whole : List.of("bytes=a-b", "items=0-1", "bytes=-", "bytes=0-0,5-6", "", "x")) {
      Response answer = band.engineer().as().header("Range", whole).get(path);
      answer.then().statusCode(200).header("Content-Length", String.valueOf(size));
    }
    for (String outside :
        List.of("bytes=" + size + "-", "bytes=99999999999999999999-", "bytes=-0")) {
      refused(band.engineer().as().header("Range", outside).get(path), 416, "range-not-there");
    }
    band.engineer()
        .as()
        .header("Range", "bytes=0-99999999999999999999")
        .get(path)
        .then()
        .statusCode(206)
        .header("Content-Range", equalTo("bytes 0-" + (size - 1) + "/" + size));
    band.engineer()
        .as()
        .header("Range", "bytes=-99999999999999999999")
        .get(path)
        .then()
        .statusCode(206)
        .header("Content-Length", String.valueOf(size));
    given().header("Range", "bytes=0-1").get(path).then().statusCode(401);
  }
}

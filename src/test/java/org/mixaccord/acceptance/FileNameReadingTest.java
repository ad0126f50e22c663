package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.nullValue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;

/** Names of files dropped on a project or a song. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class FileNameReadingTest extends UploadStage {
  private static Map<String, Object> files(String... names) {
    return Map.of("files", List.of(names).stream().map(n -> Map.of("name", n)).toList());
  }

  @Test
  void aFolderIsReadInOneCall() {
    String title = band.engineer().get("/songs/" + band.song()).path("title");
    band.engineer()
        .post(
            "/projects/" + band.project() + "/file-name-readings",
            files(
                title + "_mix3_4824.L.wav",
                title + "_mix3_4824.R.wav",
                "._" + title + ".wav",
                "Copper Lanterns rough.m4a",
                "03 - Kick In.wav"))
        .then()
        .statusCode(200)
        .body("size()", equalTo(5))
        .body("[0].song.id", equalTo(band.song()))
        .body("[0].as", equalTo("bounce"))
        .body("[0].kind", equalTo("main"))
        .body("[0].label", equalTo("Mix 3"))
        .body("[0].number", equalTo(3))
        .body("[0].sampleRateHz", equalTo(48000))
        .body("[0].bitDepth", equalTo(24))
        .body("[0].side", equalTo("left"))
        .body("[0].pairWith", equalTo(1))
        .body("[0].sure", equalTo(true))
        .body("[1].pairWith", equalTo(0))
        .body("[2].leaveOut", containsString("companion"))
        .body("[2].song", nullValue())
        .body("[3].song.id", nullValue())
        .body("[3].song.title", equalTo("Copper Lanterns"))
        .body("[3].kind", equalTo("rough"))
        .body("[4].as", equalTo("stem"))
        .body("[4].element", equalTo("kick in"))
        .body("[4].kind", nullValue());
    band.engineer().get("/projects/" + band.project() + "/songs").then().body("size()", equalTo(1));
  }

  @Test
  void partsDroppedOnASongAreOfThatSong() {
    band.engineer()
        .post("/songs/" + band.song() + "/file-name-readings", files("LV dbl.wav", "GTR L.wav"))
        .then()
        .statusCode(200)
        .body("[0].element", equalTo("lead vocal double"))
        .body("[0].song.id", equalTo(band.song()))
        .body("[1].element", equalTo("guitars left"))
        .body("[1].side", equalTo("left"));
  }

  @Test
  void whoMayUploadRoughsOnlyIsProposedARough() {
    band.artist()
        .post("/projects/" + band.project() + "/file-name-readings", files("New One mix 3.wav"))
        .then()
        .statusCode(200)
        .body("[0].kind", equalTo("rough"))
        .body("[0].label", nullValue())
        .body("[0].sure", equalTo(false))
        .body("[0].words", containsString("an engineer can add it"));
  }

  @Test
  void whatCannotBeReadIsRefusedInWords() {
    String path = "/projects/" + band.project() + "/file-name-readings";
    refused(band.engineer().post(path, Map.of()), 422, "invalid");
    refused(band.engineer().post(path, Map.of("files", List.of())), 422, "invalid");
    refused(band.engineer().post(path, Map.of("files", List.of(Map.of()))), 422, "invalid");
    refused(
        band.engineer()
            .post(path, Map.of("files", List.of(Map.of("name", "a.wav")), "as", "songs")),
        422,
        "invalid");
    refused(
        band.engineer()
            .post(path, Map.of("files", Collections.nCopies(501, Map.of("name", "a.wav")))),
        422,
        "invalid");
    refused(band.engineer().post(path, files("half\uD800.wav")), 422, "bad-text");
    refused(band.engineer().post(path, files("x".repeat(3000))), 422, "invalid");
  }
}

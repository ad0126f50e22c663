package org.mixaccord.acceptance;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.mixaccord.intake.Fixtures.chunk;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.number;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.path.json.JsonPath;
import io.restassured.path.json.config.JsonPathConfig;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.mixaccord.PostgresForTests;
import org.mixaccord.audio.ArrayPcm;
import org.mixaccord.audio.FrameRange;
import org.mixaccord.audio.midi.Smf;
import org.mixaccord.measure.MeasureTrack;

/** Sections out of markers and MIDI files, bars in notes, and figures that follow a boundary. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class SectionSourcesTest extends UploadStage {
  private static final int RATE = 48000;
  private static final double MS = 0.001;

  @Inject EntityManager entities;

  private static byte[] marked() {
    double[] tone = Sound.sine(RATE, 440, -20, 6);
    return marked(Sound.wav(RATE, tone, tone), 0, 48001);
  }

  /** A file with a verse and a chorus marked in it, and a place that lies behind its end. */
  static byte[] marked(byte[] plain, long verse, long chorus) {
    byte[] cues =
        chunk(
            "cue ",
            join(number(3, 4, false), cue(1, verse), cue(2, chorus), cue(3, 9_999_999)),
            false);
    byte[] labels =
        chunk(
            "LIST",
            join(
                "adtl".getBytes(ISO_8859_1),
                label(1, "Verse"),
                label(2, "Chorus"),
                label(3, "Far")),
            false);
    byte[] whole = join(plain, cues, labels);
    System.arraycopy(number(whole.length - 8L, 4, false), 0, whole, 4, 4);
    return whole;
  }

  private static byte[] cue(int id, long frame) {
    return join(
        number(id, 4, false),
        new byte[4],
        "data".getBytes(ISO_8859_1),
        new byte[8],
        number(frame, 4, false));
  }

  private static byte[] label(int id, String text) {
    return chunk("labl", join(number(id, 4, false), (text + "\0").getBytes(ISO_8859_1)), false);
  }

  private JsonPath proposals(String bounce) {
    Response answer = band.engineer().get("/bounces/" + bounce + "/section-proposals");
    answer.then().statusCode(200);
    return exact(answer);
  }

  /** Times to the sample need more digits than the reader of answers usually keeps. */
  private static JsonPath exact(Response answer) {
    return answer.jsonPath(
        JsonPathConfig.jsonPathConfig().numberReturnType(JsonPathConfig.NumberReturnType.DOUBLE));
  }

  private Response tempoMap(Api who, String query, byte[] midi) {
    return who.as()
        .contentType("audio/midi")
        .body(midi)
        .put("/api/v1/songs/" + band.song() + "/tempo-map" + query);
  }

  @Test
  void markersOfTheFileAreOfferedAndNotApplied() {
    String bounce = measured("marked.wav", marked());
    JsonPath offered = proposals(bounce);
    assertEquals(List.of("markers"), offered.getList("source"));
    assertEquals(
        "2 markers are stored in this file. Each begins a section.",
        offered.getString("[0].words"));
    assertEquals(List.of("Verse", "Chorus"), offered.getList("[0].sections.name"));
    assertEquals(48001 / 48000.0, offered.getDouble("[0].sections[0].to"), 1e-9);
    assertEquals(48001 / 48000.0, offered.getDouble("[0].sections[1].from"), 1e-9);
    assertEquals(6.0, offered.getDouble("[0].sections[1].to"), 1e-9);
    band.engineer().get("/songs/" + band.song() + "/sections").then().body("size()", equalTo(0));
    band.engineer()
        .put(
            "/songs/" + band.song() + "/sections",
            Map.of("bounce", bounce, "sections", offered.getList("[0].sections")))
        .then()
        .statusCode(200)
        .body("name", equalTo(List.of("Verse", "Chorus")));
  }

  @Test
  void boundariesGuessedFromTheSoundComeWithTheirDoubtAndAtBarlinesOnceTheTempoIsKnown() {
    double[] song = new double[60 * RATE];
    double[] low = Sound.sine(RATE, 196, -20, 60);
    double[] high = Sound.sine(RATE, 1760, -26, 60);
    for (int i = 0; i < song.length; i++) {
      boolean verse = i < 20.3 * RATE || i >= 40.2 * RATE;
      song[i] = (verse ? low[i] : high[i]) * (0.4 + 0.6 * Math.exp(-(i % 24000) / 6000.0));
    }
    String bounce = measured("song.wav", Sound.wav(RATE, song, song));
    JsonPath offered = proposals(bounce);
    assertEquals(List.of("sound"), offered.getList("source"));
    String words = offered.getString("[0].words");
    assertEquals(
        "Guessed from the sound. About half of such boundaries are off by more than half a second"
            + " or are not there at all; listen to each before you keep them.",
        words);
    assertEquals(
        List.of("Section 1", "Section 2", "Section 3"), offered.getList("[0].sections.name"));
    assertEquals(20.3, offered.getDouble("[0].sections[1].from"), 0.25);
    assertEquals(40.2, offered.getDouble("[0].sections[2].from"), 0.25);

    band.engineer()
        .patch(
            "/songs/" + band.song(),
            Map.of("tempoBpm", 120, "beatsPerBar", 4, "firstBarSeconds", 0.5))
        .then()
        .statusCode(200);
    JsonPath moved = proposals(bounce);
    assertEquals(words + " They were moved to the nearest barline.", moved.getString("[0].words"));
    assertEquals(20.5, moved.getDouble("[0].sections[1].from"), 1e-9);
    assertEquals(40.5, moved.getDouble("[0].sections[2].from"), 1e-9);
    band.artist().get("/bounces/" + bounce + "/section-proposals").then().statusCode(404);
  }

  /** A bounce measured before markers were read: they are read when somebody asks. */
  @Test
  void anOlderBounceGetsItsMarkersWhenAsked() {
    String bounce = measured("older.wav", marked());
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                entities
                    .createNativeQuery("update bounce set markers = null where id = ?1")
                    .setParameter(1, bounce)
                    .executeUpdate());
    assertEquals(List.of("Verse", "Chorus"), proposals(bounce).getList("[0].sections.name"));
    String kept =
        QuarkusTransaction.requiringNew()
            .call(
                () ->
                    (String)
                        entities
                            .createNativeQuery("select markers from bounce where id = ?1")
                            .setParameter(1, bounce)
                            .getSingleResult());
    assertEquals(3, JsonPath.from(kept).getList("").size());
  }

  @Test
  void barsOfAMidiFileLieOnTheMixAndInNotes() {
    String bounce = measured("twenty.wav", Sound.wav(RATE, Sound.sine(RATE, 440, -20, 20)));
    JsonPath map =
        tempoMap(band.engineer(), "?at=0.25&bounce=" + bounce, Smf.turning())
            .then()
            .statusCode(200)
            .extract()
            .jsonPath();
    assertEquals(0.25, map.getDouble("at"));
    assertEquals(List.of(3, 4), map.getList("meters.beats"));
    assertEquals(6.25, map.getDouble("meters[1].at"), MS);
    assertEquals(90.0, map.getDouble("tempos[1].bpm"));
    assertEquals(12.25, map.getDouble("tempos[1].at"), MS);
    assertEquals(8, map.getInt("tempos[1].bar"));
    assertEquals(10, map.getList("bars").size());
    assertEquals(14.25 + 2 / 3.0, map.getDouble("bars[8].beats[0]"), MS);
    assertEquals(
        band.engineer().get("/songs/" + band.song() + "/tempo-map").jsonPath().getMap(""),
        map.getMap(""));

    JsonPath offered = proposals(bounce);
    assertEquals(List.of("tempo-map"), offered.getList("source"));
    assertEquals(List.of("Verse", "Chorus", "Outro"), offered.getList("[0].sections.name"));
    assertEquals(6.25, offered.getDouble("[0].sections[1].from"), MS);
    assertEquals(12.25, offered.getDouble("[0].sections[1].to"), MS);

    assertEquals(12.25, placeOf("snare up at bar 8", bounce), MS);
    assertEquals(1.75 + 1, placeOf("snare up at beat 3 of bar 2", bounce), MS);
    band.engineer()
        .post(
            "/note-readings",
            Map.of("text", "snare up at bar 8", "sections", List.of(), "bounce", bounce))
        .then()
        .statusCode(200)
        .body("changes[0].where.from", equalTo(12.25f));

    band.engineer()
        .get("/songs/" + band.song() + "/history")
        .then()
        .body("act", hasItem("tempo-map-set"));
    band.engineer().delete("/songs/" + band.song() + "/tempo-map").then().statusCode(204);
    band.engineer().get("/songs/" + band.song() + "/tempo-map").then().statusCode(404);
    assertEquals(List.of(), proposals(bounce).getList(""));
  }

  private double placeOf(String note, String bounce) {
    String change =
        band.engineer()
            .post("/songs/" + band.song() + "/notes", Map.of("text", note, "bounce", bounce))
            .then()
            .statusCode(201)
            .extract()
            .path("changes[0]");
    return band.engineer().get("/changes/" + change).jsonPath().getDouble("where.from");
  }

  /** The music begins earlier in the second mix; bars and markers go with it. */
  @Test
  void barsMoveToAnotherMixWithTheMusic() {
    String first = measured("first.wav", Takes.first().wav());
    tempoMap(band.engineer(), "?bounce=" + first, Smf.turning()).then().statusCode(200);
    String second = measured("second.wav", Takes.second().wav());
    String path = "/songs/" + band.song() + "/tempo-map?bounce=" + second;
    Awaitility.await().until(() -> band.engineer().get(path).path("placed").equals(true));
    JsonPath moved = band.engineer().get(path).jsonPath();
    assertEquals(first, moved.getString("bounce"));
    assertEquals(second, moved.getString("shownOn"));
    assertEquals(6 - Takes.LATE_SECONDS, moved.getDouble("markers[0].at"), MS);
    assertEquals("Chorus", moved.getString("markers[0].name"));
    assertEquals(5, moved.getInt("markers[0].bar"));
    assertEquals(12 - Takes.LATE_SECONDS, placeOf("snare up at bar 8", second), MS);
    assertEquals(12 - Takes.LATE_SECONDS, proposals(second).getDouble("[0].sections[1].from"), MS);
  }

  @Test
  void theBarsOfASongWithOneTempoAreThoseOfItsFirstMixAndMoveToOthersToo() {
    String first = measured("first.wav", Takes.first().wav());
    String second = measured("second.wav", Takes.second().wav());
    band.engineer()
        .patch(
            "/songs/" + band.song(),
            Map.of("tempoBpm", 120, "beatsPerBar", 4, "firstBarSeconds", 0.0))
        .then()
        .statusCode(200);
    String map = "/bounces/" + second + "/time-map?with=" + first;
    Awaitility.await().until(() -> band.engineer().get(map).statusCode() == 200);
    assertEquals(14, placeOf("snare up at bar 8", first), MS);
    assertEquals(14 - Takes.LATE_SECONDS, placeOf("hihat up at bar 8", second), MS);
  }

  @Test
  void whatIsNoTempoMapIsRefusedInWords() {
    refused(tempoMap(band.engineer(), "", Smf.turning()), 409, "no-bounce");
    String bounce = measured("short.wav", Sound.wav(RATE, Sound.sine(RATE, 440, -20, 1)));
    refused(tempoMap(band.engineer(), "", "hello".getBytes(ISO_8859_1)), 422, "not-midi");
    refused(tempoMap(band.engineer(), "", Smf.file(2, 480, Smf.track())), 422, "not-midi");
    refused(tempoMap(band.engineer(), "", new byte[10 << 20]), 413, "too-large");
    refused(tempoMap(band.engineer(), "", new byte[0]), 422, "empty-upload");
    refused(tempoMap(band.engineer(), "?at=1e9", Smf.turning()), 422, "invalid");
    refused(tempoMap(band.artist(), "?bounce=" + bounce, Smf.turning()), 403, "not-allowed");
    refused(tempoMap(band.stranger(), "?bounce=" + bounce, Smf.turning()), 404, "not-found");
    refused(band.engineer().get("/songs/" + band.song() + "/tempo-map"), 404, "not-found");
  }

  /** A tone of two levels: a section's figures are those of exactly its frames. */
  @Test
  void aMovedBoundaryIsMeasuredAtOnce() throws IOException {
    double[] tone = Sound.sine(RATE, 997, -30, 12);
    double[] loud = Sound.sine(RATE, 997, -18, 12);
    System.arraycopy(loud, 4 * RATE, tone, 4 * RATE, 4 * RATE);
    String bounce = measured("steps.wav", Sound.wav(RATE, tone, tone));
    double before = drawn(bounce, 2, 6);
    double after = drawn(bounce, 4.5, 7.25);
    assertNotEquals(before, after, 1);
    assertEquals(expected(tone, 2, 6), before, 1e-4);
    assertEquals(expected(tone, 4.5, 7.25), after, 1e-4);
  }

  private double drawn(String bounce, double from, double to) {
    band.engineer()
        .put(
            "/songs/" + band.song() + "/sections",
            Map.of(
                "bounce",
                bounce,
                "sections",
                List.of(Map.of("name", "Loud", "from", from, "to", to))))
        .then()
        .statusCode(200);
    return figures(bounce).getDouble("sections[0].ungatedLufs");
  }

  private static double expected(double[] tone, double from, double to) throws IOException {
    double[] written = new double[tone.length];
    for (int n = 0; n < tone.length; n++) {
      written[n] = Math.round(tone[n] * 0x800000) / (double) 0x800000;
    }
    MeasureTrack track = MeasureTrack.measure(new ArrayPcm(RATE, written, written), share -> {});
    return track
        .section(new FrameRange(Math.round(from * RATE), Math.round(to * RATE)))
        .ungatedLufs()
        .orElseThrow();
  }
}

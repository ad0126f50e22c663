package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.PostgresForTests;

/** What happens to a song, told while it happens, to whom it may be told. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class EventsTest extends UploadStage {
  private static final Duration AT_ONCE = Duration.ofSeconds(5);
  private static final double[] TONE = Sound.sine(48000, 997, -20, 1);

  private String sentMix() {
    String mix = measured("mix.wav", Sound.wav(48000, TONE, TONE));
    band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
    return mix;
  }

  private String note(Api who, String text) {
    return who.make("/songs/" + band.song() + "/notes", Map.of("text", text));
  }

  private List<Long> seqs(Api reader) {
    List<Integer> seqs = reader.get("/songs/" + band.song() + "/history?limit=500").path("seq");
    return seqs.stream().map(Integer::longValue).toList();
  }

  @Test
  void aReaderHearsWhatHappensAndMissesNothingMeanwhile() {
    String mix = sentMix();
    String last;
    try (Followed live = Followed.song(band.artist(), band.song(), null)) {
      String note = note(band.manager(), "snare up 1 dB");
      Followed.Event told = live.awaits(e -> note.equals(e.field("id")));
      assertEquals("note", told.name());
      assertEquals("note", told.field("type"));
      assertEquals(mix, told.field("bounce"));
      assertEquals(String.valueOf(told.seq()), told.field("seq"));
      assertTrue(told.field("at").matches("20\\d\\d-\\d\\d-\\d\\dT.*Z"), told.field("at"));
      assertEquals(told.seq(), live.events().get(0).seq(), "nothing of before is told again");
      last = told.id();
    }
    note(band.manager(), "bass down");
    note(band.engineer(), "vocals louder in the chorus");
    List<Long> missed =
        seqs(band.artist()).stream().filter(seq -> seq > Long.parseLong(last)).toList();
    assertTrue(missed.size() >= 2, missed.toString());
    try (Followed again = Followed.song(band.artist(), band.song(), last)) {
      again.awaits(e -> e.seq() == missed.get(missed.size() - 1));
      assertEquals(missed, again.events().stream().map(Followed.Event::seq).toList());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"999999", "-5", "not a number", "99999999999999999999"})
  void aReaderWhosePlaceIsNotKnownStartsAnew(String place) {
    sentMix();
    try (Followed live = Followed.song(band.artist(), band.song(), place)) {
      live.awaits(e -> e.name().equals("reset"));
      String note = note(band.manager(), "snare up");
      live.awaits(e -> !e.name().equals("reset") && note.equals(e.field("id")));
      assertEquals("reset", live.events().get(0).name());
      assertEquals(1, live.events().stream().filter(e -> e.name().equals("reset")).count());
    }
  }

  @Test
  void aPrivatePassIsToldToEngineersAloneUntilItIsSent() {
    sentMix();
    try (Followed artist = Followed.song(band.artist(), band.song(), null);
        Followed listener = Followed.song(band.listener(), band.song(), null);
        Followed engineer = Followed.song(band.engineer(), band.song(), null)) {
      String hidden = measured("mix 2.wav", Sound.wav(48000, TONE, TONE));
      engineer.awaits(e -> e.name().equals("bounce") && hidden.equals(e.field("bounce")));
      engineer.awaits(e -> e.name().equals("progress") && hidden.equals(e.field("bounce")));
      String note = note(band.manager(), "keep it like this");
      artist.awaits(e -> note.equals(e.field("id")));
      assertEquals(
          List.of(), artist.events().stream().filter(e -> e.data().contains(hidden)).toList());
      band.engineer().post("/bounces/" + hidden + "/sending", Map.of()).then().statusCode(200);
      artist.awaits(e -> e.name().equals("sent") && hidden.equals(e.field("bounce")));
      listener.awaits(e -> e.name().equals("sent") && hidden.equals(e.field("bounce")));
      assertEquals(
          List.of(), listener.events().stream().filter(e -> e.name().equals("note")).toList());
    }
    for (Api reader : List.of(band.artist(), band.manager(), band.listener(), band.engineer())) {
      List<Long> shown = seqs(reader);
      try (Followed all = Followed.song(reader, band.song(), "0")) {
        all.awaits(e -> e.seq() == shown.get(shown.size() - 1));
        assertEquals(shown, all.events().stream().map(Followed.Event::seq).toList());
      }
    }
    assertTrue(seqs(band.listener()).size() < seqs(band.artist()).size());
  }

  @Test
  void signingOutEndsTheStreamsOfThatBrowserAtOnce() {
    sentMix();
    String member = band.artist().get("/songs/" + band.song()).path("you.member");
    String link =
        band.artist()
            .post("/projects/" + band.project() + "/members/" + member + "/sign-in-links")
            .path("link");
    String phone =
        given()
            .post("/api/v1/sign-in-links/" + link.substring(link.lastIndexOf('/') + 1) + "/use")
            .cookie("mixaccord_session");
    try (Followed desk = Followed.song(band.artist(), band.song(), null);
        Followed pocket =
            Followed.song(band.song(), "Cookie", "mixaccord_session=" + phone, null)) {
      band.artist().delete("/session").then().statusCode(204);
      String note = note(band.manager(), "snare up");
      Awaitility.await().atMost(AT_ONCE).until(desk::ended);
      assertTrue(desk.events().stream().noneMatch(e -> note.equals(e.field("id"))));
      pocket.awaits(e -> note.equals(e.field("id")));
      assertFalse(pocket.ended());
    }
  }

  @Test
  void beingTakenOutOfTheProjectEndsTheStreamAtOnce() {
    sentMix();
    String member = band.artist().get("/songs/" + band.song()).path("you.member");
    try (Followed artist = Followed.song(band.artist(), band.song(), null);
        Followed listener = Followed.song(band.listener(), band.song(), null)) {
      band.engineer()
          .delete("/projects/" + band.project() + "/members/" + member)
          .then()
          .statusCode(204);
      String note = note(band.manager(), "snare up");
      Awaitility.await().atMost(AT_ONCE).until(artist::ended);
      assertTrue(artist.events().stream().noneMatch(e -> note.equals(e.field("id"))));
      listener.awaits(e -> e.name().equals("people") && member.equals(e.field("id")));
      assertFalse(listener.ended());
    }
  }

  @Test
  void droppingAnAccessTokenEndsTheStreamsOpenedWithIt() {
    sentMix();
    var made = band.manager().post("/access-tokens", Map.of("name", "script")).then().extract();
    try (Followed script =
        Followed.song(band.song(), "Authorization", "Bearer " + made.<String>path("token"), null)) {
      band.manager().delete("/access-tokens/" + made.path("id")).then().statusCode(204);
      note(band.engineer(), "snare up");
      Awaitility.await().atMost(AT_ONCE).until(script::ended);
      assertEquals(List.of(), script.events());
    }
  }
}

package org.mixaccord.acceptance;

import static org.hamcrest.Matchers.containsString;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.quarkus.test.junit.QuarkusTest;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiSystem;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;

/** The list taken along, read again by readers of others: places on the mix it is for. */
@QuarkusTest
class WorkSheetTest extends UploadStage {
  /** The music of the later mix comes so much earlier, seconds. */
  private static final double EARLIER = Takes.LATE_SECONDS;

  private byte[] sheet(String ending) {
    return band.engineer()
        .as()
        .get("/api/v1/songs/" + band.song() + "/work-sheet." + ending)
        .then()
        .statusCode(200)
        .header("Content-Disposition", containsString("attachment"))
        .extract()
        .asByteArray();
  }

  private static List<CSVRecord> table(byte[] csv) throws IOException {
    try (CSVParser parser =
        CSVParser.parse(
            new String(csv, StandardCharsets.UTF_8),
            CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get())) {
      return parser.getRecords();
    }
  }

  private static double seconds(String clock) {
    String[] parts = clock.split(":");
    return 60 * Integer.parseInt(parts[0]) + Double.parseDouble(parts[1]);
  }

  @Test
  void placesAreThoseOfTheMixTheListIsFor() throws Exception {
    String one = measured("Ebb mix 1.wav", Takes.first().wav());
    band.engineer()
        .put(
            "/songs/" + band.song() + "/sections",
            Map.of("bounce", one, "sections", Takes.SECTIONS))
        .then()
        .statusCode(200);
    band.engineer().post("/bounces/" + one + "/sending", Map.of()).then().statusCode(200);
    String hostile = "=lead vocal up 1 dB at 0:10, \"please\"";
    for (String text : List.of(hostile, "bass down a touch in chorus 1", "keep the drums")) {
      band.artist()
          .post("/songs/" + band.song() + "/notes", Map.of("text", text, "bounce", one))
          .then()
          .statusCode(201);
    }
    String two = measured("Ebb mix 2.wav", Takes.third().wav());
    Awaitility.await()
        .until(
            () ->
                band.engineer().get("/bounces/" + two + "/time-map?with=" + one).statusCode()
                    == 200);

    List<CSVRecord> rows = table(sheet("csv"));
    assertEquals(
        List.of("up, 1 dB", "down, a touch", "leave alone"),
        rows.stream().map(row -> row.get("asked")).toList());
    assertTrue(
        rows.get(0).get("words").contains("'=lead vocal up 1 dB at 0:10"), rows.get(0).toString());
    assertEquals(10 - EARLIER, seconds(rows.get(0).get("from")), 0.001);
    assertEquals(Takes.CHORUS_FROM - EARLIER, seconds(rows.get(1).get("from")), 0.02);
    double chorus = seconds(rows.get(1).get("from"));

    double[] markers = midi(sheet("mid"));
    assertEquals(10 - EARLIER, markers[0], 0.001);
    assertEquals(chorus, markers[1], 0.0015);

    byte[] wav = sheet("wav");
    try (AudioInputStream in = AudioSystem.getAudioInputStream(new ByteArrayInputStream(wav));
        AudioInputStream mix =
            AudioSystem.getAudioInputStream(new ByteArrayInputStream(Takes.third().wav()))) {
      assertEquals(mix.getFormat().toString(), in.getFormat().toString());
      assertArrayEquals(mix.readAllBytes(), in.readAllBytes());
    }
    double[] cues = cues(wav);
    assertEquals(10 - EARLIER, cues[0], 0.001);
    assertEquals(chorus, cues[1], 0.0015);
    assertArrayEquals(cues, cues(sheet("wav?sound=none")));

    try (PDDocument pdf = Loader.loadPDF(sheet("pdf"))) {
      String text = new PDFTextStripper().getText(pdf);
      assertTrue(text.contains("0:10"), text);
      assertTrue(text.contains("Leave alone"), text);
    }
    String answer = new String(sheet("txt"), StandardCharsets.UTF_8);
    assertTrue(answer.contains("Still open\n– "), answer);
  }

  /** A sent first mix with its sections, and a note for each text. */
  private String sentWithNotes(String... texts) {
    String mix = measured("Ebb mix 1.wav", Takes.first().wav());
    band.engineer()
        .put(
            "/songs/" + band.song() + "/sections",
            Map.of("bounce", mix, "sections", Takes.SECTIONS))
        .then()
        .statusCode(200);
    band.engineer().post("/bounces/" + mix + "/sending", Map.of()).then().statusCode(200);
    for (String text : texts) {
      band.artist()
          .post("/songs/" + band.song() + "/notes", Map.of("text", text, "bounce", mix))
          .then()
          .statusCode(201);
    }
    return mix;
  }

  private List<String> changes() {
    return band.engineer().get("/songs/" + band.song() + "/changes").jsonPath().getList("id");
  }

  private String pdfText() throws IOException {
    try (PDDocument pdf = Loader.loadPDF(sheet("pdf"))) {
      return new PDFTextStripper().getText(pdf).replaceAll("\\s+", " ");
    }
  }

  /** Every export once said only the part and place of the first of the wishes worked as one. */
  @Test
  void wishesWorkedAsOneKeepTheirPartsAndPlaces() throws Exception {
    sentWithNotes("0:12 bass down 1 dB", "keys louder at 0:20");
    band.engineer()
        .post("/songs/" + band.song() + "/changes/joining", Map.of("changes", changes()))
        .then()
        .statusCode(200);

    List<CSVRecord> rows = table(sheet("csv"));
    assertEquals(List.of("1a", "1b"), rows.stream().map(row -> row.get("number")).toList());
    assertEquals(List.of("Bass", "Keys"), rows.stream().map(row -> row.get("part")).toList());
    assertEquals(List.of("down, 1 dB", "up"), rows.stream().map(row -> row.get("asked")).toList());
    assertEquals(12, seconds(rows.get(0).get("from")), 0.001);
    assertEquals(20, seconds(rows.get(1).get("from")), 0.001);
    assertEquals("keys louder at 0:20", rows.get(1).get("words"));

    assertArrayEquals(new double[] {12, 20}, midi(sheet("mid")), 0.001);
    assertEquals(
        List.of("1a. Bass: down, 1 dB (Asta)", "1b. Keys: up (Asta)"), markerWords(sheet("mid")));
    for (String wav : List.of("wav", "wav?sound=none")) {
      assertArrayEquals(new double[] {12, 20}, cues(sheet(wav)), 0.001);
      String bytes = new String(sheet(wav), StandardCharsets.UTF_8);
      assertTrue(bytes.contains("1a. Bass: down, 1 dB (Asta)"), wav);
      assertTrue(bytes.contains("1b. Keys: up (Asta)"), wav);
    }
    String printed = pdfText();
    for (String words : List.of("1a", "Bass: down, 1 dB", "at 0:12", "1b", "Keys: up", "at 0:20")) {
      assertTrue(printed.contains(words), words + " in " + printed);
    }
    String answer = new String(sheet("txt"), StandardCharsets.UTF_8);
    assertTrue(answer.contains("– Bass: down, 1 dB (at 0:12), Asta\n"), answer);
    assertTrue(answer.contains("– Keys: up (at 0:20), Asta\n"), answer);
  }

  /** Paper and screen agree: the whole song, then section by section; what is done is ticked. */
  @Test
  void linesStandAndAreNumberedAsOnThePage() throws Exception {
    String mix =
        sentWithNotes(
            "bass up 1 dB in chorus 1",
            "guitars down 1 dB in verse 1",
            "keys up 1 dB",
            "drums up 2 dB at 0:05",
            "leave the bass in verse 1");
    List<CSVRecord> rows = table(sheet("csv"));
    assertEquals(
        List.of("Keys", "Guitars", "Drums", "Bass", "Bass"),
        rows.stream().map(row -> row.get("part")).toList());
    assertEquals(
        List.of("1", "2", "3", "4", ""), rows.stream().map(row -> row.get("number")).toList());
    CSVRecord keep = rows.get(4);
    assertEquals("leave alone", keep.get("asked"));
    assertEquals(4, seconds(keep.get("from")), 0.001);
    assertEquals(Takes.CHORUS_FROM, seconds(keep.get("to")), 0.001);

    assertFalse(pdfText().contains("\u2713"));
    band.engineer()
        .post(
            "/songs/" + band.song() + "/changes/marking",
            Map.of("changes", List.of(changes().get(0)), "state", "done", "doneIn", mix))
        .then()
        .statusCode(200);
    String printed = pdfText();
    assertEquals(1, printed.chars().filter(c -> c == '\u2713').count(), printed);

    assertEquals(
        List.of("Slack Tide Mix 1 with markers.wav", "Slack Tide Mix 1 markers alone.wav"),
        List.of(named("wav"), named("wav?sound=none")));
  }

  private String named(String ending) {
    String header =
        band.engineer()
            .as()
            .get("/api/v1/songs/" + band.song() + "/work-sheet." + ending)
            .header("Content-Disposition");
    return header.replaceAll(".*filename=\"([^\"]*)\".*", "$1");
  }

  /** A song of 24 s once had a marker at 5:00 in one file, at 7:58 in another, none in a third. */
  @Test
  void placesAfterTheEndAreSaidAndNeverMarked() throws Exception {
    sentWithNotes("keys louder at 5:00", "bass down 1 dB at 0:20", "drums up from 0:22 to 4:00");
    Map<String, CSVRecord> rows =
        table(sheet("csv")).stream().collect(Collectors.toMap(row -> row.get("part"), row -> row));
    CSVRecord late = rows.get("Keys");
    assertEquals("after the end of the mix (5:00)", late.get("where"));
    assertEquals("", late.get("from") + late.get("to") + late.get("all places"));
    assertEquals("keys louder at 5:00", late.get("words"));
    assertEquals(22, seconds(rows.get("Drums").get("from")), 0.001);
    assertEquals(24, seconds(rows.get("Drums").get("to")), 0.001);

    for (double[] marked : List.of(midi(sheet("mid")), cues(sheet("wav?sound=none")))) {
      assertArrayEquals(new double[] {20, 22}, marked, 0.001);
    }
    assertTrue(pdfText().contains("after the end of the mix (5:00)"));
    String answer = new String(sheet("txt"), StandardCharsets.UTF_8);
    assertTrue(answer.contains("Keys: up (after the end of the mix (5:00)), Asta"), answer);
    List<Boolean> after =
        band.engineer()
            .get("/songs/" + band.song() + "/changes")
            .jsonPath()
            .getList("afterEnd", Boolean.class);
    assertEquals(List.of(true, false, false), after);
  }

  private static List<String> markerWords(byte[] file) throws Exception {
    var track = MidiSystem.getSequence(new ByteArrayInputStream(file)).getTracks()[0];
    List<String> words = new ArrayList<>();
    for (int i = 0; i < track.size(); i++) {
      if (track.get(i).getMessage() instanceof MetaMessage meta && meta.getType() == 0x06) {
        words.add(new String(meta.getData(), StandardCharsets.UTF_8));
      }
    }
    return words;
  }

  private static double[] midi(byte[] file) throws Exception {
    var sequence = MidiSystem.getSequence(new ByteArrayInputStream(file));
    var track = sequence.getTracks()[0];
    double micros = 500_000;
    double[] found = new double[0];
    for (int i = 0; i < track.size(); i++) {
      byte[] message = track.get(i).getMessage().getMessage();
      if (message[1] == 0x51) {
        micros = ((message[3] & 0xFF) << 16) + ((message[4] & 0xFF) << 8) + (message[5] & 0xFF);
      } else if (message[1] == 0x06) {
        found = Arrays.copyOf(found, found.length + 1);
        found[found.length - 1] = track.get(i).getTick() * micros / 1e6 / sequence.getResolution();
      }
    }
    return found;
  }

  /** Places of the cue points, in the order of their numbers. */
  private static double[] cues(byte[] wav) {
    ByteBuffer bytes = ByteBuffer.wrap(wav).order(ByteOrder.LITTLE_ENDIAN);
    int rate = bytes.getInt(24);
    for (int at = 12;
        at < wav.length;
        at += 8 + bytes.getInt(at + 4) + (bytes.getInt(at + 4) & 1)) {
      if (new String(wav, at, 4, StandardCharsets.US_ASCII).equals("cue ")) {
        double[] found = new double[bytes.getInt(at + 8)];
        for (int i = 0; i < found.length; i++) {
          found[i] = bytes.getInt(at + 12 + 24 * i + 20) / (double) rate;
        }
        return found;
      }
    }
    return new double[0];
  }
}

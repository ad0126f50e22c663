package org.mixaccord.api.v1.changes;

import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.StreamingOutput;
import java.io.BufferedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import org.mixaccord.accounts.Act;
import org.mixaccord.api.v1.Attachment;
import org.mixaccord.api.v1.Csv;
import org.mixaccord.audio.PcmSource;
import org.mixaccord.audio.Silence;
import org.mixaccord.intake.PcmFile;
import org.mixaccord.intake.SampleFormat;
import org.mixaccord.jobs.Samples;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.WorkSheetDesk;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.worksheet.AnswerText;
import org.mixaccord.worksheet.CueWav;
import org.mixaccord.worksheet.MarkerMidi;
import org.mixaccord.worksheet.SheetPdf;
import org.mixaccord.worksheet.SheetTable;

/** The change list as files to take along, with its places on one mix. */
@Path("/api/v1")
public class WorkSheetResource {
  private static final String UTF_8 = ";charset=UTF-8";
  private static final int BUFFER_BYTES = 1 << 16;

  private final WorkSheetDesk desk;
  private final Samples samples;

  WorkSheetResource(WorkSheetDesk desk, Samples samples) {
    this.desk = desk;
    this.samples = samples;
  }

  @GET
  @Path("/songs/{s}/work-sheet.csv")
  @Blocking
  public Response table(@PathParam("s") String song, @QueryParam("bounce") String bounce) {
    WorkSheetDesk.Written written = desk.write(song, bounce);
    Csv table = new Csv().header(SheetTable.HEADER);
    SheetTable.rows(written.sheet())
        .forEach(row -> table.line(row.stream().map(Csv::words).toList()));
    return file(table.toString(), "text/csv" + UTF_8 + ";header=present", written, "work sheet.csv")
        .build();
  }

  @GET
  @Path("/songs/{s}/work-sheet.pdf")
  @Blocking
  public Response print(@PathParam("s") String song, @QueryParam("bounce") String bounce)
      throws IOException {
    WorkSheetDesk.Written written = desk.write(song, bounce);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    SheetPdf.write(written.sheet(), out);
    return file(out.toByteArray(), "application/pdf", written, "work sheet.pdf").build();
  }

  @GET
  @Path("/songs/{s}/work-sheet.mid")
  @Blocking
  public Response markers(@PathParam("s") String song, @QueryParam("bounce") String bounce) {
    WorkSheetDesk.Written written = desk.write(song, bounce);
    byte[] midi = MarkerMidi.of(written.sheet(), written.bars());
    return file(midi, "audio/midi", written, "work sheet.mid").build();
  }

  /** The engineer's answer, to be copied into a message. */
  @GET
  @Path("/songs/{s}/work-sheet.txt")
  @Blocking
  public Response answer(@PathParam("s") String song, @QueryParam("bounce") String bounce) {
    WorkSheetDesk.Written written = desk.write(song, bounce, Act.WORK_LIST);
    return file(AnswerText.of(written.sheet()), "text/plain" + UTF_8, written, "work sheet.txt")
        .build();
  }

  /**
   * The mix with cue points; with {@code sound=none} silence of its length, for who has the mix.
   */
  @GET
  @Path("/songs/{s}/work-sheet.wav")
  @Blocking
  public Response cues(
      @PathParam("s") String song,
      @QueryParam("bounce") String bounce,
      @QueryParam("sound") String sound) {
    if (sound != null && !sound.equals("none")) {
      throw new ProblemException(Problem.INVALID, "“sound” is none, or is left away.");
    }
    WorkSheetDesk.Written written =
        sound == null ? desk.write(song, bounce, Act.DOWNLOAD) : desk.write(song, bounce);
    AudioFacts facts =
        written
            .mix()
            .facts()
            .orElseThrow(
                () ->
                    new ProblemException(
                        Problem.NOT_MEASURED, "The mix is still being unpacked. Try again soon."));
    if (sound != null) {
      PcmSource silence = new Silence(facts.sampleRate(), 1, facts.frames());
      CueWav wav = CueWav.of(written.sheet(), silence, CueWav.Samples.INT8);
      return wav(written, "markers alone", wav, out -> wav.write(silence, out));
    }
    PcmSource shape = new Silence(facts.sampleRate(), facts.channels(), facts.frames());
    CueWav wav = CueWav.of(written.sheet(), shape, samples(facts));
    return wav(
        written,
        "with markers",
        wav,
        out -> {
          try (PcmFile pcm = samples.open(written.mix())) {
            wav.write(pcm.asStored(), out);
          }
        });
  }

  /** As exactly as the mix has them, never larger than it needs. */
  private static CueWav.Samples samples(AudioFacts facts) {
    SampleFormat format =
        SampleFormat.valueOf(facts.sampleFormat().toUpperCase(java.util.Locale.ROOT));
    int bits = facts.significantBits() == null ? 32 : facts.significantBits();
    return switch (format) {
      case F64 -> CueWav.Samples.FLOAT64;
      case F32 -> CueWav.Samples.FLOAT32;
      case S32 ->
          bits <= 16
              ? CueWav.Samples.INT16
              : bits <= 24 ? CueWav.Samples.INT24 : CueWav.Samples.INT32;
    };
  }

  private static Response wav(
      WorkSheetDesk.Written written, String what, CueWav wav, StreamingOutput body) {
    StreamingOutput buffered =
        out -> {
          OutputStream large = new BufferedOutputStream(out, BUFFER_BYTES);
          body.write(large);
          large.flush();
        };
    return file(buffered, "audio/wav", written, what + ".wav")
        .header(HttpHeaders.CONTENT_LENGTH, wav.bytes())
        .build();
  }

  private static Response.ResponseBuilder file(
      Object body, String type, WorkSheetDesk.Written written, String ending) {
    String name = written.sheet().song() + " " + written.sheet().mix() + " " + ending;
    return Response.ok(body)
        .type(type)
        .header(HttpHeaders.CONTENT_DISPOSITION, Attachment.named(name))
        .header("Content-Security-Policy", "sandbox; default-src 'none'")
        .header(HttpHeaders.CACHE_CONTROL, "private, no-cache");
  }
}

package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.mixaccord.accounts.Access;
import org.mixaccord.intake.DecodeResult;
import org.mixaccord.intake.DecodedFile;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.MemoDesk;
import org.mixaccord.record.Note;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Stem;
import org.mixaccord.storage.AudioStore;
import org.mixaccord.storage.DerivedFiles;
import org.mixaccord.storage.Incoming;
import org.mixaccord.storage.Sha256;
import org.mixaccord.storage.UploadLimits;

/** Takes voice memos: proven to be sound by decoding them, and then stored durably. */
@ApplicationScoped
public class Memos {
  /** Two minutes of 16 bits at 48 kHz in mono are 11.5 MB. */
  private static final long MOST_BYTES = 12_000_000;

  /** Two minutes, and what a container rounds up and a recorder needs to stop. */
  private static final double MOST_SECONDS = 121;

  private static final double LEAST_SECONDS = 0.3;

  /** What browsers record or can be brought to, and how it is served. */
  private static final Map<String, String> TYPES =
      Map.of("wav", "audio/wav", "mp4", "audio/mp4", "ogg", "audio/ogg");

  private final AudioStore store;
  private final Samples samples;
  private final DerivedFiles derived;
  private final UploadRoom room;
  private final MemoDesk desk;

  Memos(AudioStore store, Samples samples, DerivedFiles derived, UploadRoom room, MemoDesk desk) {
    this.store = store;
    this.samples = samples;
    this.derived = derived;
    this.room = room;
    this.desk = desk;
  }

  /** Takes a memo; outside a transaction. */
  public Note take(String song, MemoDesk.Spot spot, OptionalLong length, InputStream body)
      throws IOException {
    Access access = desk.check(song, spot);
    Uploading.Sender sender =
        new Uploading.Sender(access.person(), access.member().role(), "memo", length);
    try (UploadRoom.Pass pass = room.enter(sender, song)) {
      long most = Math.min(MOST_BYTES, pass.leftBytes());
      Heard[] heard = new Heard[1];
      Incoming incoming =
          store.receive(body, new UploadLimits(most, length), whole -> heard[0] = heard(whole));
      if (incoming instanceof Incoming.Refused refused) {
        throw new ProblemException(Uploading.problem(refused.reason()), refused.detail());
      }
      Incoming.Stored stored = (Incoming.Stored) incoming;
      Note.Memo memo =
          new Note.Memo(stored.sha256().hex(), stored.bytes(), heard[0].type(), heard[0].seconds());
      return desk.keep(song, spot, memo);
    }
  }

  /** What decoding says of a recording. */
  private record Heard(String type, double seconds) {}

  /** Ends the upload unless it is a memo. */
  private Heard heard(Path whole) throws IOException {
    DecodeResult result = samples.decode(whole, "memo");
    if (!(result instanceof DecodeResult.Decoded decoded)) {
      DecodeResult.Rejected rejected = (DecodeResult.Rejected) result;
      throw new ProblemException(MeasureBounce.problem(rejected.reason()), rejected.detail());
    }
    DecodedFile file = decoded.file();
    dropSamples(file.pcmSha256());
    Optional<String> type =
        TYPES.entrySet().stream()
            .filter(kind -> file.container().toLowerCase(Locale.ROOT).startsWith(kind.getKey()))
            .map(Map.Entry::getValue)
            .findFirst();
    if (type.isEmpty()) {
      throw new ProblemException(
          Problem.UNSUPPORTED_FORMAT, "A memo is a WAV, MP4 or Ogg recording.");
    }
    double seconds = file.frames() / (double) file.sampleRate();
    if (seconds < LEAST_SECONDS || seconds > MOST_SECONDS) {
      throw new ProblemException(
          Problem.INVALID,
          seconds > MOST_SECONDS
              ? "A memo lasts two minutes at most. Say it in parts."
              : "There is hardly any sound in it. Hold the button while you speak.");
    }
    return new Heard(type.get(), seconds);
  }

  /** A memo is never compared; only what it shares with a mix or a part is still needed. */
  private void dropSamples(Sha256 pcmSha256) throws IOException {
    String hash = pcmSha256.hex();
    long others =
        QuarkusTransaction.requiringNew()
            .call(
                () ->
                    Bounce.count("facts.pcmSha256 = ?1", hash)
                        + Stem.count("pcmSha256 = ?1", hash));
    if (others == 0) {
      derived.remove(pcmSha256);
    }
  }

  /** The bytes of a memo. */
  public Path file(Note.Memo memo) throws IOException {
    return samples.bytes(memo.sha256());
  }
}

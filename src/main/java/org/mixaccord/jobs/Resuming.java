package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import java.io.IOException;
import java.io.InputStream;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.jboss.logging.Logger;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Person;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.ResumableUpload;
import org.mixaccord.songs.SongDoor;
import org.mixaccord.storage.AudioStore;
import org.mixaccord.storage.Checksum;
import org.mixaccord.storage.Incoming;
import org.mixaccord.storage.PartialFiles;
import org.mixaccord.storage.Sha256;
import org.mixaccord.storage.StorageConfig;

/**
 * Uploads that come in pieces and survive every break: of the line, of the page, of the server.
 *
 * <p>What counts is what lies durably in the file. A file that has come whole is hashed, its hash
 * is written down, the file moves to its place, and only then, in one transaction, the bounce or
 * part is made and the upload is done. Whatever step the server dies in, the next request or the
 * next sweep goes on from there and makes it once.
 */
@ApplicationScoped
public class Resuming {
  private static final Logger LOG = Logger.getLogger(Resuming.class);

  /** An upload and how many of its bytes are here. */
  public record Standing(ResumableUpload upload, long bytesHere) {}

  /**
   * A piece of a file.
   *
   * @param offset where it begins
   * @param length how long it is said to be, in bytes
   * @param end makes this request end when a newer one for the same file comes
   */
  public record Piece(
      long offset,
      InputStream body,
      OptionalLong length,
      Optional<Checksum> checksum,
      Runnable end) {}

  private final SongDoor door;
  private final Caller caller;
  private final Uploading uploading;
  private final UploadRoom room;
  private final PartialFiles files;
  private final AudioStore store;
  private final Duration lasts;
  private final Clock clock;
  private final Turns turns = new Turns();

  Resuming(
      SongDoor door,
      Caller caller,
      Uploading uploading,
      UploadRoom room,
      PartialFiles files,
      AudioStore store,
      StorageConfig config,
      Clock clock) {
    this.door = door;
    this.caller = caller;
    this.uploading = uploading;
    this.room = room;
    this.files = files;
    this.store = store;
    this.lasts = config.storage().unfinishedLast();
    this.clock = clock;
  }

  /** Begins an upload of so many bytes, if they may come at all. */
  public Standing begin(ResumableUpload.Target target, String metadata, long bytes) {
    String person =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  mayUpload(target);
                  return caller.required().id();
                });
    return new Standing(
        room.promise(
            person,
            target.song(),
            bytes,
            () -> {
              if (!files.roomFor(bytes)) {
                throw PartialFiles.noRoom();
              }
              return ResumableUpload.begin(person, target, metadata, bytes, clock.instant(), lasts);
            }),
        0);
  }

  private Access mayUpload(ResumableUpload.Target target) {
    Access access = door.song(target.song()).access();
    if (target.element() != null) {
      access.require(Act.UPLOAD_STEMS);
    } else {
      access.require(target.kind().fromAnyone() ? Act.UPLOAD_ROUGH : Act.UPLOAD_MAIN);
    }
    return access;
  }

  /**
   * How far an upload of the caller has come. A request of theirs that still waits for bytes is
   * ended, so that what is said here stays true.
   */
  public Standing standing(String id) throws IOException {
    mine(id);
    try (Turns.Turn turn = turns.take(id, () -> {})) {
      Standing standing = settled(mine(id));
      try {
        return completed(standing);
      } catch (ProblemException refused) {
        // How far it came is true all the same; the next piece, be it empty, says what is wrong.
        return standing;
      }
    }
  }

  /** Takes the next piece of an upload of the caller; the last one makes the bounce or part. */
  public Standing take(String id, Piece piece) throws IOException {
    mine(id);
    try (Turns.Turn turn = turns.take(id, piece.end())) {
      Standing standing = settled(mine(id));
      if (piece.offset() != standing.bytesHere()) {
        throw new ProblemException(
                Problem.WRONG_STATE,
                "The file is here up to byte " + standing.bytesHere() + "; go on from there.")
            .with("uploadOffset", standing.bytesHere());
      }
      if (standing.upload().finished()) {
        return standing;
      }
      ResumableUpload.Target target = standing.upload().target();
      // Before the bytes come; once more when they are here.
      QuarkusTransaction.requiringNew().run(() -> mayUpload(target));
      return completed(appended(standing, piece));
    }
  }

  private Standing appended(Standing standing, Piece piece) throws IOException {
    ResumableUpload upload = standing.upload();
    long missing = upload.bytes() - standing.bytesHere();
    if (missing == 0) {
      return standing;
    }
    if (piece.length().orElse(0) > missing) {
      throw new ProblemException(
              Problem.TOO_LARGE,
              "The piece is longer than what is still missing of the file; nothing of it was kept.")
          .with("missingBytes", missing);
    }
    if (!files.roomFor(piece.length().orElse(1))) {
      throw PartialFiles.noRoom();
    }
    boolean isChecked = piece.checksum().isPresent();
    try (UploadRoom.Pass pass = room.goOn(upload)) {
      // Pieces with checksums follow each other, so mostly the mark is where it has to be.
      if (isChecked != upload.checkedTo().isPresent()) {
        changed(upload.id(), u -> u.counts(isChecked, standing.bytesHere()));
      }
      long here;
      try {
        here = files.append(upload.id(), piece.body(), missing, piece.checksum());
      } catch (ProblemException refused) {
        movedOn(upload.id(), isChecked);
        throw refused;
      }
      return new Standing(movedOn(upload.id(), isChecked), here);
    }
  }

  /** Makes of a whole file what it was sent for; every step may have been done before. */
  private Standing completed(Standing standing) throws IOException {
    ResumableUpload upload = standing.upload();
    if (upload.finished() || standing.bytesHere() < upload.bytes()) {
      return standing;
    }
    String id = upload.id();
    ResumableUpload.Target target = upload.target();
    QuarkusTransaction.requiringNew().run(() -> mayUpload(target));
    if (upload.sha256().isEmpty()) {
      String hash = files.sha256(id).hex();
      upload = changed(id, u -> u.arrived(hash));
    }
    Sha256 sha256 = new Sha256(upload.sha256().orElseThrow());
    long bytes = upload.bytes();
    store.adopt(files.path(id), sha256, bytes);
    ResumableUpload done = changed(id, u -> become(u, target, sha256));
    files.remove(id);
    return new Standing(done, bytes);
  }

  private void become(ResumableUpload upload, ResumableUpload.Target target, Sha256 sha256) {
    Access access = mayUpload(target);
    Incoming.Stored stored = new Incoming.Stored(sha256, upload.bytes(), false);
    Uploading.Sender sender =
        new Uploading.Sender(
            access.person(),
            access.member().role(),
            target.fileName(),
            OptionalLong.of(upload.bytes()));
    if (target.element() != null) {
      upload.became(uploading.keepStem(stored, sender, target.bounce(), target.element()));
    } else {
      upload.became(
          uploading.keepBounce(
              stored,
              sender,
              new Uploading.Wanted(target.song(), target.kind(), target.main(), target.label())));
    }
  }

  /** Ends an upload of the caller; what it became, if it did, stays. */
  public void end(String id) throws IOException {
    mine(id);
    try (Turns.Turn turn = turns.take(id, () -> {})) {
      mine(id);
      forget(id);
    }
  }

  private void forget(String id) throws IOException {
    QuarkusTransaction.requiringNew().run(() -> ResumableUpload.deleteById(id));
    files.remove(id);
  }

  private ResumableUpload mine(String id) {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              String person = caller.required().id();
              return ResumableUpload.<ResumableUpload>findByIdOptional(id)
                  .filter(upload -> upload.person().equals(person))
                  .filter(upload -> upload.expiresAt().isAfter(clock.instant()))
                  .orElseThrow(
                      () ->
                          new ProblemException(
                              Problem.NOT_FOUND,
                              "This upload is not there any more, or never was. One that nobody goes on"
                                  + " with is kept for a while only; begin it anew."));
            });
  }

  /** An upload as it counts: without the bytes of a piece whose checksum was never seen. */
  private Standing settled(ResumableUpload upload) throws IOException {
    if (upload.finished() || upload.sha256().isPresent()) {
      return new Standing(upload, upload.bytes());
    }
    if (upload.checkedTo().isPresent()) {
      files.cutTo(upload.id(), upload.checkedTo().getAsLong());
    }
    return new Standing(upload, files.bytes(upload.id()));
  }

  /** All bytes that are in the file now count. */
  private ResumableUpload movedOn(String id, boolean isChecked) throws IOException {
    long here = files.bytes(id);
    return changed(
        id,
        u -> {
          u.counts(isChecked, here);
          u.movedOn(clock.instant(), lasts);
        });
  }

  private static ResumableUpload changed(String id, Consumer<ResumableUpload> change) {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              ResumableUpload upload = ResumableUpload.findById(id);
              change.accept(upload);
              return upload;
            });
  }

  /**
   * Forgets what nobody went on with, removes files that belong to no upload, and completes what
   * came whole before the server ended.
   */
  public void sweep() throws IOException {
    // A file is made after its row, so one that has no row later on is nobody's.
    Set<String> nobodys = new HashSet<>(files.ids());
    // As a method reference it would be bound to the base class, which no entity stands behind.
    listed(() -> ResumableUpload.<ResumableUpload>listAll())
        .forEach(upload -> nobodys.remove(upload.id()));
    for (String id : nobodys) {
      files.remove(id);
    }
    Instant now = clock.instant();
    for (ResumableUpload upload : listed(() -> ResumableUpload.expired(now))) {
      whenFree(
          upload.id(),
          row -> {
            if (!row.expiresAt().isAfter(now)) {
              forget(row.id());
            }
          });
    }
    for (ResumableUpload upload : listed(ResumableUpload::unfinished)) {
      whenFree(upload.id(), this::completeAlone);
    }
  }

  @FunctionalInterface
  private interface Care {
    void of(ResumableUpload upload) throws IOException;
  }

  /** Looks after an upload unless somebody sends to it now. */
  private void whenFree(String id, Care care) {
    Optional<Turns.Turn> turn = turns.takeIfFree(id);
    if (turn.isEmpty()) {
      return;
    }
    try (Turns.Turn mine = turn.get()) {
      Optional<ResumableUpload> row =
          QuarkusTransaction.requiringNew().call(() -> ResumableUpload.findByIdOptional(id));
      if (row.isPresent()) {
        care.of(row.get());
      }
    } catch (ProblemException | IOException refused) {
      LOG.warnf("upload %s is left as it is: %s", id, refused.getMessage());
    }
  }

  /** Completes an upload in the name of whoever sent it. */
  @ActivateRequestContext
  void completeAlone(ResumableUpload upload) throws IOException {
    QuarkusTransaction.requiringNew().run(() -> caller.is(Person.findById(upload.person())));
    completed(settled(upload));
  }

  private static List<ResumableUpload> listed(Callable<List<ResumableUpload>> rows) {
    return QuarkusTransaction.requiringNew().call(rows);
  }
}

package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.ResumableUpload;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.StoredBytes;
import org.mixaccord.storage.Sizes;
import org.mixaccord.storage.StorageConfig;

/**
 * How much may be uploaded: the largest file, what a project has left, how many files a person may
 * send at once. Asked before the bytes are read. Whoever waits here holds no connection to the
 * database yet.
 */
@ApplicationScoped
class UploadRoom {
  /** Leave to send one file; it ends when it is closed. */
  final class Pass implements AutoCloseable {
    private final String person;
    private final String project;
    private final long promisedBytes;
    private final long leftBytes;

    private Pass(String person, String project, long promisedBytes, long leftBytes) {
      this.person = person;
      this.project = project;
      this.promisedBytes = promisedBytes;
      this.leftBytes = leftBytes;
      running.merge(person, 1, Integer::sum);
      promised.merge(project, promisedBytes, Long::sum);
    }

    /** The most the file may have for the project's sake. */
    long leftBytes() {
      return leftBytes;
    }

    @Override
    public void close() {
      leave(this);
    }
  }

  private final StorageConfig.Storage limits;
  private final Map<String, Integer> running = new HashMap<>();

  /** What is being sent into a project just now and stands in no table yet, in bytes. */
  private final Map<String, Long> promised = new HashMap<>();

  UploadRoom(StorageConfig config) {
    limits = config.storage();
  }

  /**
   * Lets a whole file begin.
   *
   * @throws ProblemException {@code slow-down}, {@code too-large} or {@code quota-full}
   */
  synchronized Pass enter(Uploading.Sender sender, String song) {
    String person = sender.person().id();
    mayRun(person);
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              String project = Song.<Song>findById(song).project().id();
              long left = leftBytes(project);
              mayHave(sender.length().orElse(1), left);
              return new Pass(person, project, sender.length().orElse(0), left);
            });
  }

  /** Lets one more piece of a file begin that has been promised already. */
  synchronized Pass goOn(ResumableUpload upload) {
    mayRun(upload.person());
    return new Pass(upload.person(), "", 0, upload.bytes());
  }

  /** Promises room for a file that is to come in pieces; {@code begin} writes the promise down. */
  synchronized ResumableUpload promise(
      String person, String song, long bytes, Callable<ResumableUpload> begin) {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              if (ResumableUpload.unfinishedOf(person) >= limits.unfinishedUploads()) {
                throw new ProblemException(
                    Problem.SLOW_DOWN,
                    "You have begun "
                        + limits.unfinishedUploads()
                        + " uploads that are not finished. Finish or end some of them first.");
              }
              mayHave(bytes, leftBytes(Song.<Song>findById(song).project().id()));
              return begin.call();
            });
  }

  private synchronized void leave(Pass pass) {
    running.computeIfPresent(pass.person, (person, count) -> count == 1 ? null : count - 1);
    promised.computeIfPresent(
        pass.project,
        (project, bytes) -> bytes == pass.promisedBytes ? null : bytes - pass.promisedBytes);
  }

  private void mayRun(String person) {
    int most = limits.uploadsAtOnce();
    if (running.getOrDefault(person, 0) >= most) {
      throw new ProblemException(
          Problem.SLOW_DOWN,
          "This server takes "
              + (most == 1 ? "one file" : most + " files")
              + " at a time from one person. Send this one when another has arrived.");
    }
  }

  private void mayHave(long bytes, long leftBytes) {
    if (bytes > limits.maxUploadBytes()) {
      throw tooLarge();
    }
    if (bytes > leftBytes) {
      throw quotaFull(leftBytes);
    }
  }

  private long leftBytes(String project) {
    if (limits.projectBytes().isEmpty()) {
      return Long.MAX_VALUE;
    }
    return Math.max(
        0,
        limits.projectBytes().getAsLong()
            - StoredBytes.ofProject(project)
            - promised.getOrDefault(project, 0L));
  }

  /** What to say of a file that turned out larger than its pass allowed. */
  ProblemException tooLarge(Pass pass) {
    return pass.leftBytes() < limits.maxUploadBytes() ? quotaFull(pass.leftBytes()) : tooLarge();
  }

  private ProblemException tooLarge() {
    return new ProblemException(
            Problem.TOO_LARGE,
            "The file is larger than the "
                + Sizes.words(limits.maxUploadBytes())
                + " this server takes. Print it with fewer bits or a lower rate, or in parts.")
        .with("maxBytes", limits.maxUploadBytes());
  }

  private ProblemException quotaFull(long leftBytes) {
    return new ProblemException(
            Problem.QUOTA_FULL,
            "This project may take "
                + Sizes.words(limits.projectBytes().orElseThrow())
                + " on this server and has "
                + Sizes.words(leftBytes)
                + " left, which is not enough for this file. Ask whoever runs the server for"
                + " more.")
        .with("leftBytes", leftBytes)
        .with("quotaBytes", limits.projectBytes().orElseThrow());
  }
}

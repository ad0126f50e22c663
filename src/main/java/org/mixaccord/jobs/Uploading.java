package org.mixaccord.jobs;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.InputStream;
import java.time.Clock;
import java.util.OptionalLong;
import org.jboss.logging.Logger;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Role;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.Happening;
import org.mixaccord.record.History;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.FileRemarks;
import org.mixaccord.songs.ReceivedFile;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.Stem;
import org.mixaccord.storage.AudioStore;
import org.mixaccord.storage.Incoming;
import org.mixaccord.storage.StorageConfig;
import org.mixaccord.storage.UploadLimits;

/** Takes uploads: the bytes first, durably, then the record and the job that measures them. */
@ApplicationScoped
public class Uploading {
  private static final Logger LOG = Logger.getLogger(Uploading.class);

  /**
   * Who uploads what.
   *
   * @param person the uploader
   * @param role what they are in the project
   * @param fileName as given
   * @param length announced length in bytes, if any
   */
  public record Sender(Person person, Role role, String fileName, OptionalLong length) {}

  /**
   * The bounce that is to come of an upload.
   *
   * @param main the main an alternate belongs to; null: the newest sent, if any
   * @param label what it may be called once it is sent, or null
   */
  public record Wanted(String song, BounceKind kind, String main, String label) {}

  private final AudioStore store;
  private final StorageConfig config;
  private final UploadRoom room;
  private final Jobs jobs;
  private final History history;
  private final Clock clock;

  Uploading(
      AudioStore store,
      StorageConfig config,
      UploadRoom room,
      Jobs jobs,
      History history,
      Clock clock) {
    this.store = store;
    this.config = config;
    this.room = room;
    this.jobs = jobs;
    this.history = history;
    this.clock = clock;
  }

  /** Takes a bounce. */
  public Bounce bounce(InputStream body, Sender sender, Wanted wanted) {
    try (UploadRoom.Pass pass = room.enter(sender, wanted.song())) {
      Incoming.Stored stored = stored(body, sender, pass);
      return QuarkusTransaction.requiringNew().call(() -> keepBounce(stored, sender, wanted));
    }
  }

  /** Records a bounce whose bytes are stored, in the caller's transaction. */
  Bounce keepBounce(Incoming.Stored stored, Sender sender, Wanted wanted) {
    Song song = Song.findById(wanted.song(), jakarta.persistence.LockModeType.PESSIMISTIC_WRITE);
    BounceKind kind = wanted.kind();
    Bounce main = wanted.main() == null ? null : Bounce.findById(wanted.main());
    if (main == null && kind.alternate()) {
      main = Bounce.newestSentMain(song).orElse(null);
    }
    String label = wanted.label();
    if (label == null && kind == BounceKind.MAIN) {
      label = FileRemarks.label(song, sender.fileName()).orElse(null);
    }
    Bounce bounce =
        Bounce.received(
            song,
            upload(stored, sender, kind, main, label),
            Bounce.count(song, kind) + 1,
            kind.fromAnyone() && sender.role() != Role.ENGINEER,
            clock.instant());
    history.append(
        song,
        bounce.uploader(),
        Happening.of(
            bounce,
            "bounce",
            "received",
            bounce.uploader().name() + " uploaded " + bounce.title() + "."));
    jobs.enqueue(MeasureBounce.NAME, bounce.id());
    return bounce;
  }

  /** Takes a stereo bounce the server made of two that were uploaded. */
  Bounce pair(InputStream body, Sender sender, Pairing.Plan plan) {
    try (UploadRoom.Pass pass = room.enter(sender, plan.song())) {
      Incoming.Stored stored = stored(body, sender, pass);
      return QuarkusTransaction.requiringNew()
          .call(
              () -> {
                BounceKind kind = plan.left().kind();
                String label = plan.left().proposedLabel().orElse(null);
                Bounce pair =
                    keepBounce(
                        stored,
                        sender,
                        new Wanted(plan.song(), kind, plan.main().orElse(null), label));
                pair.madeOf(Bounce.findById(plan.left().id()), Bounce.findById(plan.right().id()));
                history.append(
                    pair.song(),
                    pair.uploader(),
                    Happening.of(
                        pair,
                        "bounce",
                        "paired",
                        pair.title() + " was put together from a left and a right file."));
                return pair;
              });
    }
  }

  /** Takes a part file; one of the same element is replaced. */
  public Stem stem(InputStream body, Sender sender, String bounceId, String element) {
    String name = Stem.element(element);
    String song =
        QuarkusTransaction.requiringNew().call(() -> Bounce.<Bounce>findById(bounceId).song().id());
    try (UploadRoom.Pass pass = room.enter(sender, song)) {
      Incoming.Stored stored = stored(body, sender, pass);
      return QuarkusTransaction.requiringNew().call(() -> keepStem(stored, sender, bounceId, name));
    }
  }

  /** Records a part whose bytes are stored, in the caller's transaction. */
  Stem keepStem(Incoming.Stored stored, Sender sender, String bounceId, String name) {
    Bounce bounce = Bounce.findById(bounceId);
    Stem.of(bounce).stream()
        .filter(s -> s.element().equals(name))
        .forEach(s -> s.replace(clock.instant()));
    Stem.flush();
    Stem stem =
        Stem.received(
            bounce, name, upload(stored, sender, bounce.kind(), null, null), clock.instant());
    jobs.enqueue(MeasureStem.NAME, stem.id());
    return stem;
  }

  private static ReceivedFile upload(
      Incoming.Stored stored, Sender sender, BounceKind kind, Bounce main, String label) {
    return new ReceivedFile(
        kind,
        main,
        label,
        Person.findById(sender.person().id()),
        sender.fileName(),
        stored.bytes(),
        stored.sha256().hex());
  }

  private Incoming.Stored stored(InputStream body, Sender sender, UploadRoom.Pass pass) {
    long mostBytes = Math.min(config.storage().maxUploadBytes(), pass.leftBytes());
    Incoming incoming;
    try {
      incoming = store.receive(body, new UploadLimits(mostBytes, sender.length()));
    } catch (IOException e) {
      LOG.warn("an upload could not be kept", e);
      throw new ProblemException(
          Problem.BUSY, "The file could not be kept just now. Send it again in a moment.");
    }
    if (incoming instanceof Incoming.Refused refused) {
      if (refused.reason() == Incoming.Reason.TOO_LARGE) {
        throw room.tooLarge(pass);
      }
      throw new ProblemException(problem(refused.reason()), refused.detail());
    }
    return (Incoming.Stored) incoming;
  }

  static Problem problem(Incoming.Reason reason) {
    return switch (reason) {
      case EMPTY -> Problem.EMPTY_UPLOAD;
      case TOO_LARGE -> Problem.TOO_LARGE;
      case DISK_FULL -> Problem.DISK_FULL;
      case CUT_OFF -> Problem.UPLOAD_CUT;
    };
  }
}

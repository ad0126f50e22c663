package org.mixaccord.record;

import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import javax.sql.DataSource;
import org.jboss.logging.Logger;
import org.mixaccord.accounts.AccessEnded;
import org.postgresql.PGConnection;
import org.postgresql.PGNotification;

/**
 * Carries word of what happened to the open streams of this node. Every node listens to the
 * database, so it does not matter on which of them a thing was done.
 */
@ApplicationScoped
public class EventHub {
  private static final Logger LOG = Logger.getLogger(EventHub.class);
  private static final int POLL_MILLIS = 1000;

  /** Word that reached this node. */
  public sealed interface Word {
    /** Something was written to a song's history. */
    record Written(String song) implements Word {}

    /** A bounce has been worked on this far, 0 to 1; live only. */
    record Progress(String song, String bounce, double share) implements Word {}

    /** A person's way in ended, see {@link AccessEnded}. */
    record Ended(AccessEnded what) implements Word {}

    /** Words may have been missed: look again. */
    record Missed() implements Word {}
  }

  private final DataSource database;
  private final EntityManager entities;
  private final Set<Consumer<Word>> listeners = ConcurrentHashMap.newKeySet();
  private volatile boolean running;
  private Thread thread;

  EventHub(DataSource database, EntityManager entities) {
    this.database = database;
    this.entities = entities;
  }

  void start(@Observes StartupEvent event) {
    running = true;
    thread = new Thread(this::listen, "events");
    thread.setDaemon(true);
    thread.start();
  }

  void stop(@Observes ShutdownEvent event) {
    running = false;
    thread.interrupt();
  }

  /** Hears every word from now on, on the hub's thread: return at once. */
  public void subscribe(Consumer<Word> listener) {
    listeners.add(listener);
  }

  /** Ends a subscription. */
  public void unsubscribe(Consumer<Word> listener) {
    listeners.remove(listener);
  }

  /** Tells everybody who may hear the bounce how far work on it has come. */
  @Transactional
  public void progress(String song, String bounce, double share) {
    notify("mixaccord_progress", String.format(Locale.ROOT, "%s %s %.3f", song, bounce, share));
  }

  @Transactional(Transactional.TxType.MANDATORY)
  void ended(@Observes AccessEnded what) {
    notify(
        "mixaccord_access",
        what.person() + " " + orDash(what.key()) + " " + orDash(what.project()));
  }

  private void notify(String channel, String payload) {
    entities
        .createNativeQuery("select cast(pg_notify(?1, ?2) as text)")
        .setParameter(1, channel)
        .setParameter(2, payload)
        .getSingleResult();
  }

  private void listen() {
    while (running) {
      try (Connection connection = database.getConnection();
          Statement statement = connection.createStatement()) {
        statement.execute("listen mixaccord_song");
        statement.execute("listen mixaccord_progress");
        statement.execute("listen mixaccord_access");
        PGConnection postgres = connection.unwrap(PGConnection.class);
        tell(new Word.Missed());
        while (running) {
          PGNotification[] heard = postgres.getNotifications(POLL_MILLIS);
          for (PGNotification one : heard == null ? new PGNotification[0] : heard) {
            tell(word(one));
          }
        }
        statement.execute("unlisten *");
      } catch (SQLException e) {
        if (running) {
          LOG.warn("listening to the database was interrupted and is taken up again", e);
          pause();
        }
      }
    }
  }

  private static Word word(PGNotification heard) {
    String[] parts = heard.getParameter().split(" ");
    return switch (heard.getName()) {
      case "mixaccord_song" -> new Word.Written(parts[0]);
      case "mixaccord_progress" ->
          new Word.Progress(parts[0], parts[1], Double.parseDouble(parts[2]));
      default -> new Word.Ended(new AccessEnded(parts[0], fromDash(parts[1]), fromDash(parts[2])));
    };
  }

  private void tell(Word word) {
    for (Consumer<Word> listener : listeners) {
      try {
        listener.accept(word);
      } catch (RuntimeException e) {
        LOG.warn("a stream could not take an event", e);
      }
    }
  }

  private void pause() {
    try {
      Thread.sleep(POLL_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static String orDash(String value) {
    return value == null ? "-" : value;
  }

  private static String fromDash(String value) {
    return "-".equals(value) ? null : value;
  }
}

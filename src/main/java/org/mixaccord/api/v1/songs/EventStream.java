package org.mixaccord.api.v1.songs;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.sse.OutboundSseEvent;
import jakarta.ws.rs.sse.Sse;
import jakarta.ws.rs.sse.SseEventSink;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Executor;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.record.EventHub;
import org.mixaccord.record.History;
import org.mixaccord.record.HistoryEntry;
import org.mixaccord.songs.Bounce;

/**
 * One open stream of one person on one song: the history from a place on, filtered by their rights
 * at the moment of sending. It ends when the person signs out, drops the access token or leaves.
 */
final class EventStream implements Consumer<EventHub.Word> {
  private static final int AT_ONCE = 500;

  /** Who reads what. */
  record Reader(String person, String key, String song, String project) {}

  /** What a stream works with. */
  record Tools(
      Doorkeeper doorkeeper,
      SignIn signIn,
      History history,
      EventHub hub,
      ObjectMapper json,
      Executor workers) {}

  private final Reader reader;
  private final Tools tools;
  private final SseEventSink sink;
  private final Sse sse;
  private final AtomicBoolean asked = new AtomicBoolean();
  private long sent;
  private volatile ScheduledFuture<?> beat;

  EventStream(Reader reader, Tools tools, SseEventSink sink, Sse sse, long sentAlready) {
    this.reader = reader;
    this.tools = tools;
    this.sink = sink;
    this.sse = sse;
    this.sent = sentAlready;
  }

  void beatBy(ScheduledFuture<?> timer) {
    beat = timer;
  }

  /**
   * Sends the head of the answer and a first heartbeat.
   *
   * @param reset tell a reader whose place is not known that they have to read everything anew
   */
  void begin(boolean reset) {
    sink.send(sse.newEventBuilder().comment("beat").build());
    if (reset) {
      sink.send(sse.newEventBuilder().name("reset").data("{}").build());
    }
  }

  @Override
  public void accept(EventHub.Word word) {
    if (word instanceof EventHub.Word.Written written) {
      if (written.song().equals(reader.song())) {
        catchUp();
      }
    } else if (word instanceof EventHub.Word.Progress progress) {
      if (progress.song().equals(reader.song())) {
        tools.workers().execute(() -> sendProgress(progress));
      }
    } else if (word instanceof EventHub.Word.Ended ended) {
      boolean mine =
          ended.what().person().equals(reader.person())
              && (ended.what().key() == null
                  ? reader.project().equals(ended.what().project())
                  : ended.what().key().equals(reader.key()));
      if (mine) {
        close();
      }
    } else {
      catchUp();
    }
  }

  /** Sends what is new; many words at once lead to one look. */
  void catchUp() {
    if (asked.compareAndSet(false, true)) {
      tools.workers().execute(this::look);
    }
  }

  private synchronized void look() {
    asked.set(false);
    if (sink.isClosed()) {
      close();
      return;
    }
    try {
      QuarkusTransaction.requiringNew()
          .run(
              () -> {
                Access access = access();
                long newest = tools.history().newest(reader.song());
                while (sent < newest) {
                  for (HistoryEntry entry :
                      tools.history().visible(access, reader.song(), sent, AT_ONCE)) {
                    sink.send(event(entry));
                  }
                  sent = Math.min(newest, sent + AT_ONCE);
                }
              });
    } catch (ProblemException noLongerAllowed) {
      close();
    }
  }

  private void sendProgress(EventHub.Word.Progress progress) {
    try {
      boolean mayHear =
          QuarkusTransaction.requiringNew()
              .call(
                  () ->
                      Bounce.<Bounce>findByIdOptional(progress.bounce())
                          .filter(b -> b.mayBeHeardBy(access()))
                          .isPresent());
      if (mayHear && !sink.isClosed()) {
        Map<String, Object> data = new LinkedHashMap<>();
        data.put("seq", null);
        data.put("type", "progress");
        data.put("id", progress.bounce());
        data.put("bounce", progress.bounce());
        data.put("progress", progress.share());
        data.put("at", Instant.now().toString());
        sink.send(sse.newEventBuilder().name("progress").data(write(data)).build());
      }
    } catch (ProblemException noLongerAllowed) {
      close();
    }
  }

  /** A heartbeat, so that proxies keep the line and a vanished reader is noticed. */
  void beat() {
    if (sink.isClosed()) {
      close();
      return;
    }
    tools.workers().execute(this::stillAllowed);
    try {
      sink.send(sse.newEventBuilder().comment("beat").build());
    } catch (IllegalStateException closedMeanwhile) {
      close();
    }
  }

  private void stillAllowed() {
    try {
      QuarkusTransaction.requiringNew().run(this::access);
    } catch (ProblemException noLongerAllowed) {
      close();
    }
  }

  private Access access() {
    if (!tools.signIn().opens(reader.key())) {
      throw Doorkeeper.notFound();
    }
    Person person = Person.findById(reader.person());
    return tools.doorkeeper().access(person, reader.project());
  }

  private OutboundSseEvent event(HistoryEntry entry) {
    Map<String, Object> data = new LinkedHashMap<>();
    data.put("seq", entry.seq());
    data.put("type", entry.type());
    data.put("id", entry.subject());
    if (entry.bounce() != null) {
      data.put("bounce", entry.bounce());
    }
    if (entry.change() != null) {
      data.put("change", entry.change());
    }
    data.put("at", entry.at().toString());
    return sse.newEventBuilder()
        .id(Long.toString(entry.seq()))
        .name(entry.type())
        .mediaType(MediaType.TEXT_PLAIN_TYPE)
        .data(write(data))
        .build();
  }

  private String write(Map<String, Object> data) {
    try {
      return tools.json().writeValueAsString(data);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("an event cannot be written", e);
    }
  }

  private void close() {
    tools.hub().unsubscribe(this);
    ScheduledFuture<?> timer = beat;
    if (timer != null) {
      timer.cancel(false);
    }
    sink.close();
  }
}

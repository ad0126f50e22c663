package org.mixaccord.api.v1.songs;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.PreDestroy;
import jakarta.inject.Singleton;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.sse.Sse;
import jakarta.ws.rs.sse.SseEventSink;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.eclipse.microprofile.context.ManagedExecutor;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.record.EventHub;
import org.mixaccord.record.History;
import org.mixaccord.songs.SongDoor;

/**
 * What happens to a song, while it happens: server-sent events, filtered by the reader's rights.
 */
@Path("/api/v1")
@Singleton
public class EventsResource {
  private static final int BEAT_SECONDS = 15;

  private final SongDoor door;
  private final Caller caller;
  private final History history;
  private final EventStream.Tools tools;
  private final ScheduledExecutorService beats =
      Executors.newSingleThreadScheduledExecutor(
          run -> {
            Thread thread = new Thread(run, "event-beats");
            thread.setDaemon(true);
            return thread;
          });

  EventsResource(
      SongDoor door,
      Doorkeeper doorkeeper,
      SignIn signIn,
      Caller caller,
      History history,
      EventHub hub,
      ObjectMapper json,
      ManagedExecutor workers) {
    this.door = door;
    this.caller = caller;
    this.history = history;
    this.tools = new EventStream.Tools(doorkeeper, signIn, history, hub, json, workers);
  }

  @PreDestroy
  void stop() {
    beats.shutdownNow();
  }

  /**
   * Opens a stream. Without {@code Last-Event-ID} it begins now; with one it begins after that
   * event; an id this song never had is answered by {@code event: reset}.
   */
  @GET
  @Path("/songs/{s}/events")
  @Produces(MediaType.SERVER_SENT_EVENTS)
  @Blocking
  public void open(
      @PathParam("s") String id,
      @HeaderParam("Last-Event-ID") String last,
      @Context SseEventSink sink,
      @Context Sse sse) {
    EventStream.Reader reader =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  SongDoor.ToSong to = door.song(id);
                  return new EventStream.Reader(
                      to.access().person().id(),
                      caller.key(),
                      to.song().id(),
                      to.access().project().id());
                });
    long newest = history.newest(reader.song());
    long from = last == null ? newest : place(last, newest);
    EventStream stream = new EventStream(reader, tools, sink, sse, from < 0 ? newest : from);
    // The first words go out from here: another thread's would race with the head of the answer.
    stream.begin(from < 0);
    tools.hub().subscribe(stream);
    stream.beatBy(
        beats.scheduleAtFixedRate(stream::beat, BEAT_SECONDS, BEAT_SECONDS, TimeUnit.SECONDS));
    stream.catchUp();
  }

  /** The place an id names, or −1 when this song never had it. */
  private static long place(String last, long newest) {
    try {
      long seq = Long.parseLong(last.strip());
      return seq < 0 || seq > newest ? -1 : seq;
    } catch (NumberFormatException e) {
      return -1;
    }
  }
}

package org.mixaccord.acceptance;

import io.restassured.RestAssured;
import io.restassured.path.json.JsonPath;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Predicate;
import org.awaitility.Awaitility;

/** One open stream of events, read as a browser would. */
final class Followed implements AutoCloseable {
  private static final HttpClient LINE =
      HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
  private static final Duration LONG = Duration.ofSeconds(20);

  /** One event as it came over the line. */
  record Event(String id, String name, String data) {
    long seq() {
      return Long.parseLong(id);
    }

    String field(String name) {
      return JsonPath.from(data).getString(name);
    }
  }

  private final List<Event> events = new CopyOnWriteArrayList<>();
  private final List<String> comments = new CopyOnWriteArrayList<>();
  private final CompletableFuture<Void> ended = new CompletableFuture<>();
  private final InputStream body;

  private Followed(InputStream body) {
    this.body = body;
    Thread reader = new Thread(this::read, "events-of-a-test");
    reader.setDaemon(true);
    reader.start();
  }

  /** Follows a song by a header that signs in; returns once the stream has begun. */
  static Followed song(String song, String header, String value, String lastEventId) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(
                URI.create(
                    "http://localhost:" + RestAssured.port + "/api/v1/songs/" + song + "/events"))
            .header(header, value);
    if (lastEventId != null) {
      request.header("Last-Event-ID", lastEventId);
    }
    try {
      HttpResponse<InputStream> answer =
          LINE.send(request.build(), HttpResponse.BodyHandlers.ofInputStream());
      if (answer.statusCode() != 200) {
        throw new AssertionError("the stream was answered by " + answer.statusCode());
      }
      Followed followed = new Followed(answer.body());
      Awaitility.await().atMost(LONG).until(() -> !followed.comments.isEmpty());
      return followed;
    } catch (IOException e) {
      throw new AssertionError(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
  }

  static Followed song(Api who, String song, String lastEventId) {
    return song(song, "Cookie", "mixaccord_session=" + who.cookie(), lastEventId);
  }

  private void read() {
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(body, StandardCharsets.UTF_8))) {
      String id = "";
      String name = "message";
      StringBuilder data = new StringBuilder();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        int colon = line.indexOf(':');
        String field = colon < 0 ? line : line.substring(0, colon);
        String value = colon < 0 ? "" : line.substring(colon + 1).strip();
        switch (field) {
          case "id" -> id = value;
          case "event" -> name = value;
          case "data" -> data.append(value);
          case "" -> {
            if (colon == 0) {
              comments.add(value);
            } else if (data.length() > 0) {
              events.add(new Event(id, name, data.toString()));
              id = "";
              name = "message";
              data.setLength(0);
            }
          }
          default -> {
            // Fields a browser would not know either.
          }
        }
      }
    } catch (IOException broken) {
      // A line that breaks ends the stream like one that is closed.
    } finally {
      ended.complete(null);
    }
  }

  List<Event> events() {
    return List.copyOf(events);
  }

  /** Waits for an event. */
  Event awaits(Predicate<Event> wanted) {
    return Awaitility.await()
        .atMost(LONG)
        .until(() -> events.stream().filter(wanted).findFirst(), java.util.Optional::isPresent)
        .orElseThrow();
  }

  boolean ended() {
    return ended.isDone();
  }

  @Override
  public void close() {
    try {
      body.close();
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }
}

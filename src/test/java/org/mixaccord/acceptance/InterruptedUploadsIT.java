package org.mixaccord.acceptance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.LongConsumer;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Fifty uploads to a server that is killed again and again, over lines that break: each ends whole,
 * the same to the byte, and nothing is left lying about.
 */
class InterruptedUploadsIT {
  private static final long SEED = 4;
  private static final int UPLOADS = 50;
  private static final int SENDERS = 6;
  private static final int KILLS = 4;
  private static final int LEAST_BYTES = 50_000;
  private static final int MOST_BYTES = 4_000_000;
  private static final double CUT_SHARE = 0.4;

  /** What an upload became, as its sender was told. */
  private record Arrived(String fileName, String sha256, String bounce, boolean resumable) {}

  @TempDir Path folder;

  private final AtomicLong sentBytes = new AtomicLong();
  private final AtomicLong lastBytes = new AtomicLong();
  private final AtomicLong breaks = new AtomicLong();
  private ServerProcess server;
  private String song;

  @Test
  void everyOneOfFiftyArrivesWholeAndNothingIsLeftOver() throws Exception {
    try (ServerProcess started = new ServerProcess(folder.resolve("data"), 256, Map.of())) {
      server = started;
      song = server.song();
      List<Arrived> arrived = sendAll();
      assertTrue(breaks.get() >= UPLOADS / 2, "only " + breaks.get() + " interruptions");
      List<JsonPath> settled = new ArrayList<>();
      for (Arrived one : arrived) {
        settled.add(settled(one.bounce()));
        assertEquals(one.sha256(), downloaded(one.bounce()), one.fileName());
      }
      for (int n = 0; n < UPLOADS; n++) {
        assertEquals(isSound(n) ? "ready" : "failed", settled.get(n).getString("state"));
      }
      List<String> names =
          server.get("/api/v1/songs/" + song + "/bounces?limit=500").getList("file.name");
      for (Arrived one : arrived) {
        long times = names.stream().filter(one.fileName()::equals).count();
        // A script that hears no answer sends again; in pieces a file becomes one mix only.
        assertTrue(one.resumable() ? times == 1 : times >= 1, one.fileName() + " " + times);
      }
      Awaitility.await()
          .atMost(Duration.ofSeconds(30))
          .untilAsserted(
              () -> {
                assertEquals(List.of(), server.filesIn("incoming"));
                assertEquals(List.of(), server.filesIn("uploads"));
                assertEquals(List.of(), server.filesIn("unfinished"));
              });
    }
  }

  private List<Arrived> sendAll() throws Exception {
    ExecutorService senders = Executors.newFixedThreadPool(SENDERS);
    ExecutorService killer = Executors.newSingleThreadExecutor();
    try {
      List<Future<Arrived>> sending = new ArrayList<>();
      for (int n = 0; n < UPLOADS; n++) {
        int number = n;
        sending.add(senders.submit(() -> arrives(number)));
      }
      Future<Void> killing = killer.submit(killAgainAndAgain());
      List<Arrived> arrived = new ArrayList<>();
      for (Future<Arrived> one : sending) {
        arrived.add(one.get(10, TimeUnit.MINUTES));
      }
      killing.get(1, TimeUnit.MINUTES);
      return arrived;
    } catch (ExecutionException e) {
      throw new AssertionError("seed " + SEED, e.getCause());
    } finally {
      senders.shutdownNow();
      killer.shutdownNow();
    }
  }

  /**
   * Kills the server after so many bytes of all files together, every second time at the moment
   * when some file's last byte has been sent and its answer is due.
   */
  private Callable<Void> killAgainAndAgain() {
    Random random = new Random(SEED);
    long all = 0;
    for (int n = 0; n < UPLOADS; n++) {
      all += bytes(n).length;
    }
    long between = all / (KILLS + 1);
    return () -> {
      for (int kill = 1; kill <= KILLS; kill++) {
        long from = kill * between - random.nextInt((int) between / 2);
        until(() -> sentBytes.get() >= from);
        if (kill % 2 == 0) {
          long before = lastBytes.get();
          until(() -> lastBytes.get() > before);
          Thread.sleep(random.nextInt(20));
        }
        server.kill();
        server.start();
      }
      return null;
    };
  }

  private static void until(Callable<Boolean> condition) throws Exception {
    while (!condition.call()) {
      Thread.sleep(1);
    }
  }

  private Arrived arrives(int number) throws IOException {
    byte[] bytes = bytes(number);
    Random random = new Random(SEED * UPLOADS + number);
    boolean resumable = number % 2 == 0;
    String name = "pass " + number + ".wav";
    String bounce = null;
    String at = null;
    long acknowledged = 0;
    while (bounce == null) {
      try {
        if (!resumable) {
          bounce = posted(name, bytes, random);
        } else if (at == null) {
          at = begun(name, bytes.length);
        } else {
          RawUpload.Answer there = tus("HEAD", at, Map.of()).send(bytes, 0, 0, sent -> {});
          assertEquals(200, there.status(), there.toString());
          long here = Long.parseLong(there.header("Upload-Offset"));
          assertTrue(here >= acknowledged, name + " went back to " + here);
          bounce = there.header("Mixaccord-Bounce");
          if (bounce == null) {
            acknowledged = Math.max(acknowledged, piece(at, bytes, (int) here, random));
          }
        }
      } catch (IOException serverDied) {
        breaks.incrementAndGet();
        pause(50);
      }
    }
    return new Arrived(name, UploadStage.sha256(bytes), bounce, resumable);
  }

  /** The bounce a plain upload became, or null when its line was cut. */
  private String posted(String name, byte[] bytes, Random random) throws IOException {
    RawUpload upload =
        new RawUpload(
            server.port,
            "POST",
            "/api/v1/songs/" + song + "/bounces?filename=" + name.replace(" ", "%20"),
            Map.of("Cookie", server.cookie(), "Idempotency-Key", name));
    if (random.nextDouble() < CUT_SHARE) {
      breaks.incrementAndGet();
      upload.cut(bytes, 0, bytes.length, random.nextInt(bytes.length), this::sent);
      return null;
    }
    RawUpload.Answer answer = upload.send(bytes, 0, bytes.length, counting(bytes.length));
    if (answer.status() == 409) {
      // The server has not noticed yet that the line of the first try is cut.
      return null;
    }
    assertEquals(201, answer.status(), answer.toString());
    return JsonPath.from(answer.body()).getString("id");
  }

  private String begun(String name, int length) throws IOException {
    String metadata = "song " + base64(song.getBytes(UTF_8)) + ",filename ";
    RawUpload.Answer answer =
        tus(
                "POST",
                "/api/v1/uploads",
                Map.of(
                    "Upload-Length",
                    String.valueOf(length),
                    "Upload-Metadata",
                    metadata + base64(name.getBytes(UTF_8))))
            .send(new byte[0], 0, 0, sent -> {});
    assertEquals(201, answer.status(), answer.toString());
    return answer.header("Location");
  }

  /** Sends the rest or some of it, now and then with a checksum; how far it is acknowledged. */
  private long piece(String at, byte[] bytes, int from, Random random) throws IOException {
    int left = bytes.length - from;
    int count = random.nextBoolean() ? left : Math.min(left, 1 + random.nextInt(1_000_000));
    Map<String, String> headers = new java.util.HashMap<>();
    headers.put("Content-Type", "application/offset+octet-stream");
    headers.put("Upload-Offset", String.valueOf(from));
    if (random.nextInt(3) == 0) {
      headers.put("Upload-Checksum", "sha1 " + base64(sha1(bytes, from, count)));
    }
    RawUpload upload = tus("PATCH", at, headers);
    if (count > 0 && random.nextDouble() < CUT_SHARE) {
      breaks.incrementAndGet();
      upload.cut(bytes, from, from + count, from + random.nextInt(count), this::sent);
      return 0;
    }
    RawUpload.Answer answer = upload.send(bytes, from, from + count, counting(count));
    if (answer.status() == 409) {
      // What an earlier try had sent before its line was cut came in only after the question.
      return 0;
    }
    assertEquals(204, answer.status(), answer.toString());
    return Long.parseLong(answer.header("Upload-Offset"));
  }

  private RawUpload tus(String method, String path, Map<String, String> headers) {
    Map<String, String> all = new java.util.HashMap<>(headers);
    all.put("Cookie", server.cookie());
    all.put("Tus-Resumable", "1.0.0");
    return new RawUpload(server.port, method, path, all);
  }

  private void sent(long count) {
    sentBytes.addAndGet(count);
    // As slow as a line may be, so that kills and cuts meet files on their way.
    pause(1);
  }

  /** Also tells when the last byte is out. */
  private LongConsumer counting(long whole) {
    AtomicLong left = new AtomicLong(whole);
    return count -> {
      sent(count);
      if (left.addAndGet(-count) == 0) {
        lastBytes.incrementAndGet();
      }
    };
  }

  private JsonPath settled(String bounce) {
    return Awaitility.await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () -> server.get("/api/v1/bounces/" + bounce),
            b -> List.of("ready", "failed").contains(b.getString("state")));
  }

  private String downloaded(String bounce) throws IOException {
    HttpRequest.Builder request = server.request("/api/v1/bounces/" + bounce + "/audio");
    return UploadStage.sha256(server.send(request, BodyHandlers.ofByteArray()).body());
  }

  /** Every fifth is a sound file, the others are noise that only has to be kept. */
  private static boolean isSound(int number) {
    return number % 5 == 0;
  }

  private static byte[] bytes(int number) {
    Random random = new Random(SEED + number);
    double times = (double) MOST_BYTES / LEAST_BYTES;
    int count = (int) (LEAST_BYTES * Math.pow(times, random.nextDouble()));
    if (isSound(number)) {
      double[] side = new double[count / 6];
      for (int n = 0; n < side.length; n++) {
        side[n] = random.nextDouble() - 0.5;
      }
      return Sound.wav(48000, side, side);
    }
    byte[] bytes = new byte[count];
    random.nextBytes(bytes);
    return bytes;
  }

  private static byte[] sha1(byte[] bytes, int from, int count) {
    try {
      var digest = java.security.MessageDigest.getInstance("SHA-1");
      digest.update(bytes, from, count);
      return digest.digest();
    } catch (java.security.NoSuchAlgorithmException e) {
      throw new AssertionError(e);
    }
  }

  private static String base64(byte[] bytes) {
    return Base64.getEncoder().encodeToString(bytes);
  }

  private static void pause(long millis) {
    try {
      Thread.sleep(millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
  }
}

package org.mixaccord.acceptance;

import static java.nio.charset.StandardCharsets.US_ASCII;

import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.Comparator;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;

/**
 * Sends files of 200 MB, 2 GB and a little over 4 GiB to the packaged server, whole and in pieces,
 * beside {@code dd conv=fsync} to the same disk, and prints MB/s and the server's memory as
 * Markdown. The client makes the bytes as it sends them; the server has a heap of 256 MB.
 */
public final class UploadBench {
  private static final int HEAP_MEGABYTES = 256;
  private static final int MEGA = 1_000_000;
  private static final int BLOCK_BYTES = 1 << 20;
  private static final int PIECE_BYTES = 32 << 20;
  private static final int RATE = 96_000;
  private static final int FRAME_BYTES = 8;

  /** Frames of 32-bit floating point stereo that take four GiB. */
  private static final long FRAMES = (4L << 30) / FRAME_BYTES;

  private static final int HEAD_BYTES = 80;

  /** How a file is sent. */
  private enum Way {
    POST("`POST`"),
    PATCH("tus, one piece"),
    PIECES("tus, pieces of 32 MiB with SHA-256");

    private final String words;

    Way(String words) {
      this.words = words;
    }
  }

  private final Path folder;
  private final byte[] block = new byte[BLOCK_BYTES];
  private long files;

  private UploadBench(Path folder) {
    this.folder = folder;
    new Random(1).nextBytes(block);
  }

  /** Takes a folder for what is measured; it is emptied. */
  public static void main(String[] args) throws Exception {
    UploadBench bench = new UploadBench(Path.of(args[0], "uploads").toAbsolutePath());
    System.out.println("### Uploads\n");
    System.out.println("| size | way | MB/s | to dd | memory, MB | heap in use, MB |");
    System.out.println("|---|---|---|---|---|---|");
    bench.noise(200L * MEGA, 3);
    bench.noise(2000L * MEGA, 1);
    bench.fourGigabytes();
  }

  private void noise(long bytes, int runs) throws Exception {
    try (ServerProcess server = fresh()) {
      String song = server.song();
      // Neither the first pass through cold code nor that of the disk is measured.
      send(server, song, Way.POST, head(false), 20L * MEGA);
      for (int run = 0; run < runs; run++) {
        double dd = dd(bytes);
        row(bytes, "dd", dd, dd, "", "");
        for (Way way : Way.values()) {
          measured(server, song, way, false, bytes, dd);
        }
      }
    }
    empty();
  }

  /** A sound file too long for the lengths of a plain WAV, sent and measured to the end. */
  private void fourGigabytes() throws Exception {
    long bytes = HEAD_BYTES + FRAMES * FRAME_BYTES;
    for (Way way : new Way[] {Way.POST, Way.PATCH}) {
      try (ServerProcess server = fresh()) {
        double dd = dd(bytes);
        row(bytes, "dd", dd, dd, "", "");
        String bounce = measured(server, server.song(), way, true, bytes, dd);
        JsonPath there = server.get("/api/v1/bounces/" + bounce);
        while (!there.getString("state").equals("ready")) {
          if (there.getString("state").equals("failed")) {
            throw new AssertionError(there.getString("problem.detail"));
          }
          Thread.sleep(1000);
          there = server.get("/api/v1/bounces/" + bounce);
        }
        if (there.getLong("file.bytes") != bytes || there.getLong("file.frames") != FRAMES) {
          throw new AssertionError(there.getString("file"));
        }
        row(bytes, "… until it is measured", 0, dd, megabytes(server.mostMemoryBytes()), "");
      }
      empty();
    }
  }

  private ServerProcess fresh() throws IOException {
    empty();
    Files.createDirectories(folder);
    return new ServerProcess(folder.resolve("data"), HEAP_MEGABYTES, Map.of());
  }

  private void empty() throws IOException {
    if (Files.exists(folder)) {
      try (var all = Files.walk(folder)) {
        for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(path);
        }
      }
    }
  }

  private double dd(long bytes) throws Exception {
    Path out = folder.resolve("dd");
    long from = System.nanoTime();
    Process dd =
        new ProcessBuilder(
                "dd",
                "if=/dev/zero",
                "of=" + out,
                "bs=1M",
                "iflag=count_bytes",
                "count=" + bytes,
                "conv=fsync")
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    if (dd.waitFor() != 0) {
      throw new AssertionError("dd failed");
    }
    double speed = speed(bytes, from);
    Files.delete(out);
    return speed;
  }

  private static double speed(long bytes, long fromNanos) {
    return bytes / 1e6 / ((System.nanoTime() - fromNanos) / 1e9);
  }

  private String measured(
      ServerProcess server, String song, Way way, boolean sound, long bytes, double dd)
      throws Exception {
    server.forgetMostMemory();
    HeapOfServer heap = new HeapOfServer(server);
    long from = System.nanoTime();
    String bounce = send(server, song, way, head(sound), bytes);
    double speed = speed(bytes, from);
    row(
        bytes,
        way.words,
        speed,
        dd,
        megabytes(server.mostMemoryBytes()),
        megabytes(heap.largestBytes()));
    return bounce;
  }

  private static String megabytes(long bytes) {
    return String.valueOf(bytes / MEGA);
  }

  private static void row(
      long bytes, String way, double speed, double dd, String memory, String heap) {
    System.out.printf(
        Locale.ROOT,
        "| %d MB | %s | %s | %s | %s | %s |%n",
        bytes / MEGA,
        way,
        speed == 0 ? "" : String.format(Locale.ROOT, "%.0f", speed),
        speed == 0 ? "" : String.format(Locale.ROOT, "%.2f", speed / dd),
        memory,
        heap);
  }

  /** Sends a file that no other is like; the bounce it became. */
  private String send(ServerProcess server, String song, Way way, byte[] head, long bytes)
      throws IOException, NoSuchAlgorithmException {
    ByteBuffer.wrap(block).putLong(++files);
    Map<String, String> headers = new TreeMap<>(Map.of("Cookie", server.cookie()));
    if (way == Way.POST) {
      String path = "/api/v1/songs/" + song + "/bounces?filename=long.wav";
      return JsonPath.from(sent(server, "POST", path, headers, head, 0, bytes).body())
          .getString("id");
    }
    headers.put("Tus-Resumable", "1.0.0");
    headers.put("Upload-Length", String.valueOf(bytes));
    headers.put(
        "Upload-Metadata",
        "song " + Base64.getEncoder().encodeToString(song.getBytes(US_ASCII)));
    String at = sent(server, "POST", "/api/v1/uploads", headers, head, 0, 0).header("Location");
    headers.put("Content-Type", "application/offset+octet-stream");
    long step = way == Way.PIECES ? PIECE_BYTES : bytes;
    RawUpload.Answer last = null;
    for (long offset = 0; offset < bytes; offset += step) {
      long to = Math.min(bytes, offset + step);
      headers.put("Upload-Offset", String.valueOf(offset));
      if (way == Way.PIECES) {
        headers.put("Upload-Checksum", "sha256 " + sha256(head, offset, to));
      }
      last = sent(server, "PATCH", at, headers, head, offset, to);
    }
    return last.header("Mixaccord-Bounce");
  }

  private RawUpload.Answer sent(
      ServerProcess server,
      String method,
      String path,
      Map<String, String> headers,
      byte[] head,
      long from,
      long to)
      throws IOException {
    RawUpload request = new RawUpload(server.port, method, path, headers);
    try (Socket line = request.open(to - from)) {
      each(head, from, to, (bytes, at, count) -> line.getOutputStream().write(bytes, at, count));
      RawUpload.Answer answer = RawUpload.answer(line.getInputStream());
      if (answer.status() / 100 != 2) {
        throw new AssertionError(answer.toString());
      }
      return answer;
    }
  }

  @FunctionalInterface
  private interface Sink {
    void take(byte[] bytes, int at, int count) throws IOException;
  }

  /** The bytes of a file from here to there: its head, then the block again and again. */
  private void each(byte[] head, long from, long to, Sink sink) throws IOException {
    long at = from;
    while (at < to) {
      boolean inHead = at < head.length;
      byte[] bytes = inHead ? head : block;
      int start = inHead ? (int) at : (int) ((at - head.length) % BLOCK_BYTES);
      int count = (int) Math.min(bytes.length - start, to - at);
      sink.take(bytes, start, count);
      at += count;
    }
  }

  private String sha256(byte[] head, long from, long to)
      throws IOException, NoSuchAlgorithmException {
    MessageDigest digest = MessageDigest.getInstance("SHA-256");
    each(head, from, to, digest::update);
    return Base64.getEncoder().encodeToString(digest.digest());
  }

  /** Nothing, or the head of an RF64 file (EBU Tech 3306) whose samples are floating point. */
  private byte[] head(boolean sound) {
    if (!sound) {
      return new byte[0];
    }
    for (int at = 0; at < BLOCK_BYTES; at += 4) {
      float sample = 0.25f * (float) Math.sin(at * 0.001);
      ByteBuffer.wrap(block).order(ByteOrder.LITTLE_ENDIAN).putFloat(at, sample);
    }
    long dataBytes = FRAMES * FRAME_BYTES;
    ByteBuffer head = ByteBuffer.allocate(HEAD_BYTES).order(ByteOrder.LITTLE_ENDIAN);
    head.put("RF64".getBytes(US_ASCII)).putInt(-1).put("WAVEds64".getBytes(US_ASCII));
    head.putInt(28).putLong(HEAD_BYTES - 8 + dataBytes).putLong(dataBytes).putLong(FRAMES);
    head.putInt(0).put("fmt ".getBytes(US_ASCII)).putInt(16).putShort((short) 3);
    head.putShort((short) 2).putInt(RATE).putInt(RATE * FRAME_BYTES);
    head.putShort((short) FRAME_BYTES).putShort((short) 32);
    head.put("data".getBytes(US_ASCII)).putInt(-1);
    return head.array();
  }
}

package org.mixaccord.acceptance;

import io.restassured.path.json.JsonPath;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.awaitility.Awaitility;

/** The packaged server as a process of its own, with its own database, that can be killed. */
final class ServerProcess implements AutoCloseable {
  static final Path PROGRAM = Path.of("target", "quarkus-app", "quarkus-run.jar");

  private static final Duration LONG = Duration.ofSeconds(90);
  private static final Pattern HEAP_USED =
      Pattern.compile("(?m)^jvm_memory_used_bytes\\{area=\"heap\".*? ([0-9.E]+)$");
  private static final Pattern MOST_MEMORY = Pattern.compile("VmHWM:\\s+(\\d+) kB");
  private static final int KILO = 1024;

  final Path data;
  final int port;

  private final List<String> command = new ArrayList<>();
  private final Map<String, String> settings;
  private final HttpClient client = HttpClient.newHttpClient();
  private volatile Process process;
  private String cookie;

  /** Starts a server with an empty data folder and signs its owner in. */
  ServerProcess(Path data, int heapMegabytes, Map<String, String> settings) throws IOException {
    this.data = data.toAbsolutePath();
    this.settings = settings;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
    }
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-Xmx" + heapMegabytes + "m");
    command.add("-jar");
    command.add(PROGRAM.toString());
    start();
    signIn();
  }

  /** Starts it, again if it was killed, and returns when it is ready. */
  void start() throws IOException {
    ProcessBuilder builder =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(
                ProcessBuilder.Redirect.appendTo(data.resolveSibling("server.log").toFile()));
    builder.environment().putAll(settings);
    builder.environment().put("MIXACCORD_DATA_DIR", data.toString());
    builder.environment().put("MIXACCORD_OWNER_EMAIL", Owner.EMAIL);
    builder.environment().put("MIXACCORD_OWNER_PASSWORD", Owner.PASSWORD);
    builder.environment().put("QUARKUS_HTTP_PORT", String.valueOf(port));
    process = builder.start();
    Awaitility.await()
        .atMost(LONG)
        .pollInterval(Duration.ofMillis(100))
        .until(() -> !process.isAlive() || isReady());
    if (!process.isAlive()) {
      throw new AssertionError(Files.readString(data.resolveSibling("server.log")));
    }
  }

  private boolean isReady() throws InterruptedException {
    try {
      HttpRequest ready = HttpRequest.newBuilder(URI.create(url("/q/health/ready"))).build();
      return client.send(ready, BodyHandlers.discarding()).statusCode() == 200;
    } catch (IOException notYet) {
      return false;
    }
  }

  /** Ends it as a power cut would, as far as the process is concerned. */
  void kill() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  private void signIn() throws IOException {
    HttpResponse<String> answer =
        send(
            request("/api/v1/session")
                .header("Content-Type", "application/json")
                .POST(
                    BodyPublishers.ofString(
                        "{\"email\":\"%s\",\"password\":\"%s\"}"
                            .formatted(Owner.EMAIL, Owner.PASSWORD))));
    cookie = answer.headers().firstValue("Set-Cookie").orElseThrow().split(";", 2)[0];
  }

  /** A project with a song to upload to; its id. */
  String song() throws IOException {
    String project = post("/api/v1/projects", "{\"title\":\"Slack Tide\",\"artist\":\"Nobody\"}");
    return post("/api/v1/projects/" + project + "/songs", "{\"title\":\"Harbour Wall\"}");
  }

  private String post(String path, String json) throws IOException {
    HttpResponse<String> answer =
        send(
            request(path)
                .header("Content-Type", "application/json")
                .POST(BodyPublishers.ofString(json)));
    return JsonPath.from(answer.body()).getString("id");
  }

  JsonPath get(String path) throws IOException {
    return JsonPath.from(send(request(path)).body());
  }

  HttpRequest.Builder request(String path) {
    HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(url(path)));
    return cookie == null ? request : request.header("Cookie", cookie);
  }

  HttpResponse<String> send(HttpRequest.Builder request) throws IOException {
    return send(request, BodyHandlers.ofString());
  }

  <T> HttpResponse<T> send(HttpRequest.Builder request, HttpResponse.BodyHandler<T> body)
      throws IOException {
    try {
      return client.send(request.build(), body);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
  }

  String cookie() {
    return cookie;
  }

  private String url(String path) {
    return "http://127.0.0.1:" + port + path;
  }

  /** The most memory the process ever had, as the system counts it. */
  long mostMemoryBytes() throws IOException {
    var found =
        MOST_MEMORY.matcher(
            Files.readString(Path.of("/proc", String.valueOf(process.pid()), "status")));
    if (!found.find()) {
      throw new AssertionError("the system does not say how much memory a process had");
    }
    return Long.parseLong(found.group(1)) * KILO;
  }

  /** Lets the system count anew. */
  void forgetMostMemory() throws IOException {
    Files.writeString(Path.of("/proc", String.valueOf(process.pid()), "clear_refs"), "5");
  }

  /** Heap in use at this moment. */
  long heapBytes() throws IOException {
    return HEAP_USED
        .matcher(send(request("/q/metrics")).body())
        .results()
        .mapToLong(line -> (long) Double.parseDouble(line.group(1)))
        .sum();
  }

  /** Files below a folder of the data. */
  List<Path> filesIn(String folder) throws IOException {
    Path root = data.resolve(folder);
    if (!Files.isDirectory(root)) {
      return List.of();
    }
    try (var all = Files.walk(root)) {
      return all.filter(Files::isRegularFile).toList();
    }
  }

  /** Ends it in order; after a kill the database it left is ended too. */
  @Override
  public void close() throws IOException {
    try {
      process.destroy();
      if (!process.waitFor(40, TimeUnit.SECONDS)) {
        process.destroyForcibly().waitFor();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    Path running = data.resolve("database/cluster/postmaster.pid");
    if (Files.exists(running)) {
      long pid = Long.parseLong(Files.readAllLines(running).get(0).strip());
      ProcessHandle.of(pid).ifPresent(ProcessHandle::destroy);
    }
  }
}

package org.mixaccord.acceptance;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.function.LongConsumer;

/** One request with a body on a line of its own, which may break at any byte. */
record RawUpload(int port, String method, String path, Map<String, String> headers) {
  /** An answer; names of headers in lower case. */
  record Answer(int status, Map<String, String> headers, String body) {
    String header(String name) {
      return headers.get(name.toLowerCase(Locale.ROOT));
    }
  }

  private static final int STEP = 1 << 14;

  /** Sends everything and reads the answer. */
  Answer send(byte[] bytes, int from, int to, LongConsumer sent) throws IOException {
    try (Socket line = open(to - from)) {
      pour(line, bytes, from, to, sent);
      return answer(line.getInputStream());
    }
  }

  /** Announces everything, sends only some of it and hangs up. */
  void cut(byte[] bytes, int from, int to, int cutAt, LongConsumer sent) throws IOException {
    try (Socket line = open(to - from)) {
      pour(line, bytes, from, cutAt, sent);
    }
  }

  /** Announces everything, sends only some of it and stays on the line. */
  Socket hold(byte[] bytes, int from, int to, int upTo) throws IOException {
    Socket line = open(to - from);
    pour(line, bytes, from, upTo, sent -> {});
    return line;
  }

  /** Sends only the head. */
  Socket open(long length) throws IOException {
    Socket line = new Socket(InetAddress.getLoopbackAddress(), port);
    StringBuilder head =
        new StringBuilder(method + " " + path + " HTTP/1.1\r\nHost: localhost\r\n");
    headers.forEach((name, value) -> head.append(name).append(": ").append(value).append("\r\n"));
    head.append("Content-Length: ").append(length).append("\r\n\r\n");
    line.getOutputStream().write(head.toString().getBytes(ISO_8859_1));
    return line;
  }

  private static void pour(Socket line, byte[] bytes, int from, int to, LongConsumer sent)
      throws IOException {
    OutputStream out = line.getOutputStream();
    for (int at = from; at < to; at += STEP) {
      int count = Math.min(STEP, to - at);
      out.write(bytes, at, count);
      sent.accept(count);
    }
    out.flush();
  }

  /** Reads an answer that says its length. */
  static Answer answer(InputStream in) throws IOException {
    String[] status = line(in).split(" ");
    Map<String, String> headers = new HashMap<>();
    for (String line = line(in); !line.isEmpty(); line = line(in)) {
      int colon = line.indexOf(':');
      headers.put(
          line.substring(0, colon).toLowerCase(Locale.ROOT), line.substring(colon + 1).strip());
    }
    byte[] body = in.readNBytes(Integer.parseInt(headers.getOrDefault("content-length", "0")));
    return new Answer(Integer.parseInt(status[1]), headers, new String(body, ISO_8859_1));
  }

  private static String line(InputStream in) throws IOException {
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    for (int b = in.read(); b != '\n'; b = in.read()) {
      if (b < 0) {
        throw new EOFException("the line ended before the answer did");
      }
      line.write(b);
    }
    return line.toString(ISO_8859_1).stripTrailing();
  }
}

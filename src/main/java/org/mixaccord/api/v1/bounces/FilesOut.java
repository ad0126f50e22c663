package org.mixaccord.api.v1.bounces;

import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.StreamingOutput;
import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Serves files from disk, one {@code Range} at a time (RFC 9110, 14), never through memory. */
final class FilesOut {
  private static final Pattern ONE_RANGE = Pattern.compile("bytes=(\\d*)-(\\d*)");
  private static final int BLOCK = 1 << 16;

  private FilesOut() {}

  /**
   * The answer for a file.
   *
   * @param etag strong entity tag without quotes: the hash of the bytes
   * @param range the {@code Range} header or null
   * @param ifRange the {@code If-Range} header or null
   */
  static Response.ResponseBuilder file(Path file, String etag, String range, String ifRange)
      throws IOException {
    long size = Files.size(file);
    String quoted = "\"" + etag + "\"";
    Matcher wanted = ONE_RANGE.matcher(range == null ? "" : range.strip());
    boolean partly =
        wanted.matches()
            && !(wanted.group(1).isEmpty() && wanted.group(2).isEmpty())
            && (ifRange == null || ifRange.equals(quoted));
    long from = 0;
    long to = size - 1;
    if (partly) {
      from =
          wanted.group(1).isEmpty()
              ? Math.max(0, size - number(wanted.group(2)))
              : number(wanted.group(1));
      if (!wanted.group(1).isEmpty() && !wanted.group(2).isEmpty()) {
        to = Math.min(to, number(wanted.group(2)));
      }
      if (from > to) {
        throw new ProblemException(Problem.RANGE_NOT_THERE, "The file ends before that.");
      }
    }
    Response.ResponseBuilder answer =
        Response.status(partly ? 206 : 200)
            .entity(stream(file, from, to - from + 1))
            .header(HttpHeaders.ETAG, quoted)
            .header("Accept-Ranges", "bytes")
            .header(HttpHeaders.CONTENT_LENGTH, to - from + 1);
    return partly
        ? answer.header("Content-Range", "bytes " + from + "-" + to + "/" + size)
        : answer;
  }

  private static long number(String digits) {
    return digits.length() > 18 ? Long.MAX_VALUE / 2 : Long.parseLong(digits);
  }

  private static StreamingOutput stream(Path file, long from, long count) {
    return out -> {
      try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
        channel.position(from);
        InputStream in = Channels.newInputStream(channel);
        byte[] block = new byte[BLOCK];
        long left = count;
        while (left > 0) {
          int read = in.read(block, 0, (int) Math.min(block.length, left));
          if (read < 0) {
            throw new IOException("the file became shorter while it was sent");
          }
          out.write(block, 0, read);
          left -= read;
        }
      }
    };
  }
}

package org.mixaccord.api.v1;

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
import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Serves files from disk, one {@code Range} at a time (RFC 9110, 14), never through memory. */
public final class FilesOut {
  private static final Pattern ONE_RANGE = Pattern.compile("bytes=(\\d*)-(\\d*)");
  private static final int BLOCK = 1 << 16;

  private FilesOut() {}

  /** What a request says of the part it wants and of the copy it has; each may be null. */
  public record Asked(String range, String ifRange, String ifNoneMatch) {
    public static Asked by(HttpHeaders headers) {
      return new Asked(
          headers.getHeaderString("Range"),
          headers.getHeaderString("If-Range"),
          headers.getHeaderString(HttpHeaders.IF_NONE_MATCH));
    }
  }

  /**
   * Told once when so much of a file is on its way that it counts as served.
   *
   * @param least bytes of one answer, if the file has as many
   * @param reaching up to which byte of the file an answer has to come, if the file has as many
   */
  public record Served(long least, long reaching, Runnable then) {
    public static final Served UNCOUNTED = new Served(Long.MAX_VALUE, Long.MAX_VALUE, () -> {});

    private long needs(long from, long size) {
      return Math.max(Math.min(size, least), Math.min(size, reaching) - from);
    }
  }

  /**
   * The answer for a file.
   *
   * @param etag strong entity tag without quotes: the hash of the bytes, or of what they hold
   */
  public static Response.ResponseBuilder file(Path file, String etag, Asked asked, Served served)
      throws IOException {
    long size = Files.size(file);
    String quoted = "\"" + etag + "\"";
    if (isKnown(asked.ifNoneMatch(), quoted)) {
      if (asked.range() == null) {
        // Sent in full before, and played from the reader's own store now.
        served.then().run();
      }
      return Response.notModified().header(HttpHeaders.ETAG, quoted);
    }
    String range = asked.range();
    String ifRange = asked.ifRange();
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
            .entity(stream(file, from, to - from + 1, size, served))
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

  private static boolean isKnown(String ifNoneMatch, String quoted) {
    return ifNoneMatch != null
        && (ifNoneMatch.strip().equals("*")
            || Arrays.stream(ifNoneMatch.split(","))
                .map(tag -> tag.strip().replaceFirst("^W/", ""))
                .anyMatch(quoted::equals));
  }

  private static StreamingOutput stream(
      Path file, long from, long count, long size, Served served) {
    long needs = served.needs(from, size);
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
          long before = count - left;
          if (before < needs && before + read >= needs) {
            served.then().run();
          }
          out.write(block, 0, read);
          left -= read;
        }
      }
    };
  }
}

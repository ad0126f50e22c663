package org.mixaccord.api.v1.json;

import jakarta.annotation.Nullable;
import jakarta.ws.rs.ext.Provider;
import jakarta.ws.rs.ext.ReaderInterceptor;
import jakarta.ws.rs.ext.ReaderInterceptorContext;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.stream.Stream;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/**
 * JSON bodies end at 1 MB and say something, unless the route can do without ({@code Nullable});
 * uploads are streamed and have limits of their own.
 */
@Provider
public class BodyLimit implements ReaderInterceptor {
  /** Largest JSON body in bytes. */
  public static final int MOST_BYTES = 1_000_000;

  @Override
  public Object aroundReadFrom(ReaderInterceptorContext context) throws IOException {
    if (context.getType() == InputStream.class) {
      return context.proceed();
    }
    if (context.getInputStream() != null) {
      context.setInputStream(new Limited(context.getInputStream()));
    }
    Object body = context.proceed();
    if (body == null && Stream.of(context.getAnnotations()).noneMatch(Nullable.class::isInstance)) {
      throw new ProblemException(
          Problem.INVALID, "The request says nothing. Send what it is about as JSON.");
    }
    return body;
  }

  private static final class Limited extends FilterInputStream {
    private long left = MOST_BYTES;

    Limited(InputStream in) {
      super(in);
    }

    @Override
    public int read() throws IOException {
      int value = super.read();
      count(value < 0 ? 0 : 1);
      return value;
    }

    @Override
    public int read(byte[] into, int offset, int length) throws IOException {
      int read = super.read(into, offset, length);
      count(Math.max(0, read));
      return read;
    }

    private void count(int bytes) {
      left -= bytes;
      if (left < 0) {
        throw new ProblemException(
            Problem.TOO_LARGE, "A request of this kind may have at most 1 MB.");
      }
    }
  }
}

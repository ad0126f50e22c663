package org.mixaccord.api.v1.blind;

import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.StreamingOutput;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Sends a clip so that nothing but its sound says which mix it is: no tag, no date, no name. */
final class ClipsOut {
  private ClipsOut() {}

  static Response clip(Path file) throws IOException {
    StreamingOutput body = out -> Files.copy(file, out);
    return Response.ok(body)
        .type("audio/wav")
        .header(HttpHeaders.CONTENT_LENGTH, Files.size(file))
        .header(HttpHeaders.CACHE_CONTROL, "private, no-store")
        .build();
  }
}

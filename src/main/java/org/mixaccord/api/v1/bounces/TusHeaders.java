package org.mixaccord.api.v1.bounces;

import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.container.PreMatching;
import jakarta.ws.rs.ext.Provider;
import java.util.Locale;
import java.util.Set;
import org.mixaccord.problem.Problem;

/**
 * What the upload protocol wants of every request and answer: its version on each answer, refusals
 * among them, and another method than the one that got through a client's network.
 */
@Provider
@PreMatching
public class TusHeaders implements ContainerRequestFilter, ContainerResponseFilter {
  static final String VERSION = "1.0.0";
  static final String RESUMABLE = "Tus-Resumable";
  static final String VERSIONS = "Tus-Version";

  private static final String UPLOADS = "/api/v1/uploads";
  private static final Set<String> OVERRIDING = Set.of("PATCH", "DELETE", "HEAD");

  @Override
  public void filter(ContainerRequestContext request) {
    String wanted = request.getHeaderString("X-HTTP-Method-Override");
    if (wanted != null && "POST".equals(request.getMethod()) && isUpload(request)) {
      String method = wanted.strip().toUpperCase(Locale.ROOT);
      if (OVERRIDING.contains(method)) {
        request.setMethod(method);
      }
    }
  }

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    if (!isUpload(request)) {
      return;
    }
    response.getHeaders().putSingle(RESUMABLE, VERSION);
    if (response.getStatus() == Problem.OTHER_PROTOCOL.status()) {
      response.getHeaders().putSingle(VERSIONS, VERSION);
    }
  }

  private static boolean isUpload(ContainerRequestContext request) {
    String path = request.getUriInfo().getRequestUri().getPath();
    return path.equals(UPLOADS) || path.startsWith(UPLOADS + "/");
  }
}

package org.mixaccord.api.v1;

import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Cuts lists into pages; the next one is named by a {@code Link} header (RFC 8288). */
public class Paging {
  private static final int MOST = 500;

  @QueryParam("limit")
  @DefaultValue("100")
  int limit;

  @QueryParam("offset")
  @DefaultValue("0")
  int offset;

  @Context UriInfo uri;

  /** One page of a whole list. */
  public <T> Response page(List<T> all) {
    if (limit < 1 || limit > MOST || offset < 0) {
      throw new ProblemException(
          Problem.INVALID, "“limit” lies between 1 and " + MOST + ", “offset” is 0 or more.");
    }
    int from = Math.min(offset, all.size());
    int to = Math.min(from + limit, all.size());
    Response.ResponseBuilder answer = Response.ok(List.copyOf(all.subList(from, to)));
    if (to < all.size()) {
      // Relative, so that it needs neither the public address nor the Host header.
      String next =
          uri.getRequestUriBuilder()
              .replaceQueryParam("offset", to)
              .replaceQueryParam("limit", limit)
              .build()
              .getRawQuery();
      answer.header(
          "Link", "<" + uri.getRequestUri().getRawPath() + "?" + next + ">; rel=\"next\"");
    }
    return answer.build();
  }
}

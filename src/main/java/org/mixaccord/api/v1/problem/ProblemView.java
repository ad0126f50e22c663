package org.mixaccord.api.v1.problem;

import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.LinkedHashMap;
import java.util.Map;
import org.mixaccord.problem.Problem;

/** Problems as they go over the wire: {@code application/problem+json} of RFC 9457. */
public final class ProblemView {
  /** Media type of RFC 9457. */
  public static final MediaType TYPE = new MediaType("application", "problem+json");

  private ProblemView() {}

  /** The answer for a problem. */
  public static Response response(Problem problem, String detail, Map<String, Object> fields) {
    Map<String, Object> body = new LinkedHashMap<>();
    body.put("type", "/problems/" + problem.code());
    body.put("title", problem.title());
    body.put("status", problem.status());
    body.put("detail", detail);
    body.put("code", problem.code());
    body.putAll(fields);
    Response.ResponseBuilder answer = Response.status(problem.status()).type(TYPE).entity(body);
    Object wait = fields.get("retryAfterSeconds");
    if (wait != null) {
      answer.header("Retry-After", wait);
    } else if (problem == Problem.BUSY || problem == Problem.SLOW_DOWN) {
      answer.header("Retry-After", 5);
    }
    return answer.build();
  }
}

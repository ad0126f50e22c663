package org.mixaccord.api.v1.problem;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import io.vertx.core.http.HttpClosedException;
import io.vertx.core.http.HttpServerRequest;
import jakarta.persistence.OptimisticLockException;
import jakarta.validation.ConstraintViolationException;
import jakarta.ws.rs.WebApplicationException;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.io.IOException;
import java.net.SocketException;
import java.util.Map;
import java.util.Optional;
import org.hibernate.StaleStateException;
import org.jboss.logging.Logger;
import org.jboss.resteasy.reactive.server.ServerExceptionMapper;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** Turns whatever ends a request into a problem of the catalogue, never showing the inside. */
public class ProblemMappers {
  private static final Logger LOG = Logger.getLogger(ProblemMappers.class);

  @ServerExceptionMapper
  Response refused(ProblemException refused) {
    return ProblemView.response(refused.problem(), refused.getMessage(), refused.fields());
  }

  @ServerExceptionMapper
  Response stale(OptimisticLockException stale) {
    return changedMeanwhile();
  }

  @ServerExceptionMapper
  Response stale(StaleStateException stale) {
    return changedMeanwhile();
  }

  private static Response changedMeanwhile() {
    return ProblemView.response(
        Problem.CHANGED_MEANWHILE,
        "Somebody else changed this a moment ago. Look at it again.",
        Map.of());
  }

  @ServerExceptionMapper
  Response invalid(ConstraintViolationException invalid) {
    return ProblemView.response(
        Problem.INVALID,
        "Something in the request cannot be used.",
        Map.of(
            "violations",
            invalid.getConstraintViolations().stream()
                .map(
                    v -> Map.of("field", v.getPropertyPath().toString(), "message", v.getMessage()))
                .toList()));
  }

  @ServerExceptionMapper
  Response json(JsonProcessingException broken) {
    return cause(broken).map(this::refused).orElseGet(ProblemMappers::malformed);
  }

  /** The framework has an answer without words for this one, which only its own name displaces. */
  @ServerExceptionMapper
  Response mismatched(MismatchedInputException broken) {
    return json(broken);
  }

  @ServerExceptionMapper
  Response web(WebApplicationException failed, UriInfo address) {
    Optional<ProblemException> inside = cause(failed);
    if (inside.isPresent()) {
      return refused(inside.get());
    }
    return switch (failed.getResponse().getStatus()) {
      case 400 -> malformed();
      case 404 ->
          noNumber(failed, address)
              ? plain(
                  Problem.INVALID,
                  "A number was expected behind the “?” of this address. Write it with digits and"
                      + " a point, as in 12.5.")
              : plain(Problem.NOT_FOUND, "There is nothing at this address.");
      case 405 -> plain(Problem.METHOD_NOT_ALLOWED, "This address does not take that method.");
      case 406 -> plain(Problem.NOT_ACCEPTABLE, "This address answers with JSON.");
      case 413 -> plain(Problem.TOO_LARGE, "That is larger than this address takes.");
      case 415 -> plain(Problem.UNSUPPORTED_MEDIA_TYPE, "Send application/json here.");
      case 416 -> plain(Problem.RANGE_NOT_THERE, "The file has no such part.");
      default -> fault(failed);
    };
  }

  @ServerExceptionMapper
  Response anything(Throwable failure, HttpServerRequest request) {
    if (failure instanceof IOException && (request.response().closed() || lineBroke(failure))) {
      // Whoever asked has hung up: nobody reads the answer, and nothing here is wrong.
      LOG.debugf("a line broke: %s", failure.getMessage());
      return plain(Problem.UPLOAD_CUT, "The connection broke.");
    }
    Optional<ProblemException> inside = cause(failure);
    if (inside.isPresent()) {
      return refused(inside.get());
    }
    for (Throwable t = failure; t != null; t = t.getCause()) {
      if (t instanceof OptimisticLockException || t instanceof StaleStateException) {
        return changedMeanwhile();
      }
    }
    return fault(failure);
  }

  /** The framework may learn of it from the socket before it has closed the answer. */
  private static boolean lineBroke(Throwable failure) {
    for (Throwable t = failure; t != null; t = t.getCause()) {
      if (t instanceof SocketException || t instanceof HttpClosedException) {
        return true;
      }
    }
    return false;
  }

  /** The framework says "not found" also of a value behind the "?" that it could not read. */
  private static boolean noNumber(WebApplicationException failed, UriInfo address) {
    return failed.getCause() instanceof IllegalArgumentException
        && !address.getQueryParameters().isEmpty();
  }

  private static Response fault(Throwable failure) {
    LOG.error("a request failed", failure);
    return plain(
        Problem.SERVER_FAULT, "That is our fault, not yours. Nothing was lost; try again later.");
  }

  private static Response malformed() {
    return plain(
        Problem.MALFORMED,
        "The request is not the JSON this address expects. Nothing was changed.");
  }

  private static Response plain(Problem problem, String detail) {
    return ProblemView.response(problem, detail, Map.of());
  }

  private static Optional<ProblemException> cause(Throwable failure) {
    for (Throwable t = failure; t != null; t = t.getCause()) {
      if (t instanceof ProblemException refused) {
        return Optional.of(refused);
      }
    }
    return Optional.empty();
  }
}

package org.mixaccord.api.v1.security;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.annotation.Priority;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.Provider;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Texts;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** A write that carries an {@code Idempotency-Key} happens once; a repeat gets the first answer. */
@Provider
@Priority(Priorities.AUTHORIZATION)
public class OncePerKey implements ContainerRequestFilter, ContainerResponseFilter {
  private static final String HEADER = "Idempotency-Key";
  private static final String HELD = "mixaccord.idempotency-key";
  private static final Duration KEPT = Duration.ofDays(2);

  private final EntityManager entities;
  private final Caller caller;
  private final Clock clock;
  private final ObjectMapper json;

  OncePerKey(EntityManager entities, Caller caller, Clock clock, ObjectMapper json) {
    this.entities = entities;
    this.caller = caller;
    this.clock = clock;
    this.json = json;
  }

  @Override
  @Transactional
  public void filter(ContainerRequestContext request) {
    String key = request.getHeaderString(HEADER);
    Optional<Person> person = caller.person();
    if (key == null || person.isEmpty() || "GET".equals(request.getMethod())) {
      return;
    }
    Texts.line(HEADER, key, 200);
    String what = request.getMethod() + " " + request.getUriInfo().getRequestUri().getRawPath();
    entities
        .createNativeQuery("delete from idempotency where created_at < ?1")
        .setParameter(1, clock.instant().minus(KEPT))
        .executeUpdate();
    int mine =
        entities
            .createNativeQuery(
                "insert into idempotency (person, key, request, created_at)"
                    + " values (?1, ?2, ?3, ?4) on conflict do nothing")
            .setParameter(1, person.get().id())
            .setParameter(2, key)
            .setParameter(3, what)
            .setParameter(4, clock.instant())
            .executeUpdate();
    if (mine == 1) {
      request.setProperty(HELD, key);
      return;
    }
    request.abortWith(firstAnswer(person.get().id(), key, what));
  }

  private Response firstAnswer(String person, String key, String what) {
    List<?> rows =
        entities
            .createNativeQuery(
                "select request, status, body from idempotency where person = ?1 and key = ?2")
            .setParameter(1, person)
            .setParameter(2, key)
            .getResultList();
    Object[] row = rows.isEmpty() ? new Object[3] : (Object[]) rows.get(0);
    if (row[0] != null && !row[0].equals(what)) {
      throw new ProblemException(
          Problem.INVALID, "This Idempotency-Key belongs to another request already.");
    }
    if (row[1] == null) {
      throw new ProblemException(
          Problem.WRONG_STATE, "The first request with this Idempotency-Key is still at work.");
    }
    Response.ResponseBuilder answer = Response.status(((Number) row[1]).intValue());
    if (row[2] != null) {
      answer.type(MediaType.APPLICATION_JSON_TYPE).entity(row[2]);
    }
    return answer.build();
  }

  @Override
  @Transactional
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    Object key = request.getProperty(HELD);
    if (key == null) {
      return;
    }
    String person = caller.required().id();
    if (response.getStatus() >= 400) {
      // Nothing was done, so the key may be used again.
      entities
          .createNativeQuery("delete from idempotency where person = ?1 and key = ?2")
          .setParameter(1, person)
          .setParameter(2, key)
          .executeUpdate();
      return;
    }
    entities
        .createNativeQuery(
            "update idempotency set status = ?3, body = ?4 where person = ?1 and key = ?2")
        .setParameter(1, person)
        .setParameter(2, key)
        .setParameter(3, response.getStatus())
        .setParameter(4, body(response))
        .executeUpdate();
  }

  private String body(ContainerResponseContext response) {
    if (!response.hasEntity()) {
      return null;
    }
    try {
      return json.writeValueAsString(response.getEntity());
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("an answer could not be kept", e);
    }
  }
}

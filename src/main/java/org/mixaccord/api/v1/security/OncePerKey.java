package org.mixaccord.api.v1.security;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.annotation.Priority;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.Provider;
import java.util.Optional;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Texts;
import org.mixaccord.api.v1.json.RoundedFigures;

/** A write that carries an {@code Idempotency-Key} happens once; a repeat gets the first answer. */
@Provider
@Priority(Priorities.AUTHORIZATION)
public class OncePerKey implements ContainerRequestFilter, ContainerResponseFilter {
  private static final String HEADER = "Idempotency-Key";
  private static final String HELD = "mixaccord.idempotency";

  private record Held(String person, String key) {}

  private final RepeatedWrites writes;
  private final Caller caller;
  private final ObjectMapper json;

  OncePerKey(RepeatedWrites writes, Caller caller, RoundedFigures figures) {
    this.writes = writes;
    this.caller = caller;
    this.json = figures.getContext(Object.class);
  }

  @Override
  public void filter(ContainerRequestContext request) {
    String key = request.getHeaderString(HEADER);
    if (key == null || "GET".equals(request.getMethod())) {
      return;
    }
    Optional<Person> person = caller.person();
    if (person.isEmpty()) {
      return;
    }
    Texts.line(HEADER, key, 200);
    String what = request.getMethod() + " " + request.getUriInfo().getRequestUri().getRawPath();
    Optional<RepeatedWrites.FirstAnswer> first = writes.take(person.get().id(), key, what);
    if (first.isEmpty()) {
      request.setProperty(HELD, new Held(person.get().id(), key));
      return;
    }
    Response.ResponseBuilder answer = Response.status(first.get().status());
    if (first.get().body() != null) {
      answer.type(MediaType.APPLICATION_JSON_TYPE).entity(first.get().body());
    }
    request.abortWith(answer.build());
  }

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    if (!(request.getProperty(HELD) instanceof Held held)) {
      return;
    }
    if (response.getStatus() >= 400) {
      writes.giveBack(held.person(), held.key());
    } else {
      writes.keep(
          held.person(),
          held.key(),
          new RepeatedWrites.FirstAnswer(response.getStatus(), body(response)));
    }
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

package org.mixaccord.api.v1.people;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.PATCH;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.time.Clock;
import java.time.Instant;
import org.mixaccord.accounts.AccessToken;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** The person signed in, and their keys for scripts. */
@Path("/api/v1")
public class MeResource {
  /** What a person may change of themselves; null leaves a field as it is. */
  public record Changes(String name, String email, String password, String oldPassword) {}

  /** A token's name. */
  public record TokenName(String name) {}

  /** A token just made; the secret is shown this once. */
  public record NewToken(String id, String token) {}

  /** A token without its secret. */
  public record TokenView(String id, String name, Instant createdAt) {}

  private final Caller caller;
  private final SignIn signIn;
  private final Clock clock;

  MeResource(Caller caller, SignIn signIn, Clock clock) {
    this.caller = caller;
    this.signIn = signIn;
    this.clock = clock;
  }

  @GET
  @Path("/me")
  public SessionResource.PersonView me() {
    return SessionResource.PersonView.of(caller.required());
  }

  @PATCH
  @Path("/me")
  @Transactional
  public SessionResource.PersonView change(Changes changes) {
    Person me = caller.required();
    if (changes.name() != null) {
      me.rename(changes.name());
    }
    if (changes.email() != null) {
      me.takeEmail(changes.email());
    }
    if (changes.password() != null) {
      String old = changes.oldPassword() == null ? "" : changes.oldPassword();
      if (me.hasPassword() && !me.knowsPassword(old)) {
        throw new ProblemException(
            Problem.WRONG_CREDENTIALS, "The password you have now does not match.");
      }
      me.choosePassword(changes.password());
    }
    return SessionResource.PersonView.of(me);
  }

  @POST
  @Path("/access-tokens")
  @Transactional
  public Response makeToken(TokenName body) {
    String secret = Ids.secret();
    AccessToken token = AccessToken.make(caller.required(), body.name(), secret, clock.instant());
    return Response.status(201).entity(new NewToken(token.id(), secret)).build();
  }

  @GET
  @Path("/access-tokens")
  @Transactional
  public Response tokens(@BeanParam Paging paging) {
    return paging.page(
        AccessToken.of(caller.required()).stream()
            .map(t -> new TokenView(t.id(), t.name(), t.createdAt()))
            .toList());
  }

  @DELETE
  @Path("/access-tokens/{id}")
  @Transactional
  public void dropToken(@PathParam("id") String id) {
    signIn.dropToken(caller.required(), id);
  }
}

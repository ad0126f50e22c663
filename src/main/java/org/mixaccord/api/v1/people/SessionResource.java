package org.mixaccord.api.v1.people;

import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.api.v1.security.Anybody;
import org.mixaccord.api.v1.security.SessionCookie;

/** Setting the server up, signing in and out. */
@Path("/api/v1")
public class SessionResource {
  /** Address and password. */
  public record Credentials(String email, String password) {}

  /** The owner to be. */
  public record Owner(String name, String email, String password) {}

  private final SignIn signIn;
  private final SessionCookie cookie;
  private final Caller caller;

  SessionResource(SignIn signIn, SessionCookie cookie, Caller caller) {
    this.signIn = signIn;
    this.cookie = cookie;
    this.caller = caller;
  }

  @POST
  @Path("/setup/{token}")
  @Anybody
  public Response setUp(@PathParam("token") String token, Owner owner) {
    SignIn.Opened opened =
        signIn.setUp(token, owner.name(), required("email", owner.email()), owner.password());
    return Response.status(201)
        .entity(PersonView.of(opened.person()))
        .cookie(cookie.carrying(opened.secret()))
        .build();
  }

  private static String required(String field, String value) {
    return org.mixaccord.accounts.Texts.line(field, value, 254);
  }

  /** Who is signed in in this browser; that nobody is, is an answer too. */
  @GET
  @Path("/session")
  @Anybody
  public Signed signedIn() {
    return new Signed(caller.person().map(PersonView::of).orElse(null));
  }

  @POST
  @Path("/session")
  @Anybody
  public Response signIn(Credentials given) {
    caller.session().ifPresent(signIn::out);
    return opened(signIn.byPassword(given.email(), given.password()));
  }

  @POST
  @Path("/sign-in-links/{token}/use")
  @Anybody
  public Response useLink(@PathParam("token") String token) {
    caller.session().ifPresent(signIn::out);
    return opened(signIn.byLink(token));
  }

  @DELETE
  @Path("/session")
  @Anybody
  public Response signOut() {
    caller.session().ifPresent(signIn::out);
    return Response.noContent().cookie(cookie.gone()).build();
  }

  private Response opened(SignIn.Opened opened) {
    return Response.noContent().cookie(cookie.carrying(opened.secret())).build();
  }

  /** Whoever is signed in; null when nobody is. */
  public record Signed(PersonView person) {}

  /** A person as they see themselves. */
  public record PersonView(
      String id, String name, String email, boolean owner, boolean hasPassword) {
    static PersonView of(Person person) {
      return new PersonView(
          person.id(),
          person.name(),
          person.email().orElse(null),
          person.owner(),
          person.hasPassword());
    }
  }
}

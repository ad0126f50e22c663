package org.mixaccord.api.v1.people;

import io.quarkus.mailer.Mail;
import io.quarkus.mailer.Mailer;
import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.logging.Logger;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Invitation;
import org.mixaccord.accounts.Links;
import org.mixaccord.accounts.Projects;
import org.mixaccord.accounts.Role;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.api.v1.security.Anybody;
import org.mixaccord.api.v1.security.SessionCookie;

/** Inviting people into a project, and accepting. */
@Path("/api/v1")
public class InvitationResource {
  private static final Logger LOG = Logger.getLogger(InvitationResource.class);

  /** Whom to invite as what. */
  public record Invite(String email, String role, Integer people) {}

  /** An invitation just made; the token is shown this once. */
  public record Invited(
      String id,
      String token,
      String link,
      Instant expires,
      boolean mailed,
      boolean thisComputerOnly) {}

  /** An invitation without its token. */
  public record InvitationView(
      String id, String email, String role, int people, int used, String by, Instant expires) {}

  /** Who accepts. */
  public record Acceptance(String name, String password) {}

  /** Who joined what. */
  public record Accepted(String person, String member, String project) {}

  private final Projects projects;
  private final Doorkeeper doorkeeper;
  private final Caller caller;
  private final Links links;
  private final SignIn signIn;
  private final SessionCookie cookie;
  private final Clock clock;
  private final Mailer mailer;

  @ConfigProperty(name = "quarkus.mailer.mock")
  boolean mailOff;

  InvitationResource(
      Projects projects,
      Doorkeeper doorkeeper,
      Caller caller,
      Links links,
      SignIn signIn,
      SessionCookie cookie,
      Clock clock,
      Mailer mailer) {
    this.projects = projects;
    this.doorkeeper = doorkeeper;
    this.caller = caller;
    this.links = links;
    this.signIn = signIn;
    this.cookie = cookie;
    this.clock = clock;
    this.mailer = mailer;
  }

  @POST
  @Path("/projects/{p}/invitations")
  @Transactional
  public Response invite(@PathParam("p") String project, Invite body) {
    Access access = doorkeeper.project(project);
    Projects.Invited made =
        projects.invite(
            access, body.email(), Role.of(body.role()), body.people() == null ? 1 : body.people());
    String link = links.invitation(made.secret());
    boolean mailed = mail(made.invitation(), link);
    return Response.status(201)
        .entity(
            new Invited(
                made.invitation().id(),
                made.secret(),
                link,
                made.invitation().expiresAt(),
                mailed,
                !links.reachable()))
        .build();
  }

  /** No title or artist in the mail: it may be read by others. */
  private boolean mail(Invitation invitation, String link) {
    Optional<String> to = invitation.email();
    if (to.isEmpty() || mailOff) {
      return false;
    }
    try {
      mailer.send(
          Mail.withText(
              to.get(),
              "You are invited to listen",
              invitation.invitedBy().name()
                  + " invites you to listen to a mix and to say what you think.\n\n"
                  + link
                  + "\n\nThe link is for you alone and works for thirty days."));
      projects.mailed(invitation.id());
      return true;
    } catch (RuntimeException e) {
      LOG.warn("an invitation could not be mailed; its link can be copied instead", e);
      return false;
    }
  }

  @GET
  @Path("/projects/{p}/invitations")
  @Transactional
  public Response list(@PathParam("p") String project, @BeanParam Paging paging) {
    Access access = doorkeeper.project(project);
    access.require(Act.MANAGE_PEOPLE);
    return paging.page(
        Invitation.open(access.project(), clock.instant()).stream()
            .map(
                i ->
                    new InvitationView(
                        i.id(),
                        i.email().orElse(null),
                        i.role().wire(),
                        i.people(),
                        i.used(),
                        i.invitedBy().name(),
                        i.expiresAt()))
            .toList());
  }

  @DELETE
  @Path("/projects/{p}/invitations/{i}")
  @Transactional
  public void revoke(@PathParam("p") String project, @PathParam("i") String id) {
    Access access = doorkeeper.project(project);
    access.require(Act.MANAGE_PEOPLE);
    Invitation.<Invitation>findByIdOptional(id)
        .filter(i -> i.project().id().equals(access.project().id()))
        .orElseThrow(Doorkeeper::notFound)
        .revoke(clock.instant());
  }

  @POST
  @Path("/invitations/{token}/acceptance")
  @Transactional
  @Anybody
  public Response accept(@PathParam("token") String token, Acceptance body) {
    Projects.Joined joined = projects.accept(token, caller.person(), body.name(), body.password());
    Response.ResponseBuilder answer =
        Response.status(201)
            .entity(
                new Accepted(
                    joined.member().person().id(),
                    joined.member().id(),
                    joined.member().project().id()));
    if (joined.newPerson()) {
      answer.cookie(cookie.carrying(signIn.open(joined.member().person()).secret()));
    }
    return answer.build();
  }
}

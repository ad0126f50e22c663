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
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Links;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.ProjectPeople;
import org.mixaccord.accounts.Projects;
import org.mixaccord.accounts.Role;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** The people of a project. */
@Path("/api/v1")
public class MemberResource {
  /** What may be changed of a member; null leaves a field as it is. */
  public record Changes(String role, Boolean lastWord, Boolean approver, Boolean mayWrite) {}

  /** A link that signs its person in once. */
  public record SignInLink(String link, boolean thisComputerOnly) {}

  private final Doorkeeper doorkeeper;
  private final Projects projects;
  private final SignIn signIn;
  private final Links links;

  MemberResource(Doorkeeper doorkeeper, Projects projects, SignIn signIn, Links links) {
    this.doorkeeper = doorkeeper;
    this.projects = projects;
    this.signIn = signIn;
    this.links = links;
  }

  @GET
  @Path("/projects/{p}/members")
  @Transactional
  public Response list(@PathParam("p") String project, @BeanParam Paging paging) {
    ProjectPeople people = doorkeeper.project(project).people();
    return paging.page(people.members().stream().map(m -> MemberView.of(m, people)).toList());
  }

  @PATCH
  @Path("/projects/{p}/members/{m}")
  @Transactional
  public MemberView change(
      @PathParam("p") String project, @PathParam("m") String member, Changes changes) {
    Access access = doorkeeper.project(project);
    Member changed =
        projects.change(
            access,
            member,
            new Projects.Settings(
                changes.role() == null ? null : Role.of(changes.role()),
                changes.lastWord(),
                changes.approver(),
                changes.mayWrite()));
    return MemberView.of(changed, ProjectPeople.of(access.project()));
  }

  @DELETE
  @Path("/projects/{p}/members/{m}")
  @Transactional
  public void remove(@PathParam("p") String project, @PathParam("m") String member) {
    projects.remove(doorkeeper.project(project), member);
  }

  /**
   * A sign-in link for another device: one's own, or one for a member who has no password and no
   * address, made by whoever looks after the people.
   */
  @POST
  @Path("/projects/{p}/members/{m}/sign-in-links")
  @Transactional
  public Response signInLink(@PathParam("p") String project, @PathParam("m") String memberId) {
    Access access = doorkeeper.project(project);
    Member member = access.people().member(memberId).orElseThrow(Doorkeeper::notFound);
    boolean own = member.id().equals(access.member().id());
    if (!own) {
      access.require(Act.MANAGE_PEOPLE);
      // Such a link opens everything its person may see, so it must not reach past this project.
      if (member.person().owner()
          || member.person().hasPassword()
          || Member.of(member.person()).size() > 1) {
        throw new ProblemException(
            Problem.NOT_ALLOWED,
            member.person().name() + " has an account of their own and makes such links alone.");
      }
    }
    String link = links.signIn(signIn.linkFor(member.person()));
    return Response.status(201).entity(new SignInLink(link, !links.reachable())).build();
  }
}

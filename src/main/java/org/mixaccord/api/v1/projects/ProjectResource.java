package org.mixaccord.api.v1.projects;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.PATCH;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.util.List;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.ApprovalStays;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Project;
import org.mixaccord.accounts.Projects;
import org.mixaccord.accounts.Role;
import org.mixaccord.api.v1.Paging;

/** Projects, their switches and what was agreed for delivery. */
@Path("/api/v1")
public class ProjectResource {
  /** A project to begin. */
  public record NewProject(String title, String artist, String role) {}

  /** The new project. */
  public record Created(String id) {}

  /** What may be changed; null leaves a field as it is. */
  public record Changes(
      String title,
      String artist,
      Boolean gatherNotes,
      Boolean downloads,
      Boolean metersOpen,
      String approvalStays) {}

  /** A project as one of its people sees it. */
  public record ProjectView(
      String id,
      String title,
      String artist,
      boolean gatherNotes,
      boolean downloads,
      boolean metersOpen,
      String approvalStays,
      You you,
      List<String> may) {
    static ProjectView of(Access access) {
      Project project = access.project();
      return new ProjectView(
          project.id(),
          project.title(),
          project.artist(),
          project.gatherNotes(),
          project.downloads(),
          project.metersOpen(),
          project.approvalStays().wire(),
          You.of(access),
          You.may(access));
    }
  }

  private final Projects projects;
  private final Doorkeeper doorkeeper;
  private final Caller caller;

  ProjectResource(Projects projects, Doorkeeper doorkeeper, Caller caller) {
    this.projects = projects;
    this.doorkeeper = doorkeeper;
    this.caller = caller;
  }

  @POST
  @Path("/projects")
  @Transactional
  public Response begin(NewProject body) {
    Role role = body.role() == null ? Role.ENGINEER : Role.of(body.role());
    Project project = projects.begin(caller.required(), body.title(), body.artist(), role);
    return Response.status(201).entity(new Created(project.id())).build();
  }

  @GET
  @Path("/projects")
  @Transactional
  public Response list(@BeanParam Paging paging) {
    return paging.page(
        Member.of(caller.required()).stream()
            .map(m -> ProjectView.of(doorkeeper.project(m.project().id())))
            .toList());
  }

  @GET
  @Path("/projects/{p}")
  @Transactional
  public ProjectView get(@PathParam("p") String id) {
    return ProjectView.of(doorkeeper.project(id));
  }

  @PATCH
  @Path("/projects/{p}")
  @Transactional
  public ProjectView change(@PathParam("p") String id, Changes changes) {
    Access access = doorkeeper.project(id);
    access.require(Act.EDIT_SPEC);
    access.project().rename(changes.title(), changes.artist());
    access
        .project()
        .switchTo(
            changes.gatherNotes(),
            changes.downloads(),
            changes.metersOpen(),
            changes.approvalStays() == null ? null : ApprovalStays.of(changes.approvalStays()));
    return ProjectView.of(doorkeeper.project(id));
  }

  @GET
  @Path("/projects/{p}/delivery-spec")
  @Transactional
  public SpecView spec(@PathParam("p") String id) {
    return SpecView.of(doorkeeper.project(id).project().spec());
  }

  @PUT
  @Path("/projects/{p}/delivery-spec")
  @Transactional
  public SpecView agree(@PathParam("p") String id, SpecView body) {
    Access access = doorkeeper.project(id);
    access.require(Act.EDIT_SPEC);
    access.project().agreeOn(body.spec());
    return SpecView.of(access.project().spec());
  }
}

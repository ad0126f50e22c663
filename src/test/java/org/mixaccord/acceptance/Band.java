package org.mixaccord.acceptance;

import java.util.Map;

/** A project with one person of each role, a stranger, and a song. */
record Band(
    String project,
    String song,
    Api engineer,
    Api artist,
    Api manager,
    Api listener,
    Api stranger) {

  static Band assemble() {
    Api engineer = Owner.signedIn();
    String project =
        engineer.make("/projects", Map.of("title", "Harbour Lights", "artist", "The Invented"));
    String song = engineer.make("/projects/" + project + "/songs", Map.of("title", "Slack Tide"));
    return new Band(
        project,
        song,
        engineer,
        Api.join(invite(engineer, project, "artist"), "Asta"),
        Api.join(invite(engineer, project, "manager"), "Milo"),
        Api.join(invite(engineer, project, "listener"), "Lou"),
        stranger(engineer));
  }

  static String invite(Api by, String project, String role) {
    return by.post("/projects/" + project + "/invitations", Map.of("role", role))
        .then()
        .statusCode(201)
        .extract()
        .path("token");
  }

  private static Api stranger(Api engineer) {
    String other =
        engineer.make("/projects", Map.of("title", "Elsewhere", "artist", "Somebody Else"));
    return Api.join(invite(engineer, other, "artist"), "Stray");
  }
}

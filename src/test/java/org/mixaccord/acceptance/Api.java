package org.mixaccord.acceptance;

import static io.restassured.RestAssured.given;

import io.restassured.http.ContentType;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.util.Map;

/** One person at the API, by cookie. Nobody until they have signed in. */
final class Api {
  private final String cookie;

  private Api(String cookie) {
    this.cookie = cookie;
  }

  static Api nobody() {
    return new Api(null);
  }

  /** Somebody who has signed in elsewhere. */
  static Api with(String cookie) {
    return new Api(cookie);
  }

  /** Signs in by address and password. */
  static Api signIn(String email, String password) {
    Response answer =
        given()
            .contentType(ContentType.JSON)
            .body(Map.of("email", email, "password", password))
            .post("/api/v1/session");
    answer.then().statusCode(204);
    return new Api(answer.cookie("mixaccord_session"));
  }

  /** Accepts an invitation as somebody new. */
  static Api join(String token, String name) {
    Response answer =
        given()
            .contentType(ContentType.JSON)
            .body(Map.of("name", name))
            .post("/api/v1/invitations/" + token + "/acceptance");
    answer.then().statusCode(201);
    return new Api(answer.cookie("mixaccord_session"));
  }

  String cookie() {
    return cookie;
  }

  RequestSpecification as() {
    RequestSpecification request = given();
    return cookie == null ? request : request.cookie("mixaccord_session", cookie);
  }

  RequestSpecification json(Object body) {
    return as().contentType(ContentType.JSON).body(body);
  }

  Response get(String path) {
    return as().get("/api/v1" + path);
  }

  Response post(String path, Object body) {
    return json(body).post("/api/v1" + path);
  }

  Response post(String path) {
    return as().post("/api/v1" + path);
  }

  Response patch(String path, Object body) {
    return json(body).patch("/api/v1" + path);
  }

  Response put(String path, Object body) {
    return json(body).put("/api/v1" + path);
  }

  Response delete(String path) {
    return as().delete("/api/v1" + path);
  }

  /** Makes something and returns its id. */
  String make(String path, Object body) {
    Response answer = post(path, body);
    answer.then().statusCode(201);
    return answer.path("id");
  }
}

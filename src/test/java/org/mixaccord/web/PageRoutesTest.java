package org.mixaccord.web;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.allOf;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@QuarkusTest
class PageRoutesTest {
  @ParameterizedTest
  @ValueSource(
      strings = {
        "/",
        "/projects/7",
        "/songs/7",
        "/songs/7/list",
        "/songs/7/approve",
        "/songs/7/figures",
        "/me",
        "/sign-in",
        "/in/abc",
        "/setup/abc",
        "/join/abc"
      })
  void everyAddressOfThePageServesTheDocumentUnderAStrictPolicy(String address) {
    given()
        .get(address)
        .then()
        .statusCode(200)
        .contentType("text/html")
        .body(containsString("<mix-app"))
        .header(
            "Content-Security-Policy",
            allOf(
                containsString("default-src 'none'"),
                containsString("frame-ancestors 'none'"),
                not(containsString("unsafe-inline")),
                not(containsString("unsafe-eval"))));
  }

  @ParameterizedTest
  @ValueSource(strings = {"/nowhere", "/songs", "/songs/7/other"})
  void anUnknownAddressIsNotFound(String address) {
    given().get(address).then().statusCode(404);
  }
}

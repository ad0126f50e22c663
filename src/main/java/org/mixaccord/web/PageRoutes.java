package org.mixaccord.web;

import io.vertx.core.http.HttpMethod;
import io.vertx.core.http.HttpServerResponse;
import io.vertx.ext.web.Router;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.util.List;

/**
 * Serves the page at each of its addresses, and says what a browser may load on it.
 *
 * <p>There is one document; which page it shows is decided in the browser by the address. The list
 * is that of {@code routes.ts}. An address that does not exist is a 404; a person who opens one, an
 * old link for example, gets the document with it, which says so.
 */
@ApplicationScoped
public class PageRoutes {
  private static final List<String> ADDRESSES =
      List.of(
          "/projects/:project",
          "/songs/:song",
          "/songs/:song/list",
          "/songs/:song/approve",
          "/songs/:song/figures",
          "/me",
          "/sign-in",
          "/in/:token",
          "/setup/:token",
          "/join/:token");

  /** Neither a file nor an address for programs. */
  private static final String ELSEWHERE = "^/(?!api/|q/)[^.]*$";

  /** Everything from this server only; nothing inline; never inside another site's frame. */
  private static final String CONTENT_POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
          + "media-src 'self' blob:; connect-src 'self'; worker-src 'self' blob:; "
          + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

  void register(@Observes Router router) {
    router.route("/").order(-10).handler(PageRoutes::sayWhatMayLoad);
    for (String address : ADDRESSES) {
      router.route(HttpMethod.GET, address).handler(context -> context.reroute("/"));
      router.route(HttpMethod.HEAD, address).handler(context -> context.reroute("/"));
    }
    router.routeWithRegex(HttpMethod.GET, ELSEWHERE).handler(PageRoutes::sayThatNothingIsHere);
  }

  private static void sayThatNothingIsHere(RoutingContext context) {
    String accepted = context.request().getHeader("Accept");
    if (context.normalizedPath().equals("/")
        || accepted == null
        || !accepted.contains("text/html")) {
      context.next();
      return;
    }
    context.response().setStatusCode(404);
    context.reroute("/");
  }

  private static void sayWhatMayLoad(RoutingContext context) {
    HttpServerResponse response = context.response();
    response.putHeader("Content-Security-Policy", CONTENT_POLICY);
    response.putHeader("Cache-Control", "no-cache");
    context.next();
  }
}

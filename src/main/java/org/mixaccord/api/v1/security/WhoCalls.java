package org.mixaccord.api.v1.security;

import io.vertx.core.http.HttpServerRequest;
import jakarta.annotation.Priority;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerRequestFilter;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Cookie;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.ext.Provider;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.accounts.AccessToken;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/**
 * Finds out who calls: by access token, else by cookie. A call that relies on a cookie, or could
 * set one, is refused when it comes from another site. Who is not signed in gets no further than
 * here unless the route is for {@link Anybody}, so that no answer tells them what exists.
 */
@Provider
@Priority(Priorities.AUTHENTICATION)
public class WhoCalls implements ContainerRequestFilter {
  private static final String BEARER = "bearer ";
  private static final Set<String> SAFE = Set.of("GET", "HEAD", "OPTIONS");

  private final SignIn signIn;
  private final Caller caller;
  private final Origins origins;

  @Context HttpServerRequest http;
  @Context ResourceInfo resource;

  WhoCalls(SignIn signIn, Caller caller, Origins origins) {
    this.signIn = signIn;
    this.caller = caller;
    this.origins = origins;
  }

  @Override
  public void filter(ContainerRequestContext request) {
    String authorization = request.getHeaderString(HttpHeaders.AUTHORIZATION);
    if (authorization != null) {
      byToken(authorization);
      return;
    }
    Cookie cookie = request.getCookies().get(SessionCookie.NAME);
    if (cookie != null || !SAFE.contains(request.getMethod())) {
      refuseOtherSites(request);
    }
    if (cookie != null && !cookie.getValue().isEmpty()) {
      signIn.session(cookie.getValue()).ifPresent(caller::bySession);
    }
    if (!resource.getResourceMethod().isAnnotationPresent(Anybody.class)) {
      caller.required();
    }
  }

  private void byToken(String authorization) {
    Optional<AccessToken> token =
        authorization.toLowerCase(Locale.ROOT).startsWith(BEARER)
            ? signIn.token(authorization.substring(BEARER.length()).strip())
            : Optional.empty();
    caller.byToken(
        token.orElseThrow(
            () ->
                new ProblemException(
                    Problem.NOT_SIGNED_IN, "This access token is not valid, or no longer.")));
  }

  private void refuseOtherSites(ContainerRequestContext request) {
    String site = request.getHeaderString("Sec-Fetch-Site");
    String origin = request.getHeaderString("Origin");
    if ("cross-site".equals(site)
        || (origin != null && !origins.ours(origin, http.localAddress().port()))) {
      throw new ProblemException(
          Problem.CROSS_SITE, "Open Mixaccord itself; it takes nothing by way of another site.");
    }
  }
}

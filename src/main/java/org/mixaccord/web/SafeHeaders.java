package org.mixaccord.web;

import io.vertx.core.MultiMap;
import io.vertx.ext.web.Router;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.util.Map;

/**
 * What every answer tells a browser it may do with it, unless a page or a download has told it
 * something stricter: of two policies in one answer both would hold.
 */
@ApplicationScoped
public class SafeHeaders {
  private static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy",
          "default-src 'self'; media-src 'self' blob:; object-src 'none'; base-uri 'none'; "
              + "frame-ancestors 'none'",
          "X-Content-Type-Options",
          "nosniff",
          "Referrer-Policy",
          "same-origin",
          "X-Frame-Options",
          "DENY");

  void register(@Observes Router router) {
    router.route().order(-100).handler(SafeHeaders::set);
  }

  private static void set(RoutingContext context) {
    context.addHeadersEndHandler(
        done -> {
          MultiMap headers = context.response().headers();
          HEADERS.forEach(
              (name, value) -> {
                if (!headers.contains(name)) {
                  headers.set(name, value);
                }
              });
        });
    context.next();
  }
}

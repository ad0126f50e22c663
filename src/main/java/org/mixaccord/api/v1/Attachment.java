package org.mixaccord.api.v1;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;

/** What makes a browser keep an answer as a file instead of showing it. */
public final class Attachment {
  private Attachment() {}

  /** RFC 6266 with the name in the form of RFC 8187. */
  public static String named(String fileName) {
    String plain = fileName.replaceAll("[^A-Za-z0-9._ -]", "_");
    String encoded = URLEncoder.encode(fileName, StandardCharsets.UTF_8).replace("+", "%20");
    return "attachment; filename=\"" + plain + "\"; filename*=UTF-8''" + encoded;
  }
}

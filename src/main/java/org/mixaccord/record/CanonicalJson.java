package org.mixaccord.record;

import java.util.Map;
import java.util.TreeMap;

/** Flat objects of strings and whole numbers in the canonical form of RFC 8785. */
final class CanonicalJson {
  private CanonicalJson() {}

  /**
   * Writes an object.
   *
   * @param fields strings, longs below 2^53 or null by name; names are ASCII, so that sorting by
   *     UTF-16 units (RFC 8785, 3.2.3) is plain string order
   */
  static String object(Map<String, Object> fields) {
    StringBuilder json = new StringBuilder("{");
    new TreeMap<>(fields)
        .forEach(
            (name, value) -> {
              if (json.length() > 1) {
                json.append(',');
              }
              string(json, name);
              json.append(':');
              if (value instanceof String text) {
                string(json, text);
              } else {
                json.append(value);
              }
            });
    return json.append('}').toString();
  }

  /** RFC 8785, 3.2.2.2: two-letter escapes where there are some, else lower-case hexadecimal. */
  private static void string(StringBuilder json, String text) {
    json.append('"');
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      switch (c) {
        case '"' -> json.append("\\\"");
        case '\\' -> json.append("\\\\");
        case '\b' -> json.append("\\b");
        case '\f' -> json.append("\\f");
        case '\n' -> json.append("\\n");
        case '\r' -> json.append("\\r");
        case '\t' -> json.append("\\t");
        default -> {
          if (c < 0x20) {
            json.append("\\u00").append(Character.forDigit(c >> 4, 16));
            json.append(Character.forDigit(c & 15, 16));
          } else {
            json.append(c);
          }
        }
      }
    }
    json.append('"');
  }
}

package org.mixaccord.acceptance;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What docs/api.md says, as its readers use it. */
final class ApiPage {
  private static final Pattern PROBLEM =
      Pattern.compile("(?m)^### ([a-z-]+) \\((\\d{3})\\)\\n(.+)\\n");

  private ApiPage() {}

  private static String text() throws IOException {
    return Files.readString(Path.of("docs/api.md"));
  }

  /** The script of the whole round. */
  static String round() throws IOException {
    String text = text();
    int start = text.indexOf("```sh\n#!/bin/bash\n") + "```sh\n".length();
    return text.substring(start, text.indexOf("```\n", start));
  }

  /** Status by code, of every problem that has a paragraph. */
  static Map<String, Integer> problems() throws IOException {
    Map<String, Integer> problems = new TreeMap<>();
    Matcher matcher = PROBLEM.matcher(text());
    while (matcher.find()) {
      problems.put(matcher.group(1), Integer.valueOf(matcher.group(2)));
    }
    return problems;
  }
}

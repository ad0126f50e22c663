package org.mixaccord.filenames;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.function.Consumer;

/** The word tables of this package. */
final class Table {
  private Table() {}

  /** Hands each line that is no comment to somebody, cut at its tabs. */
  static void lines(String name, Consumer<String[]> each) {
    try (InputStream in = Table.class.getResourceAsStream(name);
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        if (!line.isBlank() && !line.startsWith("#")) {
          each.accept(line.split("\t"));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException("word table " + name, e);
    }
  }
}

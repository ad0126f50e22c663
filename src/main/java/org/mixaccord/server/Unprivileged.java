package org.mixaccord.server;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * How the database gives up root, which it refuses to run as.
 *
 * <p>An ordinary user needs nothing. Root first tries a user namespace, in which the same user is
 * nobody: files stay root's. Where namespaces are blocked it becomes the user {@code nobody}, who
 * must then be able to reach the folder.
 */
record Unprivileged(List<String> prefix, String owner) {
  private static final int NOBODY = 65534;

  static Unprivileged here() throws IOException {
    int uid = (Integer) Files.getAttribute(Path.of("/proc/self"), "unix:uid");
    if (uid != 0) {
      return new Unprivileged(List.of(), "");
    }
    for (Unprivileged way : List.of(namespace(), nobody())) {
      if (Command.of(way.prefix, "true").run(10).ok()) {
        return way;
      }
    }
    throw new DatabaseUnavailable(
        "Mixaccord runs as root here and neither unshare nor setpriv can give root up for the"
            + " database. Start it as an ordinary user");
  }

  static Unprivileged namespace() {
    return new Unprivileged(List.of("unshare", "-U"), "0:0");
  }

  static Unprivileged nobody() {
    return new Unprivileged(
        List.of("setpriv", "--reuid=" + NOBODY, "--regid=" + NOBODY, "--clear-groups"),
        NOBODY + ":" + NOBODY);
  }

  /** Hands a file or a whole folder to the user the database runs as. */
  void own(Path path) throws IOException {
    if (prefix.isEmpty()) {
      return;
    }
    String now = Files.getAttribute(path, "unix:uid") + ":" + Files.getAttribute(path, "unix:gid");
    if (!now.equals(owner)) {
      Command.of(List.of(), "chown", "-R", owner, path.toString()).must(120);
    }
  }

  /** Says in words which folder stands in the way, before the database stumbles over it. */
  void mustReach(Path folder) throws IOException {
    if (!prefix.isEmpty() && !Command.of(prefix, "test", "-x", folder.toString()).run(10).ok()) {
      throw new DatabaseUnavailable(
          "The database may not run as root and its unprivileged user cannot reach "
              + folder
              + ". Choose a data folder outside root's home (MIXACCORD_DATA_DIR), or start"
              + " Mixaccord as an ordinary user");
    }
  }

  Command command(String... words) {
    return Command.of(prefix, words);
  }
}

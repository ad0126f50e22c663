package org.mixaccord.songs;

import java.util.List;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;

/** Files of a song that could not be used, and that nobody has brought anew. */
public final class UnusableFiles {
  private UnusableFiles() {}

  /**
   * How many there are that the reader should know of: engineers of all, everybody else of their
   * own. A bounce is made up for by a later usable one of its kind, a part by one in its place.
   */
  public static int count(Song song, Access reader) {
    List<Bounce> bounces = Bounce.of(song);
    int found = 0;
    for (int i = 0; i < bounces.size(); i++) {
      Bounce bounce = bounces.get(i);
      boolean open =
          bounce.state() == AudioState.FAILED
              && bounces.subList(i + 1, bounces.size()).stream()
                  .noneMatch(b -> b.ready() && b.kind() == bounce.kind());
      if (open && concerns(reader, bounce.uploader().id())) {
        found++;
      }
    }
    for (Stem stem : Stem.failedOf(song)) {
      found += concerns(reader, stem.uploader().id()) ? 1 : 0;
    }
    return found;
  }

  private static boolean concerns(Access reader, String uploader) {
    return reader.may(Act.HEAR_PRIVATE) || uploader.equals(reader.person().id());
  }
}

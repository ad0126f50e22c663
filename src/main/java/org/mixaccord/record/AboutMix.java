package org.mixaccord.record;

import java.util.Optional;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Role;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.SongDoor;

/**
 * The mix a note is about, and where on it.
 *
 * @param from in seconds of the mix; null for the whole of it
 * @param to null for a moment
 */
record AboutMix(Bounce bounce, Double from, Double to) {
  /**
   * What somebody's words are about when another wrote them down: a mix that was not sent is known
   * to engineers and its uploader alone, so anybody else speaks of the newest that was sent. Before
   * any was sent the note waits with its mix.
   */
  AboutMix as(Person author, SongDoor.ToSong in, Places places) {
    if (bounce.sent() || hears(author, in)) {
      return this;
    }
    return newestSent(in).map(sent -> on(sent, places)).orElse(this);
  }

  private boolean hears(Person author, SongDoor.ToSong in) {
    return author.id().equals(in.access().person().id())
        || author.id().equals(bounce.uploader().id())
        || in.access()
            .people()
            .ofPerson(author.id())
            .filter(member -> member.role() == Role.ENGINEER)
            .isPresent();
  }

  private static Optional<Bounce> newestSent(SongDoor.ToSong in) {
    return Bounce.of(in.song()).stream()
        .filter(b -> b.kind() == BounceKind.MAIN && b.sent())
        .reduce((one, next) -> next.number() > one.number() ? next : one);
  }

  private AboutMix on(Bounce sent, Places places) {
    if (from == null) {
      return new AboutMix(sent, null, null);
    }
    Places.Shown shown = places.show(bounce, sent, from, to == null ? from : to);
    if (shown.fromSeconds().isEmpty()) {
      return new AboutMix(sent, null, null);
    }
    return new AboutMix(
        sent, shown.fromSeconds().get(), to == null ? null : shown.toSeconds().orElse(null));
  }
}

package org.mixaccord.songs;

import jakarta.enterprise.context.ApplicationScoped;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Doorkeeper;

/** Lets the caller to a song, a bounce or a part, or says that there is nothing here for them. */
@ApplicationScoped
public class SongDoor {
  /** A song and the caller's access to its project. */
  public record ToSong(Access access, Song song) {}

  /** A bounce the caller may hear, and their access to its project. */
  public record ToBounce(Access access, Bounce bounce) {
    public Song song() {
      return bounce.song();
    }
  }

  /** A part and the caller's access to its project. */
  public record ToStem(Access access, Stem stem) {}

  private final Doorkeeper doorkeeper;

  SongDoor(Doorkeeper doorkeeper) {
    this.doorkeeper = doorkeeper;
  }

  public ToSong song(String songId) {
    Song song = Song.<Song>findByIdOptional(songId).orElseThrow(Doorkeeper::notFound);
    return new ToSong(doorkeeper.project(song.project().id()), song);
  }

  public ToBounce bounce(String bounceId) {
    Bounce bounce = Bounce.<Bounce>findByIdOptional(bounceId).orElseThrow(Doorkeeper::notFound);
    Access access = doorkeeper.project(bounce.song().project().id());
    if (!bounce.mayBeHeardBy(access)) {
      throw Doorkeeper.notFound();
    }
    return new ToBounce(access, bounce);
  }

  public ToStem stem(String stemId) {
    Stem stem =
        Stem.<Stem>findByIdOptional(stemId).filter(Stem::inForce).orElseThrow(Doorkeeper::notFound);
    Access access = doorkeeper.project(stem.bounce().song().project().id());
    if (!stem.bounce().mayBeHeardBy(access)) {
      throw Doorkeeper.notFound();
    }
    return new ToStem(access, stem);
  }
}

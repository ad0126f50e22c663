package org.mixaccord.filenames;

import java.util.List;

/**
 * What is known where the files are dropped.
 *
 * @param songs the songs they may belong to
 * @param artist the artist's name, often written in front; empty if unknown
 * @param project the project's title; empty if unknown
 */
public record NameContext(List<KnownSong> songs, String artist, String project) {
  /** A song there is. */
  public record KnownSong(String id, String title) {}

  public NameContext {
    songs = List.copyOf(songs);
  }
}

package org.mixaccord.songs;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Project;
import org.mixaccord.filenames.FileNames;
import org.mixaccord.filenames.KnownFile;
import org.mixaccord.filenames.NameContext;
import org.mixaccord.filenames.NameContext.KnownSong;
import org.mixaccord.filenames.NameProposal;
import org.mixaccord.filenames.NameProposal.Use;
import org.mixaccord.filenames.NameRemark;
import org.mixaccord.filenames.NameRemarks;
import org.mixaccord.filenames.NamedFile;

/** What is to be said of a bounce's file beside the project's others, to one reader. */
public final class FileRemarks {
  private FileRemarks() {}

  /** Only bounces the reader may hear are held against it: no word tells of a private pass. */
  public static List<NameRemark> of(Bounce bounce, Access access) {
    List<KnownFile> before = new ArrayList<>();
    for (Bounce other : Bounce.of(access.project())) {
      if (other.id().equals(bounce.id())) {
        break;
      }
      if (other.mayBeHeardBy(access) && !other.isHalfOf(bounce)) {
        before.add(known(other));
      }
    }
    return NameRemarks.of(known(bounce), before, context(access.project()));
  }

  /** What names of files are read with in a project. */
  public static NameContext context(Project project) {
    return new NameContext(
        Song.of(project).stream().map(s -> new KnownSong(s.id(), s.title())).toList(),
        project.artist(),
        project.title());
  }

  /** What a main whose uploader named it nothing may be called, by its file's name. */
  public static Optional<String> label(Song song, String fileName) {
    KnownSong known = new KnownSong(song.id(), song.title());
    NamedFile file = new NamedFile(fileName, OptionalLong.empty());
    return FileNames.readFor(known, List.of(file), context(song.project()), Optional.of(Use.BOUNCE))
        .stream()
        .filter(read -> read.kind().filter(BounceKind.MAIN.wire()::equals).isPresent())
        .findFirst()
        .flatMap(NameProposal::label);
  }

  private static KnownFile known(Bounce bounce) {
    Optional<AudioFacts> facts = bounce.facts();
    return new KnownFile(
        bounce.id(),
        bounce.title(),
        bounce.fileName(),
        bounce.song().id(),
        bounce.song().title(),
        bounce.kind().wire(),
        bounce.sha256(),
        facts.map(AudioFacts::pcmSha256),
        facts.map(f -> OptionalInt.of(f.sampleRate())).orElse(OptionalInt.empty()),
        facts.map(AudioFacts::bitDepth).map(OptionalInt::of).orElse(OptionalInt.empty()));
  }
}

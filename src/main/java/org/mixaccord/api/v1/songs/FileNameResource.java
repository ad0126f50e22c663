package org.mixaccord.api.v1.songs;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Texts;
import org.mixaccord.filenames.FileNames;
import org.mixaccord.filenames.NameContext;
import org.mixaccord.filenames.NameContext.KnownSong;
import org.mixaccord.filenames.NameProposal;
import org.mixaccord.filenames.NameProposal.Use;
import org.mixaccord.filenames.NamedFile;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.FileRemarks;
import org.mixaccord.songs.SongDoor;

/** Proposes what files are, by their names, before they are uploaded; stores nothing. */
@Path("/api/v1")
public class FileNameResource {
  private static final int MOST_FILES = 500;
  private static final int LONGEST_PATH = 2000;

  /** A file about to be uploaded. */
  public record FileName(String name, String path, Long bytes) {}

  /**
   * Files dropped together.
   *
   * @param as {@code bounces} or {@code stems}; null to find out of each
   */
  public record Names(List<FileName> files, String as) {}

  private final Doorkeeper doorkeeper;
  private final SongDoor door;

  FileNameResource(Doorkeeper doorkeeper, SongDoor door) {
    this.doorkeeper = doorkeeper;
    this.door = door;
  }

  @POST
  @Path("/projects/{p}/file-name-readings")
  @Transactional
  public List<FileNameReading> onProject(@PathParam("p") String id, Names body) {
    Access access = doorkeeper.project(id);
    Optional<Use> use = use(body, null);
    require(access, use);
    List<NamedFile> files = files(body);
    return readings(
        body, access, FileNames.read(files, FileRemarks.context(access.project()), use));
  }

  @POST
  @Path("/songs/{s}/file-name-readings")
  @Transactional
  public List<FileNameReading> onSong(@PathParam("s") String id, Names body) {
    SongDoor.ToSong to = door.song(id);
    Optional<Use> use = use(body, Use.STEM);
    require(to.access(), use);
    List<NamedFile> files = files(body);
    KnownSong song = new KnownSong(to.song().id(), to.song().title());
    NameContext context = FileRemarks.context(to.access().project());
    return readings(body, to.access(), FileNames.readFor(song, files, context, use));
  }

  private static List<FileNameReading> readings(
      Names body, Access access, List<NameProposal> proposals) {
    FileNameReading.Allowed allowed =
        new FileNameReading.Allowed(access.may(Act.UPLOAD_MAIN), access.may(Act.EDIT_SONG));
    List<FileNameReading> readings = new ArrayList<>();
    for (int i = 0; i < proposals.size(); i++) {
      readings.add(FileNameReading.of(body.files().get(i).name(), proposals.get(i), allowed));
    }
    return readings;
  }

  private static void require(Access access, Optional<Use> use) {
    if (use.filter(u -> u == Use.STEM).isPresent()) {
      access.require(Act.UPLOAD_STEMS);
    } else if (!access.may(Act.UPLOAD_MAIN)) {
      access.require(Act.UPLOAD_ROUGH);
    }
  }

  private static Optional<Use> use(Names body, Use otherwise) {
    String as = body == null ? null : body.as();
    if (as == null) {
      return Optional.ofNullable(otherwise);
    }
    return switch (as) {
      case "bounces" -> Optional.of(Use.BOUNCE);
      case "stems" -> Optional.of(Use.STEM);
      default ->
          throw new ProblemException(Problem.INVALID, "“as” has to be bounces or stems.")
              .with("field", "as");
    };
  }

  private static List<NamedFile> files(Names body) {
    List<FileName> files = body == null ? null : body.files();
    if (files == null || files.isEmpty()) {
      throw new ProblemException(Problem.INVALID, "“files” is missing: name at least one file.")
          .with("field", "files");
    }
    if (files.size() > MOST_FILES) {
      throw new ProblemException(
          Problem.INVALID, "At most " + MOST_FILES + " names are read at a time.");
    }
    return files.stream().map(FileNameResource::file).toList();
  }

  private static NamedFile file(FileName file) {
    if (file == null || file.name() == null) {
      throw new ProblemException(Problem.INVALID, "Each of the files needs a “name”.")
          .with("field", "files");
    }
    String path = file.path() == null || file.path().isBlank() ? file.name() : file.path();
    if (path.length() > LONGEST_PATH || file.name().length() > LONGEST_PATH) {
      throw new ProblemException(
          Problem.INVALID, "A name may have at most " + LONGEST_PATH + " characters.");
    }
    Texts.checkStorable(file.name());
    Texts.checkStorable(path);
    return new NamedFile(
        path, file.bytes() == null ? OptionalLong.empty() : OptionalLong.of(file.bytes()));
  }
}

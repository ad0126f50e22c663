package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.HEAD;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.OPTIONS;
import jakarta.ws.rs.PATCH;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Base64;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Texts;
import org.mixaccord.api.v1.security.Anybody;
import org.mixaccord.jobs.Uploading;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.ResumableUpload;
import org.mixaccord.songs.SongDoor;
import org.mixaccord.songs.Stem;
import org.mixaccord.storage.PartialFiles;
import org.mixaccord.storage.StorageConfig;

/** Uploads that can be taken up again: tus 1.0.0 with creation, termination and expiration. */
@Path("/api/v1")
public class ResumableResource {
  private static final String VERSION = "1.0.0";
  private static final String PIECE = "application/offset+octet-stream";

  private final SongDoor door;
  private final Caller caller;
  private final Uploading uploading;
  private final PartialFiles files;
  private final StorageConfig storage;
  private final Clock clock;
  private final Set<String> busy = ConcurrentHashMap.newKeySet();

  ResumableResource(
      SongDoor door,
      Caller caller,
      Uploading uploading,
      PartialFiles files,
      StorageConfig storage,
      Clock clock) {
    this.door = door;
    this.caller = caller;
    this.uploading = uploading;
    this.files = files;
    this.storage = storage;
    this.clock = clock;
  }

  @OPTIONS
  @Path("/uploads")
  @Anybody
  public Response able() {
    return Response.noContent()
        .header("Tus-Resumable", VERSION)
        .header("Tus-Version", VERSION)
        .header("Tus-Extension", "creation,termination,expiration")
        .header("Tus-Max-Size", storage.storage().maxUploadBytes())
        .build();
  }

  @POST
  @Path("/uploads")
  @Consumes(MediaType.WILDCARD)
  @Blocking
  public Response begin(
      @HeaderParam("Tus-Resumable") String version,
      @HeaderParam("Upload-Length") Long length,
      @HeaderParam("Upload-Metadata") String metadata)
      throws IOException {
    checkVersion(version);
    if (length == null || length < 0) {
      throw new ProblemException(
          Problem.INVALID, "“Upload-Length” has to say how long the file is.");
    }
    if (length == 0) {
      throw new ProblemException(Problem.EMPTY_UPLOAD, "The file is empty. Print it again.");
    }
    if (length > storage.storage().maxUploadBytes()) {
      throw new ProblemException(Problem.TOO_LARGE, "This server takes no file that large.")
          .with("maxBytes", storage.storage().maxUploadBytes());
    }
    if (!files.roomFor(length)) {
      throw PartialFiles.noRoom();
    }
    forgetExpired();
    ResumableUpload upload =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  ResumableUpload.Target target = target(values(metadata));
                  return ResumableUpload.begin(
                      caller.required().id(), target, length, clock.instant());
                });
    return headers(Response.status(201), upload, 0)
        .header("Location", "/api/v1/uploads/" + upload.id())
        .build();
  }

  private ResumableUpload.Target target(Map<String, String> values) {
    String song = values.getOrDefault("song", "");
    String fileName = Texts.line("filename", values.getOrDefault("filename", "unnamed"), 255);
    Access access = door.song(song).access();
    if (values.containsKey("element")) {
      access.require(Act.UPLOAD_STEMS);
      Bounce bounce =
          values.containsKey("bounce")
              ? door.bounce(values.get("bounce")).bounce()
              : Bounce.newestMain(door.song(song).song(), access)
                  .orElseThrow(
                      () -> new ProblemException(Problem.NO_BOUNCE, "Upload a mix first."));
      if (!bounce.song().id().equals(song)) {
        throw Doorkeeper.notFound();
      }
      String element = Stem.element(values.get("element"));
      return new ResumableUpload.Target(
          song, fileName, BounceKind.MAIN, null, element, bounce.id());
    }
    BounceKind kind = BounceKind.of(values.getOrDefault("kind", "main"));
    access.require(kind.fromAnyone() ? Act.UPLOAD_ROUGH : Act.UPLOAD_MAIN);
    return new ResumableUpload.Target(song, fileName, kind, values.get("of"), null, null);
  }

  /** {@code key base64value, key base64value}; a key alone has an empty value. */
  private static Map<String, String> values(String metadata) {
    Map<String, String> values = new HashMap<>();
    for (String pair : metadata == null ? new String[0] : metadata.split(",")) {
      String[] parts = pair.strip().split(" ", 2);
      try {
        String value =
            parts.length < 2
                ? ""
                : new String(Base64.getDecoder().decode(parts[1].strip()), StandardCharsets.UTF_8);
        Texts.checkStorable(value);
        values.put(parts[0], value);
      } catch (IllegalArgumentException e) {
        throw new ProblemException(Problem.INVALID, "“Upload-Metadata” is not base64.");
      }
    }
    return values;
  }

  @HEAD
  @Path("/uploads/{id}")
  @Blocking
  public Response where(@PathParam("id") String id, @HeaderParam("Tus-Resumable") String version)
      throws IOException {
    checkVersion(version);
    ResumableUpload upload = mine(id);
    return headers(Response.ok(), upload, here(upload))
        .header("Upload-Length", upload.bytes())
        .header("Cache-Control", "no-store")
        .build();
  }

  @PATCH
  @Path("/uploads/{id}")
  @Consumes(PIECE)
  @Blocking
  public Response piece(
      @PathParam("id") String id,
      @HeaderParam("Tus-Resumable") String version,
      @HeaderParam("Upload-Offset") Long offset,
      InputStream body)
      throws IOException {
    checkVersion(version);
    ResumableUpload upload = mine(id);
    if (!busy.add(id)) {
      throw new ProblemException(
          Problem.WRONG_STATE, "Another piece of this file is on its way just now.");
    }
    try {
      long here = here(upload);
      if (offset == null || offset != here) {
        throw new ProblemException(
                Problem.WRONG_STATE, "The file is here up to byte " + here + "; go on from there.")
            .with("uploadOffset", here);
      }
      if (!upload.finished()) {
        here = files.append(id, body, upload.bytes() - here);
        if (here == upload.bytes()) {
          upload = finish(upload);
        }
      }
      return headers(Response.noContent(), upload, here).build();
    } finally {
      busy.remove(id);
    }
  }

  private ResumableUpload finish(ResumableUpload upload) throws IOException {
    ResumableUpload.Target target = upload.target();
    Uploading.Sender sender =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  Access access = door.song(target.song()).access();
                  return new Uploading.Sender(
                      access.person(),
                      access.member().role(),
                      target.fileName(),
                      OptionalLong.of(upload.bytes()));
                });
    try (InputStream in = files.open(upload.id())) {
      if (target.element() != null) {
        Stem stem = uploading.stem(in, sender, target.bounce(), target.element());
        return became(upload, u -> u.became(stem));
      }
      Bounce bounce = uploading.bounce(in, sender, target.song(), target.kind(), target.main());
      return became(upload, u -> u.became(bounce));
    }
  }

  private ResumableUpload became(
      ResumableUpload upload, java.util.function.Consumer<ResumableUpload> what)
      throws IOException {
    ResumableUpload finished =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  ResumableUpload kept = ResumableUpload.findById(upload.id());
                  what.accept(kept);
                  return kept;
                });
    files.remove(upload.id());
    return finished;
  }

  @DELETE
  @Path("/uploads/{id}")
  @Blocking
  public Response end(@PathParam("id") String id, @HeaderParam("Tus-Resumable") String version)
      throws IOException {
    checkVersion(version);
    mine(id);
    QuarkusTransaction.requiringNew().run(() -> ResumableUpload.deleteById(id));
    files.remove(id);
    return Response.noContent().header("Tus-Resumable", VERSION).build();
  }

  private void forgetExpired() throws IOException {
    List<ResumableUpload> expired =
        QuarkusTransaction.requiringNew()
            .call(
                () -> {
                  List<ResumableUpload> old = ResumableUpload.expired(clock.instant());
                  old.forEach(upload -> upload.delete());
                  return old;
                });
    for (ResumableUpload upload : expired) {
      files.remove(upload.id());
    }
  }

  private ResumableUpload mine(String id) {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              String person = caller.required().id();
              return ResumableUpload.<ResumableUpload>findByIdOptional(id)
                  .filter(upload -> upload.person().equals(person))
                  .filter(upload -> upload.expiresAt().isAfter(clock.instant()))
                  .orElseThrow(Doorkeeper::notFound);
            });
  }

  private long here(ResumableUpload upload) throws IOException {
    return upload.finished() ? upload.bytes() : files.bytes(upload.id());
  }

  private static void checkVersion(String version) {
    if (!VERSION.equals(version)) {
      throw new ProblemException(
          Problem.CHANGED_MEANWHILE, "Send “Tus-Resumable: " + VERSION + "” with each request.");
    }
  }

  private static Response.ResponseBuilder headers(
      Response.ResponseBuilder answer, ResumableUpload upload, long here) {
    answer
        .header("Tus-Resumable", VERSION)
        .header("Upload-Offset", here)
        .header(
            "Upload-Expires",
            DateTimeFormatter.RFC_1123_DATE_TIME.format(
                upload.expiresAt().atOffset(ZoneOffset.UTC)));
    upload.madeBounce().ifPresent(made -> answer.header("Mixaccord-Bounce", made));
    upload.madeStem().ifPresent(made -> answer.header("Mixaccord-Stem", made));
    return answer;
  }
}

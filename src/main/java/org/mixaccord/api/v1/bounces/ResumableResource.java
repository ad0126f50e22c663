package org.mixaccord.api.v1.bounces;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.smallrye.common.annotation.Blocking;
import io.vertx.core.http.HttpServerRequest;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.HEAD;
import jakarta.ws.rs.OPTIONS;
import jakarta.ws.rs.PATCH;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.io.InputStream;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Base64;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import org.mixaccord.api.v1.security.Anybody;
import org.mixaccord.jobs.Resuming;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.ResumableUpload;
import org.mixaccord.songs.SongDoor;
import org.mixaccord.storage.Checksum;
import org.mixaccord.storage.StorageConfig;

/** Uploads that can be taken up again: tus 1.0.0 over HTTP. */
@Path("/api/v1")
public class ResumableResource {
  private static final String PIECE = "application/offset+octet-stream";
  private static final String EXTENSIONS =
      "creation,creation-with-upload,checksum,termination,expiration";
  private static final String NUMBER = "\\d{1,18}";

  /** A date as HTTP writes it, the day always with two digits. */
  private static final DateTimeFormatter HTTP_DATE =
      DateTimeFormatter.ofPattern("EEE, dd MMM yyyy HH:mm:ss 'GMT'", Locale.ENGLISH)
          .withZone(ZoneOffset.UTC);

  private final SongDoor door;
  private final Resuming resuming;
  private final StorageConfig storage;

  ResumableResource(SongDoor door, Resuming resuming, StorageConfig storage) {
    this.door = door;
    this.resuming = resuming;
    this.storage = storage;
  }

  @OPTIONS
  @Path("/uploads")
  @Anybody
  public Response able() {
    return Response.noContent()
        .header(TusHeaders.VERSIONS, TusHeaders.VERSION)
        .header("Tus-Extension", EXTENSIONS)
        .header("Tus-Checksum-Algorithm", String.join(",", Checksum.ALGORITHMS))
        .header("Tus-Max-Size", storage.storage().maxUploadBytes())
        .build();
  }

  @POST
  @Path("/uploads")
  @Consumes(MediaType.WILDCARD)
  @Blocking
  public Response begin(
      @Context HttpHeaders headers, @Context HttpServerRequest http, InputStream body)
      throws IOException {
    checkVersion(headers);
    long length =
        number(headers, "Upload-Length")
            .orElseThrow(() -> malformed("“Upload-Length” has to say how long the file is."));
    if (length == 0) {
      throw new ProblemException(Problem.EMPTY_UPLOAD, "The file is empty. Print it again.");
    }
    String metadata = headers.getHeaderString("Upload-Metadata");
    ResumableUpload.Target target =
        QuarkusTransaction.requiringNew().call(() -> UploadMetadata.of(metadata).target(door));
    Resuming.Standing standing =
        resuming.begin(target, metadata == null ? "" : metadata.strip(), length);
    if (isPiece(headers)) {
      standing = withFirstPiece(standing, headers, http, body);
    }
    return answer(Response.status(201), standing)
        .header("Location", "/api/v1/uploads/" + standing.upload().id())
        .build();
  }

  /** Whoever is refused here never learns where the upload lies, so it is not kept. */
  private Resuming.Standing withFirstPiece(
      Resuming.Standing begun, HttpHeaders headers, HttpServerRequest http, InputStream body)
      throws IOException {
    String id = begun.upload().id();
    try {
      return resuming.take(id, piece(headers, http, body, 0));
    } catch (ProblemException refused) {
      resuming.end(id);
      throw refused;
    }
  }

  @HEAD
  @Path("/uploads/{id}")
  @Blocking
  public Response where(@PathParam("id") String id, @Context HttpHeaders headers)
      throws IOException {
    checkVersion(headers);
    Resuming.Standing standing = resuming.standing(id);
    Response.ResponseBuilder answer =
        answer(Response.ok(), standing)
            .header("Upload-Length", standing.upload().bytes())
            .header(HttpHeaders.CACHE_CONTROL, "no-store");
    if (!standing.upload().metadata().isEmpty()) {
      answer.header("Upload-Metadata", standing.upload().metadata());
    }
    return answer.build();
  }

  @PATCH
  @Path("/uploads/{id}")
  @Consumes(MediaType.WILDCARD)
  @Blocking
  public Response piece(
      @PathParam("id") String id,
      @Context HttpHeaders headers,
      @Context HttpServerRequest http,
      InputStream body)
      throws IOException {
    checkVersion(headers);
    if (!isPiece(headers)) {
      throw new ProblemException(
          Problem.UNSUPPORTED_MEDIA_TYPE, "A piece of a file is sent as “" + PIECE + "”.");
    }
    long offset =
        number(headers, "Upload-Offset")
            .orElseThrow(() -> malformed("“Upload-Offset” has to say where the piece begins."));
    Resuming.Standing standing = resuming.take(id, piece(headers, http, body, offset));
    return answer(Response.noContent(), standing).build();
  }

  private static Resuming.Piece piece(
      HttpHeaders headers, HttpServerRequest http, InputStream body, long offset) {
    return new Resuming.Piece(
        offset,
        body,
        number(headers, HttpHeaders.CONTENT_LENGTH),
        checksum(headers.getHeaderString("Upload-Checksum")),
        () -> http.connection().close());
  }

  @DELETE
  @Path("/uploads/{id}")
  @Blocking
  public Response end(@PathParam("id") String id, @Context HttpHeaders headers) throws IOException {
    checkVersion(headers);
    resuming.end(id);
    return Response.noContent().build();
  }

  private static Optional<Checksum> checksum(String header) {
    if (header == null) {
      return Optional.empty();
    }
    String[] parts = header.strip().split(" +", 2);
    try {
      byte[] expected = Base64.getDecoder().decode(parts.length < 2 ? "" : parts[1]);
      return Optional.of(
          Checksum.of(parts[0], expected)
              .orElseThrow(
                  () ->
                      malformed(
                          "“Upload-Checksum” may be by "
                              + String.join(", ", Checksum.ALGORITHMS)
                              + ".")));
    } catch (IllegalArgumentException e) {
      throw malformed("“Upload-Checksum” is not base64.");
    }
  }

  private static boolean isPiece(HttpHeaders headers) {
    MediaType type = headers.getMediaType();
    return type != null && PIECE.equalsIgnoreCase(type.getType() + "/" + type.getSubtype());
  }

  private static OptionalLong number(HttpHeaders headers, String name) {
    String value = headers.getHeaderString(name);
    if (value == null) {
      return OptionalLong.empty();
    }
    if (!value.strip().matches(NUMBER)) {
      throw malformed("“" + name + "” has to be a whole number of bytes.");
    }
    return OptionalLong.of(Long.parseLong(value.strip()));
  }

  private static ProblemException malformed(String detail) {
    return new ProblemException(Problem.MALFORMED, detail);
  }

  private static void checkVersion(HttpHeaders headers) {
    if (!TusHeaders.VERSION.equals(headers.getHeaderString(TusHeaders.RESUMABLE))) {
      throw new ProblemException(
          Problem.OTHER_PROTOCOL,
          "Send “"
              + TusHeaders.RESUMABLE
              + ": "
              + TusHeaders.VERSION
              + "” with each request about an upload.");
    }
  }

  private static Response.ResponseBuilder answer(
      Response.ResponseBuilder answer, Resuming.Standing standing) {
    ResumableUpload upload = standing.upload();
    answer
        .header("Upload-Offset", standing.bytesHere())
        .header("Upload-Expires", HTTP_DATE.format(upload.expiresAt()));
    upload.madeBounce().ifPresent(made -> answer.header("Mixaccord-Bounce", made));
    upload.madeStem().ifPresent(made -> answer.header("Mixaccord-Stem", made));
    return answer;
  }
}

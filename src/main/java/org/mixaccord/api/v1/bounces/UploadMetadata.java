package org.mixaccord.api.v1.bounces;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.HashMap;
import java.util.Map;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Texts;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.ResumableUpload;
import org.mixaccord.songs.SongDoor;
import org.mixaccord.songs.Stem;

/** What the header {@code Upload-Metadata} says of a file: {@code key base64value, key}. */
record UploadMetadata(Map<String, String> values) {
  /** Reads the header; a key alone has an empty value. */
  static UploadMetadata of(String header) {
    Map<String, String> values = new HashMap<>();
    for (String pair : header == null ? new String[0] : header.split(",")) {
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
    return new UploadMetadata(values);
  }

  /** What is to come of the file; {@code not-found} of whatever the caller may not know. */
  ResumableUpload.Target target(SongDoor door) {
    String song = values.getOrDefault("song", "");
    String fileName = Texts.line("filename", values.getOrDefault("filename", "unnamed"), 255);
    SongDoor.ToSong to = door.song(song);
    if (values.containsKey("element")) {
      String element = Stem.element(values.get("element"));
      return new ResumableUpload.Target(
          song, fileName, BounceKind.MAIN, null, null, element, bounce(door, to).id());
    }
    String of = values.get("of");
    if (of != null) {
      BounceResource.checkMain(door, song, of);
    }
    BounceKind kind = BounceKind.of(values.getOrDefault("kind", "main"));
    String label = Texts.lineOrNull("label", values.get("label"), Bounce.MOST_LABEL);
    return new ResumableUpload.Target(song, fileName, kind, of, label, null, null);
  }

  private Bounce bounce(SongDoor door, SongDoor.ToSong to) {
    if (!values.containsKey("bounce")) {
      Access access = to.access();
      return Bounce.newestMain(to.song(), access)
          .orElseThrow(() -> new ProblemException(Problem.NO_BOUNCE, "Upload a mix first."));
    }
    Bounce bounce = door.bounce(values.get("bounce")).bounce();
    if (!bounce.song().id().equals(to.song().id())) {
      throw Doorkeeper.notFound();
    }
    return bounce;
  }
}

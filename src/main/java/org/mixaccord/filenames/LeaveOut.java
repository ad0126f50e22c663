package org.mixaccord.filenames;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.filenames.Markers.About;

/** Says which files of a folder are no sound, by what they are called. */
final class LeaveOut {
  private static final Set<String> AUDIO =
      Set.of(
          "wav", "wave", "bwf", "rf64", "w64", "aif", "aiff", "aifc", "caf", "flac", "m4a", "mp4",
          "aac", "mp3", "mp2", "ogg", "oga", "opus", "wv", "alac", "adts", "m4b", "3gp");
  private static final Set<String> PICTURES =
      Set.of("jpg", "jpeg", "png", "gif", "tif", "tiff", "heic", "webp", "bmp", "svg");
  private static final Set<String> TEXTS =
      Set.of(
          "txt", "rtf", "pdf", "doc", "docx", "odt", "md", "html", "htm", "csv", "xls", "xlsx",
          "json", "xml", "log", "cue", "m3u", "m3u8", "pls", "md5", "sha256", "sfv", "url", "lnk");
  private static final Set<String> ARCHIVES =
      Set.of("zip", "rar", "7z", "tar", "gz", "tgz", "dmg", "iso");
  private static final Set<String> VIDEOS = Set.of("mov", "avi", "mkv", "webm", "m4v", "mpg");
  private static final Set<String> OVERVIEWS =
      Set.of("pk", "peak", "peaks", "ovw", "overview", "wfm");
  private static final Set<String> UNFINISHED =
      Set.of("part", "partial", "tmp", "temp", "download", "incomplete");
  private static final Set<String> SYSTEM =
      Set.of(".ds_store", "thumbs.db", "desktop.ini", "icon\r", "ehthumbs.db");
  private static final int LONGEST_EXTENSION = 12;

  private LeaveOut() {}

  /**
   * Why a file should not be uploaded.
   *
   * @param folders names of the folders it lies in, outermost first
   * @param name its own name
   */
  static Optional<String> reason(List<String> folders, String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    if (name.isBlank()) {
      return Optional.of("It has no name.");
    }
    if (folders.stream().anyMatch(f -> f.equalsIgnoreCase("__MACOSX"))) {
      return Optional.of("It lies in the side folder of an archive and is no sound.");
    }
    if (name.startsWith("._")) {
      return Optional.of("It is the companion a computer writes beside a file; it is no sound.");
    }
    if (SYSTEM.contains(lower)) {
      return Optional.of("A computer keeps notes about the folder in it; it is no sound.");
    }
    if (name.startsWith("~$") || name.startsWith(".")) {
      return Optional.of("It is a hidden file, not one you made.");
    }
    return extension(name).filter(e -> !AUDIO.contains(e)).map(LeaveOut::words);
  }

  private static String words(String extension) {
    if (PICTURES.contains(extension)) {
      return "It is a picture.";
    }
    if (TEXTS.contains(extension)) {
      return "It is a text or a table.";
    }
    if (ARCHIVES.contains(extension)) {
      return "It is an archive; unpack it and drop what is inside.";
    }
    if (VIDEOS.contains(extension)) {
      return "It is a video.";
    }
    if (extension.equals("mid") || extension.equals("midi")) {
      return "It is a MIDI file; it can give the song its bars on the song’s page.";
    }
    if (OVERVIEWS.contains(extension)) {
      return "It is the picture of a waveform a program keeps for itself.";
    }
    if (UNFINISHED.contains(extension)) {
      return "It has not been copied or downloaded to its end.";
    }
    return "It is not named like a sound file (." + extension + "). If it is one, upload it alone.";
  }

  /**
   * The ending that says what a file is, in lower case; an ending such as ".L" or ".final" is none.
   */
  static Optional<String> extension(String name) {
    int point = name.lastIndexOf('.');
    if (point <= 0 || point == name.length() - 1) {
      return Optional.empty();
    }
    String end = name.substring(point + 1).toLowerCase(Locale.ROOT);
    boolean known = AUDIO.contains(end);
    boolean looksLikeOne =
        end.length() <= LONGEST_EXTENSION
            && end.chars().allMatch(c -> (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            && Character.isLetter(end.charAt(0))
            && end.length() > 1
            && Markers.find(
                    end,
                    About.KIND,
                    About.MAIN,
                    About.FINAL,
                    About.SIDE,
                    About.COPY,
                    About.NUMBER,
                    About.CUT)
                .isEmpty()
            && !end.matches("(v|mix|rev|m|r)\\d+[a-h]?");
    return known || looksLikeOne ? Optional.of(end) : Optional.empty();
  }
}

package org.mixaccord.intake;

import java.util.Set;

/** What a file is by its bytes; the demuxer is the one the decoding child is told to use. */
public enum FileFormat {
  WAV("WAV", "wav", "wav", "wave", "bwf", "rf64"),
  AIFF("AIFF", "aiff", "aif", "aiff", "aifc"),
  CAF("CAF", "caf", "caf"),
  FLAC("FLAC", "flac", "flac", "fla"),
  MP4("MP4", "mov", "m4a", "mp4", "m4b", "mov", "aac", "alac"),
  ADTS("AAC", "aac", "aac", "adts"),
  MP3("MP3", "mp3", "mp3", "mp2", "mpga"),
  OGG_VORBIS("Ogg Vorbis", "ogg", "ogg", "oga"),
  OGG_OPUS("Ogg Opus", "ogg", "opus", "ogg", "oga"),
  OGG_FLAC("Ogg FLAC", "ogg", "ogg", "oga", "flac"),
  WAVPACK("WavPack", "wv", "wv"),
  /** Sound of a kind that is known by name and not taken. */
  OTHER_SOUND("", ""),
  /** No sound at all. */
  NOT_AUDIO("", "");

  private final String label;
  private final String demuxer;
  private final Set<String> extensions;

  FileFormat(String label, String demuxer, String... extensions) {
    this.label = label;
    this.demuxer = demuxer;
    this.extensions = Set.of(extensions);
  }

  /** Name as shown. */
  public String label() {
    return label;
  }

  String demuxer() {
    return demuxer;
  }

  /** True if a file of this kind is usually named so; the extension without its dot, lower case. */
  boolean usesExtension(String extension) {
    return extensions.contains(extension);
  }

  /** True if this extension promises some kind of sound file. */
  static boolean isSoundExtension(String extension) {
    for (FileFormat format : values()) {
      if (format.usesExtension(extension)) {
        return true;
      }
    }
    return false;
  }
}

package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.IOException;
import java.util.Locale;
import org.mixaccord.audio.container.ByteSource;
import org.mixaccord.audio.container.FrameHead;

/** Tells what a file is from its bytes; its name is never looked at. */
public final class Sniffer {
  private static final int HEAD_BYTES = 1 << 16;
  private static final int MOST_TAGS = 8;
  private static final int TAG_END_BYTES = 160;
  private static final int TAR_MAGIC_AT = 257;

  private Sniffer() {}

  /**
   * What a file is.
   *
   * @param format the kind
   * @param words for files that are not taken: what it is and what to do
   * @param start where the sound's container begins behind any tags in front
   */
  public record Sniffed(FileFormat format, String words, long start) {}

  /** Looks at the first 64 kB, behind up to 8 tags in front. */
  public static Sniffed sniff(ByteSource file) throws IOException {
    long start = 0;
    byte[] head = head(file, 0);
    for (int n = 0; n < MOST_TAGS && startsWith(head, 0, "ID3") && head.length > 10; n++) {
      int size =
          (head[6] & 127) << 21 | (head[7] & 127) << 14 | (head[8] & 127) << 7 | head[9] & 127;
      start += 10L + size + ((head[5] & 0x10) != 0 ? 10 : 0);
      head = head(file, start);
    }
    if (head.length == 0) {
      return start == 0
          ? no("The file is empty. Check it on your side and upload it again.")
          : no("The file holds nothing but a tag: there is no sound behind it. Export it again.");
    }
    FileFormat sound = sound(head);
    if (sound != FileFormat.NOT_AUDIO) {
      return new Sniffed(sound, "", start);
    }
    return otherwise(head);
  }

  /** Whether a file of any kind ends with a tag that music players write. */
  static boolean endsWithTag(ByteSource file) throws IOException {
    byte[] end = head(file, Math.max(0, file.size() - TAG_END_BYTES));
    int id3 = end.length - 128;
    return (id3 >= 0 && startsWith(end, id3, "TAG"))
        || (end.length >= 32 && startsWith(end, end.length - 32, "APETAGEX"))
        || (end.length >= 10 && startsWith(end, end.length - 10, "3DI"));
  }

  private static FileFormat sound(byte[] head) {
    if ((startsWith(head, 0, "RIFF")
            || startsWith(head, 0, "RIFX")
            || startsWith(head, 0, "RF64")
            || startsWith(head, 0, "BW64"))
        && startsWith(head, 8, "WAVE")) {
      return FileFormat.WAV;
    }
    if (startsWith(head, 0, "FORM")
        && (startsWith(head, 8, "AIFF") || startsWith(head, 8, "AIFC"))) {
      return FileFormat.AIFF;
    }
    if (startsWith(head, 0, "caff")) {
      return FileFormat.CAF;
    }
    if (startsWith(head, 0, "fLaC")) {
      return FileFormat.FLAC;
    }
    if (startsWith(head, 0, "wvpk")) {
      return FileFormat.WAVPACK;
    }
    if (startsWith(head, 0, "OggS")) {
      return ogg(head);
    }
    if (startsWith(head, 4, "ftyp") || startsWith(head, 4, "moov") || startsWith(head, 4, "mdat")) {
      return FileFormat.MP4;
    }
    return frames(head);
  }

  private static FileFormat ogg(byte[] head) {
    int payload = 27 + (head.length > 26 ? head[26] & 0xff : 0);
    if (startsWith(head, payload, "OpusHead")) {
      return FileFormat.OGG_OPUS;
    }
    if (startsWith(head, payload, "\u0001vorbis")) {
      return FileFormat.OGG_VORBIS;
    }
    return startsWith(head, payload, "\u007fFLAC") ? FileFormat.OGG_FLAC : FileFormat.OTHER_SOUND;
  }

  /** Headerless streams: several frames must follow each other, one bit pattern proves nothing. */
  private static FileFormat frames(byte[] head) {
    for (int at = 0; at + 8 < head.length; at++) {
      if ((head[at] & 0xff) != 0xff) {
        continue;
      }
      if (follow(head, at, true)) {
        return FileFormat.ADTS;
      }
      if (follow(head, at, false)) {
        return FileFormat.MP3;
      }
    }
    return FileFormat.NOT_AUDIO;
  }

  private static boolean follow(byte[] head, int start, boolean adts) {
    int at = start;
    for (int n = 0; n < 3; n++) {
      if (at == head.length && n > 0) {
        return true;
      }
      int length =
          at + 7 > head.length
              ? 0
              : adts ? FrameHead.adtsBytes(head, at) : FrameHead.mpegBytes(head, at);
      if (length == 0) {
        return false;
      }
      at += length;
      if (at > head.length) {
        return n > 0;
      }
    }
    return true;
  }

  private static Sniffed otherwise(byte[] head) {
    String text = new String(head, 0, Math.min(head.length, 1024), ISO_8859_1).strip();
    String lower = text.toLowerCase(Locale.ROOT);
    // An archive may show in plain what is in it, so it comes before everything that is searched
    // for.
    if (startsWith(head, 0, "PK\u0003\u0004")
        || startsWith(head, 0, "PK\u0005\u0006")
        || startsWith(head, TAR_MAGIC_AT, "ustar")
        || startsWith(head, 0, "Rar!")
        || startsWith(head, 0, "7z\u00bc\u00af")
        || startsWith(head, 0, "\u001f\u008b")) {
      return no("This is a packed archive. Unpack it and upload the sound files in it.");
    }
    if (lower.startsWith("<!doctype html")
        || lower.startsWith("<html")
        || lower.contains("<html")) {
      return no(
          "This is a web page, not sound: probably a sharing link was saved instead of the file."
              + " Download the file itself and upload that.");
    }
    if (lower.startsWith("--") && lower.contains("content-disposition: form-data")) {
      return no(
          "The sound came wrapped into a form. Whoever wrote the script has to send the bytes of the"
              + " file alone as the body, as in --data-binary; then upload it again.");
    }
    if (startsWith(head, 0, "\u0000\u0005\u0016\u0007")
        || startsWith(head, 0, "\u0000\u0005\u0016\u0000")) {
      return no(
          "This is the small companion file (its name starts with \"._\") that some systems put"
              + " beside the real one. Upload the file without \"._\".");
    }
    if (startsWith(head, 0, "\u0000\u0000\u0000\u0001Bud1")) {
      return no(
          "This is the hidden note in which a computer keeps how a folder looks (.DS_Store). Upload"
              + " the sound file itself.");
    }
    if (startsWith(head, 0, "bplist0")
        || lower.startsWith("[internetshortcut]")
        || (lower.startsWith("<?xml") && lower.contains("<plist"))
        || (lower.startsWith("{") && lower.contains("://"))) {
      return no(
          "This is only a link or a placeholder for a file that still lies in a cloud. Download the"
              + " file itself and upload that.");
    }
    if (startsWith(head, 0, "%PDF")) {
      return no("This is a PDF document, not sound.");
    }
    if (startsWith(head, 0, "\u0089PNG")
        || startsWith(head, 0, "\u00ff\u00d8\u00ff")
        || startsWith(head, 0, "GIF8")
        || (startsWith(head, 0, "RIFF") && startsWith(head, 8, "WEBP"))) {
      return no("This is a picture, not sound.");
    }
    if (startsWith(head, 0, "RIFF") && startsWith(head, 8, "AVI ")) {
      return new Sniffed(
          FileFormat.OTHER_SOUND, "This is a video. Export the sound alone as 24-bit WAV.", 0);
    }
    if (startsWith(head, 0, "\u001aE\u00df\u00a3")) {
      return new Sniffed(
          FileFormat.OTHER_SOUND,
          "This is a Matroska or WebM file, which is not taken here. Export it as 24-bit WAV.",
          0);
    }
    if (startsWith(head, 0, "0&\u00b2u")) {
      return new Sniffed(
          FileFormat.OTHER_SOUND,
          "This is a Windows Media file, which is not taken here. Export it as 24-bit WAV.",
          0);
    }
    if (startsWith(head, 0, "MThd")) {
      return no("This is a MIDI file: notes without sound. Export the audio.");
    }
    if (isText(head)) {
      return no("This is a text file, not sound.");
    }
    if (isZero(head)) {
      return no(
          "The file holds nothing but zeros: probably its copying or syncing never finished. Wait"
              + " for it, or copy it again.");
    }
    return no(
        "This is not a sound file that is known here. Export it as WAV, AIFF or FLAC and upload"
            + " that.");
  }

  private static boolean isText(byte[] head) {
    for (byte b : head) {
      if (b >= 0 && b < 0x20 && b != '\n' && b != '\r' && b != '\t') {
        return false;
      }
    }
    return new String(head, java.nio.charset.StandardCharsets.UTF_8)
            .chars()
            .filter(c -> c == 0xfffd)
            .count()
        <= 1;
  }

  private static boolean isZero(byte[] head) {
    for (byte b : head) {
      if (b != 0) {
        return false;
      }
    }
    return true;
  }

  private static Sniffed no(String words) {
    return new Sniffed(FileFormat.NOT_AUDIO, words, 0);
  }

  private static byte[] head(ByteSource file, long at) throws IOException {
    int count = (int) Math.max(0, Math.min(HEAD_BYTES, file.size() - at));
    byte[] head = new byte[count];
    file.read(at, head, 0, count);
    return head;
  }

  private static boolean startsWith(byte[] head, int at, String magic) {
    if (at + magic.length() > head.length) {
      return false;
    }
    for (int i = 0; i < magic.length(); i++) {
      if ((head[at + i] & 0xff) != magic.charAt(i)) {
        return false;
      }
    }
    return true;
  }
}

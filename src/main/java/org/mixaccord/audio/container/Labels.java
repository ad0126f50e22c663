package org.mixaccord.audio.container;

import static java.nio.charset.StandardCharsets.UTF_16BE;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;

/**
 * Text of unknown encoding out of a file, as one clean line.
 *
 * <p>Files rarely say how their text is written: a byte order mark is believed, then UTF-8 where
 * the bytes are valid UTF-8, then the one-byte encoding usual in Western programs.
 */
public final class Labels {
  private static final Charset ONE_BYTE = Charset.forName("windows-1252");

  private Labels() {}

  /**
   * Reads a label.
   *
   * @param bytes the text, perhaps ended early by a zero
   * @param mostChars the longest that is kept
   * @return one line without control characters; empty where there is nothing to read
   */
  public static String read(byte[] bytes, int mostChars) {
    String text = decoded(bytes);
    StringBuilder line = new StringBuilder();
    boolean gap = false;
    for (int at = 0; at < text.length(); ) {
      int c = text.codePointAt(at);
      at += Character.charCount(c);
      int type = Character.getType(c);
      boolean invisible =
          Character.isISOControl(c)
              || type == Character.SURROGATE
              || type == Character.FORMAT
              || type == Character.LINE_SEPARATOR
              || type == Character.PARAGRAPH_SEPARATOR;
      if (invisible || Character.isWhitespace(c) || Character.isSpaceChar(c)) {
        gap = !line.isEmpty();
        continue;
      }
      int length = line.length() + (gap ? 1 : 0) + Character.charCount(c);
      if (length > mostChars) {
        break;
      }
      if (gap) {
        line.append(' ');
        gap = false;
      }
      line.appendCodePoint(c);
    }
    return line.toString();
  }

  private static String decoded(byte[] bytes) {
    if (bytes.length >= 2 && bytes[0] == (byte) 0xFF && bytes[1] == (byte) 0xFE) {
      return toZero(new String(bytes, 2, bytes.length - 2, UTF_16LE));
    }
    if (bytes.length >= 2 && bytes[0] == (byte) 0xFE && bytes[1] == (byte) 0xFF) {
      return toZero(new String(bytes, 2, bytes.length - 2, UTF_16BE));
    }
    int length = 0;
    while (length < bytes.length && bytes[length] != 0) {
      length++;
    }
    try {
      return UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes, 0, length)).toString();
    } catch (CharacterCodingException notUtf8) {
      return new String(bytes, 0, length, ONE_BYTE);
    }
  }

  private static String toZero(String text) {
    int end = text.indexOf(0);
    return end < 0 ? text : text.substring(0, end);
  }
}

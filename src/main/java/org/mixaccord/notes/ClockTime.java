package org.mixaccord.notes;

import java.util.Optional;

/**
 * A time as a clock or a player shows it: 1:12, 1'12, 1m12, 0:01:12, 1:12.5, and 00:03:14:12 with
 * the pictures of a video, of which a second is taken to have 24 since their rate is not known.
 *
 * @param seconds from the song's beginning; {@link #NONE} for a slip such as 0:75
 * @param end index after its last character
 */
record ClockTime(double seconds, int end) {
  /** No clock shows it. */
  static final double NONE = -1;

  private static final int MOST_FIELDS = 4;
  private static final int FRACTION = 5;
  private static final double PICTURES = 24;

  /** The time that begins at this index, if one does. */
  static Optional<ClockTime> at(char[] text, int start) {
    int[] fields = new int[MOST_FIELDS];
    int count = 0;
    int i = start;
    char separator = 0;
    while (count < MOST_FIELDS) {
      int from = i;
      int field = 0;
      while (isDigit(text, i) && i - from < 4) {
        field = field * 10 + text[i] - '0';
        i++;
      }
      int digits = i - from;
      if (digits == 0 || digits > 3 || (count > 0 && digits != 2)) {
        return Optional.empty();
      }
      fields[count++] = field;
      boolean letter = count == 1 && i < text.length && (text[i] == '\'' || text[i] == 'm');
      boolean more =
          isDigit(text, i + 1)
              && (text[i] == ':' || letter && twoDigitsAt(text, i + 1))
              && (separator == 0 || text[i] == separator);
      if (!more) {
        break;
      }
      separator = text[i];
      i++;
    }
    if (count < 2) {
      return Optional.empty();
    }
    if (fields[count == MOST_FIELDS ? 2 : count - 1] > 59) {
      return Optional.of(new ClockTime(NONE, i));
    }
    double seconds = fields[0] * 60.0 + fields[1];
    if (count >= 3) {
      seconds = seconds * 60 + fields[2];
    }
    if (count == MOST_FIELDS) {
      seconds += fields[3] / PICTURES;
    }
    if (count < MOST_FIELDS && i < text.length && text[i] == '.' && isDigit(text, i + 1)) {
      int from = i++;
      while (isDigit(text, i) && i - from < FRACTION) {
        i++;
      }
      seconds += Double.parseDouble("0" + new String(text, from, i - from));
    }
    boolean unit =
        i < text.length
            && (separator == 'm' && text[i] == 's' || separator == '\'' && text[i] == '"');
    return Optional.of(new ClockTime(seconds, unit ? i + 1 : i));
  }

  private static boolean twoDigitsAt(char[] text, int i) {
    return isDigit(text, i) && isDigit(text, i + 1) && !isDigit(text, i + 2);
  }

  private static boolean isDigit(char[] text, int i) {
    return i < text.length && text[i] >= '0' && text[i] <= '9';
  }
}

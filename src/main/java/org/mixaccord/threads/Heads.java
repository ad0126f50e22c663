package org.mixaccord.threads;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Lines that say who wrote what follows, and when, in the shapes that mails and chats have. */
final class Heads {
  /**
   * A head.
   *
   * @param sender as written
   * @param when as written, or empty
   * @param rest what stands behind it on the same line
   * @param lines how many lines it takes
   */
  record Head(String sender, String when, String rest, int lines) {}

  private static final String TIME = "\\d{1,2}[:.h]\\d{2}(?:[:.]\\d{2})?(?:\\s?[ap]\\.?m\\.?)?";
  private static final String DATE =
      "(?:\\d{1,4}[./-]\\d{1,2}[./-]\\d{1,4}|\\d{1,2}\\.? \\p{L}{3,9}\\.?(?:,? \\d{4})?"
          + "|\\p{L}{3,9}\\.? \\d{1,2}(?:,? \\d{4})?|today|yesterday|heute|gestern|hier|ayer)";
  private static final String STAMP =
      "(?:"
          + DATE
          + "(?:,| at| um| \u00E0| a las)?\\s+"
          + TIME
          + "|"
          + TIME
          + "(?:,)? "
          + DATE
          + ")";
  private static final String NAME = "[^\\n:\\[\\]<>]{1,60}?";
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;

  /** [3.5.2031, 14:05] Lio: words, and the same without brackets and with a dash. */
  private static final Pattern STAMP_FIRST =
      Pattern.compile(
          "^\\[?(" + STAMP + ")\\]?\\s?(?:[-\u2013\u2014]\\s)?(" + NAME + "):(?:\\s(.*))?$", FLAGS);

  /** A stamp without a sender: a notice of the program. */
  private static final Pattern STAMP_ALONE =
      Pattern.compile("^\\[?(" + STAMP + ")\\]?\\s?[-\u2013\u2014]\\s(.+)$", FLAGS);

  /** Lio, [3.5.2031 14:05]: words, or on the lines below. */
  private static final Pattern NAME_FIRST =
      Pattern.compile(
          "^(" + NAME + "),?\\s+[\\[(](" + STAMP + "|" + TIME + ")[\\])]:?(?:\\s(.*))?$", FLAGS);

  /** The name and the time stand on one line, apart. */
  private static final Pattern NAME_AND_TIME =
      Pattern.compile(
          "^(" + NAME + ")(?:\\s{2,}|\\t|\\s[\u00B7\u2022|]\\s)(" + STAMP + "|" + TIME + ")$",
          FLAGS);

  private static final Pattern WHEN_ALONE =
      Pattern.compile("^(?:" + STAMP + "|" + TIME + "|" + DATE + ")$", FLAGS);

  private static final Pattern NAME_ALONE =
      Pattern.compile("^\\p{L}[\\p{L}\\p{M}'\u2019.-]*(?: \\p{L}[\\p{L}\\p{M}'\u2019.-]*){0,3}$");

  /** On Tuesday Lio wrote: what follows is older. */
  private static final Pattern WROTE =
      Pattern.compile(
          "^(?:on|am|le|el|il|op|den) (.{6,120}?)[, ]+(?:schrieb |skrev )?(?!at )("
              + NAME
              + ")(?:\\s<[^>]*>)?\\s?(?:wrote|schrieb|a \u00E9crit|escribi\u00F3|ha scritto|schreef|skrev)?\\s?:$",
          FLAGS);

  private static final Pattern WROTE_WORD =
      Pattern.compile(
          "\\b(?:wrote|schrieb|a \u00E9crit|escribi\u00F3|ha scritto|schreef|skrev)\\b", FLAGS);

  private static final Pattern FIELD =
      Pattern.compile("^\\*?(\\p{L}[\\p{L} -]{1,14})\\*?\\s?:\\*?\\s*(.*)$");

  private static final List<String> FROM =
      List.of("from", "von", "de", "da", "van", "fr\u00E5n", "fra");
  private static final List<String> SENT =
      List.of(
          "sent",
          "date",
          "gesendet",
          "datum",
          "envoy\u00E9",
          "envoy\u00E9 le",
          "enviado",
          "fecha",
          "inviato",
          "data",
          "verzonden",
          "skickat",
          "sendt");
  private static final List<String> OTHER =
      List.of(
          "to",
          "cc",
          "bcc",
          "subject",
          "reply-to",
          "an",
          "betreff",
          "\u00E0",
          "objet",
          "para",
          "asunto",
          "a",
          "oggetto",
          "aan",
          "onderwerp",
          "till",
          "\u00E4mne",
          "til",
          "emne",
          "attachments",
          "anlagen",
          "importance");

  private Heads() {}

  /** A head of a chat at a line. */
  static Optional<Head> chat(List<String> lines, int at) {
    String line = lines.get(at);
    Matcher stamped = STAMP_FIRST.matcher(line);
    if (stamped.matches()) {
      return Optional.of(new Head(name(stamped.group(2)), stamped.group(1), rest(stamped, 3), 1));
    }
    Matcher named = NAME_FIRST.matcher(line);
    if (named.matches()) {
      return Optional.of(new Head(name(named.group(1)), named.group(2), rest(named, 3), 1));
    }
    Matcher both = NAME_AND_TIME.matcher(line);
    if (both.matches() && isName(both.group(1))) {
      return Optional.of(new Head(name(both.group(1)), both.group(2), "", 1));
    }
    boolean below = at + 1 < lines.size() && WHEN_ALONE.matcher(lines.get(at + 1)).matches();
    if (below && isName(line) && !WHEN_ALONE.matcher(line).matches()) {
      return Optional.of(new Head(name(line), lines.get(at + 1), "", 2));
    }
    return Optional.empty();
  }

  private static String rest(Matcher found, int group) {
    return found.group(group) == null ? "" : found.group(group);
  }

  /** A line with a time but nobody's words: somebody joined, a call was missed. */
  static boolean isNotice(String line) {
    return STAMP_ALONE.matcher(line).matches() && !STAMP_FIRST.matcher(line).matches();
  }

  /** The head of a mail: lines of fields, one of them the sender. */
  static Optional<Head> mail(List<String> lines, int at) {
    String sender = "";
    String when = "";
    int i = at;
    int fields = 0;
    while (i < lines.size()) {
      Matcher field = FIELD.matcher(lines.get(i));
      if (!field.matches()) {
        break;
      }
      String key = field.group(1).toLowerCase(Locale.ROOT).strip();
      if (FROM.contains(key)) {
        sender = sender.isEmpty() ? field.group(2) : sender;
      } else if (SENT.contains(key)) {
        when = when.isEmpty() ? field.group(2) : when;
      } else if (!OTHER.contains(key)) {
        break;
      }
      fields++;
      i++;
    }
    boolean head = fields >= 2 && !sender.isBlank();
    return head ? Optional.of(new Head(name(sender), when.strip(), "", i - at)) : Optional.empty();
  }

  /** "On Tuesday Lio wrote:", on one line or broken into two. */
  static Optional<Head> wrote(List<String> lines, int at) {
    for (int length = 1; length <= 2 && at + length <= lines.size(); length++) {
      String line = String.join(" ", lines.subList(at, at + length)).strip();
      Matcher found = WROTE.matcher(line);
      if (WROTE_WORD.matcher(line).find() && found.matches()) {
        return Optional.of(new Head(name(found.group(2)), found.group(1).strip(), "", length));
      }
    }
    return Optional.empty();
  }

  /** "Lio: words": only in a text where that shape comes again and again. */
  static Optional<Head> dialogue(String line) {
    int colon = line.indexOf(':');
    boolean fits =
        colon > 0
            && colon <= 30
            && colon + 1 < line.length()
            && Character.isWhitespace(line.charAt(colon + 1))
            && isName(line.substring(0, colon));
    return fits
        ? Optional.of(new Head(line.substring(0, colon).strip(), "", line.substring(colon + 2), 1))
        : Optional.empty();
  }

  private static boolean isName(String words) {
    return words.length() <= 40 && NAME_ALONE.matcher(words.strip()).matches();
  }

  /** "Lio Fennimar", out of "Lio Fennimar (lio at example.org)" with an address in angles. */
  private static String name(String written) {
    String bare = written.replaceAll("<[^>]*>|\\[[^\\]]*\\]", "").replace("\"", "").strip();
    bare = bare.startsWith("~") ? bare.substring(1).strip() : bare;
    return bare.isEmpty() ? written.replaceAll("[<>]", "").strip() : bare;
  }
}

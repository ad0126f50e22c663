package org.mixaccord.threads;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/** What stands under a mail without belonging to it. */
final class Signatures {
  private static final Pattern RULE = Pattern.compile("^--\\s?$");
  private static final Pattern DEVICE =
      Pattern.compile(
          "^(?:sent|gesendet|von|envoy\u00E9|enviado|inviato|verzonden|skickat|sendt)\\b.{0,12}\\b"
              + "(?:my|meinem|mein|mon|mi|mio|mijn|min)\\b.{1,40}$",
          Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);
  private static final Pattern CONTACT =
      Pattern.compile(
          "(?i)^(?:.*@.*\\.\\p{L}{2,}.*|(?:https?://|www\\.)\\S+"
              + "|(?:(?:tel|phone|mobile?|fon|t|m)[.:]? ?)?\\+?[\\d ()/.-]{7,20})$");
  private static final Pattern CLOSING =
      Pattern.compile(
          "best|all best|all the best|best wishes|(?:kind|best|warm|warmest|many)? ?regards|cheers"
              + "|many thanks|thanks|thank you|love|lots of love|take care|speak soon|talk soon"
              + "|yours|sincerely|yours sincerely|x+|hugs|greetings");
  private static final Pattern NAME =
      Pattern.compile("\\p{Lu}[\\p{L}'’.-]*(?: \\p{Lu}[\\p{L}'’.-]*){0,2}");
  private static final Pattern AROUND = Pattern.compile("^[\\p{Pd}\\s~*]+|[\\s,.!~*]+$");
  private static final int LEAST_CONTACTS = 2;
  private static final int MOST_LINES = 8;

  private Signatures() {}

  /**
   * The lines of a message that are its signature, by their places in the list.
   *
   * @param sender whose message it is, as written
   */
  static List<Integer> in(List<String> lines, String sender) {
    int end = lines.size();
    while (end > 0 && lines.get(end - 1).isBlank()) {
      end--;
    }
    int from = end;
    for (int i = 0; i < end; i++) {
      if (RULE.matcher(lines.get(i)).matches()) {
        from = i;
        break;
      }
    }
    if (from == end && end > 0 && DEVICE.matcher(lines.get(end - 1).strip()).matches()) {
      from = end - 1;
    }
    if (from == end) {
      from = contacts(lines, end, sender);
    }
    if (from == end) {
      from = closing(lines, end, sender);
    }
    List<Integer> found = new ArrayList<>();
    for (int i = from; i < end; i++) {
      found.add(i);
    }
    return found;
  }

  /** "Best," and the name under it; words of thanks alone stay, since somebody says them. */
  private static int closing(List<String> lines, int end, String sender) {
    if (end == 0) {
      return end;
    }
    String last = bare(lines.get(end - 1));
    int space = last.lastIndexOf(' ');
    boolean together =
        space > 0 && CLOSING.matcher(bare(last.substring(0, space))).matches() && end > 1;
    if (together && isSender(last.substring(space + 1), sender)) {
      return end - 1;
    }
    int above = end - 1;
    while (above > 0 && lines.get(above - 1).isBlank()) {
      above--;
    }
    boolean closes = above > 1 && CLOSING.matcher(bare(lines.get(above - 1))).matches();
    boolean name = isSender(last, sender) || NAME.matcher(plain(lines.get(end - 1))).matches();
    if (closes && name) {
      return above - 1;
    }
    return end > 1 && isSender(last, sender) ? end - 1 : end;
  }

  private static boolean isSender(String words, String sender) {
    String name = sender.toLowerCase(Locale.ROOT).strip();
    return !words.isEmpty() && (name.equals(words) || name.startsWith(words + " "));
  }

  private static String bare(String line) {
    return plain(line).toLowerCase(Locale.ROOT);
  }

  private static String plain(String line) {
    return AROUND.matcher(line.strip()).replaceAll("");
  }

  /** A last paragraph of addresses and telephone numbers, with the name above them. */
  private static int contacts(List<String> lines, int end, String sender) {
    int from = end;
    while (from > 0 && !lines.get(from - 1).isBlank()) {
      from--;
    }
    if (from == 0 || end - from > MOST_LINES) {
      return end;
    }
    long contacts =
        lines.subList(from, end).stream().filter(l -> CONTACT.matcher(l.strip()).matches()).count();
    String first = lines.get(from).strip().toLowerCase(Locale.ROOT);
    boolean named = !sender.isEmpty() && sender.toLowerCase(Locale.ROOT).startsWith(first);
    boolean most = contacts * 2 >= end - from;
    return contacts >= LEAST_CONTACTS && (most || named) ? from : end;
  }
}

package org.mixaccord.threads;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.mixaccord.threads.Conversation.LeftOut;
import org.mixaccord.threads.Conversation.Message;
import org.mixaccord.threads.Conversation.Why;

/**
 * Takes a pasted text apart. Linear in its lines.
 *
 * <p>A head begins a message: a mail's fields, a chat's name and time, "On Tuesday Lio wrote:"
 * before lines that are not quoted. What is quoted with ">" was said before and is left out, like
 * signatures and a program's own notices. A text without any head is one message of nobody known.
 */
public final class ConversationReader {
  private static final Pattern DIVIDER =
      Pattern.compile("^\\s*(?:[-_=]{5,}|-{2,}\\s*[\\p{L} ]{3,40}\\s*-{2,})\\s*$");
  private static final Pattern MARKS =
      Pattern.compile("[\\u200E\\u200F\\u202A-\\u202E\\u2066-\\u2069\\uFEFF]");
  private static final Pattern MEDIA =
      Pattern.compile(
          "^\\s*(?:<[^<>]{3,60}>|(?:image|video|audio|photo|sticker|gif|document|voice message|bild|foto)"
              + " (?:omitted|weggelassen|attached)|.{1,80} \\((?:file attached|datei angeh\u00E4ngt)\\)"
              + "|(?:this|diese|you deleted this) (?:message|nachricht)?.{0,30}"
              + "(?:was deleted|gel\u00F6scht|deleted).*)\\s*$",
          Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);
  private static final int LEAST_IN_DIALOGUE = 3;

  private final List<String> raw;
  private final List<String> lines = new ArrayList<>();
  private final List<Open> messages = new ArrayList<>();
  private final List<LeftOut> leftOut = new ArrayList<>();

  /** A message that is being read. */
  private static final class Open {
    private final Heads.Head head;
    private final List<Integer> headLines = new ArrayList<>();
    private final List<Integer> body = new ArrayList<>();
    private final Map<Integer, String> words = new HashMap<>();

    Open(Heads.Head head) {
      this.head = head;
    }
  }

  private ConversationReader(String text) {
    raw = text.lines().toList();
    raw.forEach(
        line ->
            lines.add(
                MARKS
                    .matcher(line)
                    .replaceAll("")
                    .replace('\u00A0', ' ')
                    .replace('\u202F', ' ')
                    .stripTrailing()));
  }

  /** What a text was taken apart into. */
  public static Conversation read(String text) {
    return new ConversationReader(text).read();
  }

  private Conversation read() {
    boolean dialogue = isDialogue();
    int at = 0;
    while (at < lines.size()) {
      at += step(at, dialogue);
    }
    for (int i = 0; i < messages.size(); i++) {
      Open message = messages.get(i);
      List<Integer> signature =
          Signatures.in(message.body.stream().map(lines::get).toList(), message.head.sender())
              .stream()
              .map(message.body::get)
              .toList();
      if (!signature.isEmpty()) {
        message.body.removeAll(signature);
        leave(Why.SIGNATURE, i, signature);
      }
    }
    return conversation();
  }

  /** Reads what begins at a line; how many lines that took. */
  private int step(int at, boolean dialogue) {
    String line = lines.get(at);
    if (line.startsWith(">")) {
      return quoted(at);
    }
    Optional<Heads.Head> wrote = Heads.wrote(lines, at);
    if (wrote.isPresent()) {
      int next = at + wrote.get().lines();
      while (next < lines.size() && lines.get(next).isEmpty()) {
        next++;
      }
      if (next < lines.size() && lines.get(next).startsWith(">")) {
        leave(Why.QUOTED, messages.size() - 1, range(at, next));
        return next - at;
      }
      return begin(at, wrote.get());
    }
    Optional<Heads.Head> head = Heads.mail(lines, at).or(() -> Heads.chat(lines, at));
    if (head.isEmpty() && dialogue) {
      head = Heads.dialogue(line);
    }
    if (head.isPresent()) {
      return begin(at, head.get());
    }
    if (Heads.isNotice(line) || MEDIA.matcher(line).matches()) {
      leave(Why.NOTICE, messages.size() - 1, List.of(at));
      return 1;
    }
    if (DIVIDER.matcher(line).matches()) {
      leave(Why.HEAD, messages.size() - 1, List.of(at));
      return 1;
    }
    if (messages.isEmpty()) {
      messages.add(new Open(new Heads.Head("", "", "", 0)));
    }
    messages.get(messages.size() - 1).body.add(at);
    return 1;
  }

  private int begin(int at, Heads.Head head) {
    Open message = new Open(head);
    boolean speaks = !head.rest().isBlank() && !MEDIA.matcher(head.rest()).matches();
    if (!head.rest().isBlank() && !speaks) {
      leave(Why.NOTICE, messages.size() - 1, range(at, at + head.lines()));
      return head.lines();
    }
    for (int i = at; i < at + head.lines(); i++) {
      message.headLines.add(i);
    }
    if (speaks) {
      message.headLines.remove(Integer.valueOf(at));
      message.body.add(at);
      message.words.put(at, head.rest());
    }
    messages.add(message);
    return head.lines();
  }

  private int quoted(int at) {
    int end = at;
    while (end < lines.size() && lines.get(end).startsWith(">")) {
      end++;
    }
    leave(Why.QUOTED, messages.size() - 1, range(at, end));
    return end - at;
  }

  /** Whether enough lines begin with a short name and a colon, by few names that come again. */
  private boolean isDialogue() {
    Map<String, Integer> names = new HashMap<>();
    int found = 0;
    for (String line : lines) {
      Optional<Heads.Head> head = Heads.dialogue(line);
      if (head.isPresent()) {
        found++;
        names.merge(head.get().sender(), 1, Integer::sum);
      }
    }
    boolean again = names.values().stream().anyMatch(count -> count > 1);
    return found >= LEAST_IN_DIALOGUE && names.size() >= 2 && again;
  }

  private void leave(Why why, int message, List<Integer> which) {
    String text = String.join("\n", which.stream().map(raw::get).toList());
    leftOut.add(new LeftOut(why, message, text, which));
  }

  private static List<Integer> range(int from, int to) {
    List<Integer> range = new ArrayList<>();
    for (int i = from; i < to; i++) {
      range.add(i);
    }
    return range;
  }

  private Conversation conversation() {
    List<String> stamps = messages.stream().map(m -> m.head.when()).toList();
    Stamps.Order order = Stamps.order(stamps);
    List<Message> made = new ArrayList<>();
    for (Open open : messages) {
      List<Integer> all = new ArrayList<>(open.headLines);
      all.addAll(open.body);
      String words =
          String.join(
                  "\n",
                  open.body.stream().map(i -> open.words.getOrDefault(i, lines.get(i))).toList())
              .strip();
      made.add(
          new Message(
              open.head.sender(),
              open.head.when(),
              Stamps.read(open.head.when(), order),
              words,
              all));
    }
    boolean unsure = stamps.stream().anyMatch(stamp -> Stamps.isUnsure(stamp, order));
    return new Conversation(made, leftOut, unsure);
  }
}

package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Texts;
import org.mixaccord.songs.SongDoor;
import org.mixaccord.threads.Conversation;
import org.mixaccord.threads.ConversationReader;

/** Takes in what people said in mails and chats: read apart, matched to members, kept as notes. */
@ApplicationScoped
public class ConversationDesk {
  private static final int MOST_CHARS = 300_000;
  private static final int MOST_MESSAGES = 500;
  private static final int WHEN_CHARS = 200;

  /**
   * A pasted text taken apart.
   *
   * @param people for each message the person the sender seems to be
   * @param known for each message whether that person's note with those words is there already
   */
  public record Read(
      Conversation conversation, List<Optional<String>> people, List<Boolean> known) {}

  /** One message to be kept as a note of the person who said it. */
  public record ToKeep(String person, String when, String text) {}

  /**
   * What was kept.
   *
   * @param already messages that were notes before
   */
  public record Kept(List<NoteDesk.Written> notes, int already) {}

  private final Sheet sheet;
  private final NoteDesk notes;

  ConversationDesk(Sheet sheet, NoteDesk notes) {
    this.sheet = sheet;
    this.notes = notes;
  }

  /** Takes a text apart and keeps nothing. */
  @Transactional
  public Read read(String songId, String text) {
    SongDoor.ToSong in = sheet.read(songId);
    in.access().require(Act.WORK_LIST);
    if (text == null || text.isBlank()) {
      throw WireJson.invalid("text", "Paste the conversation first.");
    }
    if (text.length() > MOST_CHARS) {
      throw WireJson.invalid("text", "That is very long. Paste it in parts of 300,000 characters.");
    }
    Texts.checkStorable(text);
    Conversation conversation = ConversationReader.read(text);
    Set<String> known = known(in);
    List<Optional<String>> people = new ArrayList<>();
    List<Boolean> there = new ArrayList<>();
    for (Conversation.Message message : conversation.messages()) {
      Optional<String> person = person(in.access(), message.sender());
      people.add(person);
      there.add(person.filter(p -> known.contains(key(p, message.text()))).isPresent());
    }
    return new Read(conversation, people, there);
  }

  /** Keeps messages as notes, each once. */
  @Transactional
  public Kept keep(String songId, String bounceId, List<ToKeep> messages) {
    SongDoor.ToSong in = sheet.write(songId);
    in.access().require(Act.WORK_LIST);
    if (messages == null || messages.isEmpty() || messages.size() > MOST_MESSAGES) {
      throw WireJson.invalid("messages", "Name 1 to " + MOST_MESSAGES + " messages.");
    }
    Set<String> known = known(in);
    List<NoteDesk.Written> written = new ArrayList<>();
    int already = 0;
    for (ToKeep message : messages) {
      if (message == null || message.person() == null) {
        throw WireJson.invalid("messages", "Say whose words each message is.");
      }
      String person = whose(in.access(), message.person());
      if (!known.add(key(person, message.text() == null ? "" : message.text()))) {
        already++;
        continue;
      }
      NoteDesk.NewNote note =
          new NoteDesk.NewNote(message.text(), bounceId, null, null, person, false, null, null);
      NoteDesk.Written one = notes.write(songId, note);
      String when = Texts.lineOrNull("when", message.when(), WHEN_CHARS);
      Note.<Note>findById(one.id()).saidElsewhere(when);
      written.add(one);
    }
    return new Kept(written, already);
  }

  private static String whose(Access access, String personOrMember) {
    return access
        .people()
        .ofPerson(personOrMember)
        .or(() -> access.people().member(personOrMember))
        .map(member -> member.person().id())
        .orElseThrow(() -> WireJson.invalid("person", "Choose somebody who is in the project."));
  }

  private static Set<String> known(SongDoor.ToSong in) {
    Set<String> known = new HashSet<>();
    Note.of(in.song()).forEach(note -> known.add(key(note.author().id(), note.text())));
    return known;
  }

  private static String key(String person, String text) {
    return person + "\n" + text.replaceAll("\\s+", " ").strip().toLowerCase(Locale.ROOT);
  }

  /** The one member a name can only mean: in full, by first name, or by how it begins. */
  private static Optional<String> person(Access access, String sender) {
    String wanted = sender.toLowerCase(Locale.ROOT).strip();
    if (wanted.isEmpty()) {
      return Optional.empty();
    }
    Map<Integer, Set<String>> found = new HashMap<>();
    for (Member member : access.people().members()) {
      String name = member.person().name().toLowerCase(Locale.ROOT);
      int rank =
          name.equals(wanted)
              ? 0
              : name.startsWith(wanted + " ") || wanted.startsWith(name + " ")
                  ? 1
                  : firstName(name).equals(firstName(wanted)) ? 2 : -1;
      if (rank >= 0) {
        found.computeIfAbsent(rank, r -> new HashSet<>()).add(member.person().id());
      }
    }
    for (int rank = 0; rank <= 2; rank++) {
      Set<String> people = found.getOrDefault(rank, Set.of());
      if (!people.isEmpty()) {
        return people.size() == 1 ? people.stream().findFirst() : Optional.empty();
      }
    }
    return Optional.empty();
  }

  private static String firstName(String name) {
    return name.split("\\s", 2)[0];
  }
}

package org.mixaccord.demo;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import org.mixaccord.accounts.Caller;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Role;
import org.mixaccord.demo.music.DemoAudio;
import org.mixaccord.jobs.Job;
import org.mixaccord.jobs.Uploading;
import org.mixaccord.record.ChangeDesk;
import org.mixaccord.record.ChangeList;
import org.mixaccord.record.NoteDesk;
import org.mixaccord.record.Sending;
import org.mixaccord.songs.AudioState;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.Form;
import org.mixaccord.songs.Hearing;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.Stem;
import org.mixaccord.storage.StorageConfig;

/**
 * Tells the demo's story through the same services people use: composes and uploads the mixes,
 * writes the notes, marks what was done. Every step looks first whether it has been taken, so that
 * a killed start goes on where it was.
 */
@ApplicationScoped
public class DemoStory implements Job {
  static final String NAME = "demo-story";
  static final String SUBJECT = "demo";
  private static final long LONGEST_WAIT_MILLIS = 300_000;

  /** Parts whose wishes the engineer of the story works on in each next mix. */
  private static final Set<String> WORKED_ON =
      Set.of("lead vocal", "backing vocals", "strings", "bass");

  private final Uploading uploading;
  private final Sending sending;
  private final NoteDesk notes;
  private final ChangeDesk changes;
  private final Caller caller;
  private final StorageConfig storage;
  private final Clock clock;

  DemoStory(
      Uploading uploading,
      Sending sending,
      NoteDesk notes,
      ChangeDesk changes,
      Caller caller,
      StorageConfig storage,
      Clock clock) {
    this.uploading = uploading;
    this.sending = sending;
    this.notes = notes;
    this.changes = changes;
    this.caller = caller;
    this.storage = storage;
    this.clock = clock;
  }

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public void run(String subject, Progress progress) throws Exception {
    Path folder = Files.createTempDirectory(Files.createDirectories(storage.dataDir()), "demo");
    try {
      for (DemoScript script : DemoStart.scripts()) {
        tell(script, folder);
      }
    } finally {
      try (var files = Files.walk(folder)) {
        for (Path file : files.sorted(java.util.Comparator.reverseOrder()).toList()) {
          Files.delete(file);
        }
      }
    }
  }

  private void tell(DemoScript script, Path folder) throws IOException, InterruptedException {
    String song =
        QuarkusTransaction.requiringNew()
            .call(() -> Song.<Song>find("title", script.song().title()).firstResult().id());
    int mixes = script.song().mixes();
    List<DemoAudio> missing =
        java.util.stream.IntStream.rangeClosed(1, mixes)
            .filter(n -> main(song, n) == null)
            .mapToObj(script.song()::mix)
            .toList();
    Map<DemoAudio, Path> files = script.song().writeAll(missing, folder);
    for (DemoAudio audio : missing) {
      upload(script, song, files.get(audio));
    }
    for (int n = 1; n <= mixes; n++) {
      Bounce mix = ready(song, n);
      drawForm(script, mix, n);
      // at a later start, what visitors have asked for since is not done in a mix of the story
      if (n > 1 && !mix.sent()) {
        markDone(script, song, mix);
      }
      // The last mix of the second song stays a private pass: something is left to send.
      boolean lastOfSecond = n == mixes && script.sendings().size() == 2;
      if (!lastOfSecond && !mix.sent()) {
        send(script, mix.id(), n);
      }
      writeNotes(script, song, mix, n);
    }
    for (int n = 1; n <= mixes; n++) {
      stems(script, song, n, folder);
    }
  }

  private void upload(DemoScript script, String song, Path file) throws IOException {
    Person engineer = person(script.people().get(0));
    try (InputStream in = Files.newInputStream(file)) {
      uploading.bounce(
          in, sender(engineer, file), new Uploading.Wanted(song, BounceKind.MAIN, null, null));
    }
    Files.delete(file);
  }

  private void stems(DemoScript script, String song, int n, Path folder) throws IOException {
    Bounce mix = main(song, n);
    Set<String> there =
        QuarkusTransaction.requiringNew()
            .call(
                () ->
                    Stem.of(mix).stream()
                        .map(Stem::element)
                        .collect(java.util.stream.Collectors.toSet()));
    List<DemoAudio> missing =
        script.song().stems(n).stream()
            .filter(s -> !there.contains(s.part().orElseThrow()))
            .toList();
    Person engineer = person(script.people().get(0));
    for (Map.Entry<DemoAudio, Path> one : script.song().writeAll(missing, folder).entrySet()) {
      try (InputStream in = Files.newInputStream(one.getValue())) {
        uploading.stem(
            in, sender(engineer, one.getValue()), mix.id(), one.getKey().part().orElseThrow());
      }
      Files.delete(one.getValue());
    }
  }

  private static Uploading.Sender sender(Person engineer, Path file) throws IOException {
    return new Uploading.Sender(
        engineer, Role.ENGINEER, file.getFileName().toString(), OptionalLong.of(Files.size(file)));
  }

  private static Bounce main(String song, int n) {
    return QuarkusTransaction.requiringNew()
        .call(
            () ->
                Bounce.<Bounce>find(
                        "song.id = ?1 and kind = ?2 and number = ?3", song, BounceKind.MAIN, n)
                    .firstResult());
  }

  private static Bounce ready(String song, int n) throws IOException, InterruptedException {
    long until = System.currentTimeMillis() + LONGEST_WAIT_MILLIS;
    while (System.currentTimeMillis() < until) {
      Bounce mix = main(song, n);
      if (mix.ready()) {
        return mix;
      }
      if (mix.state() == AudioState.FAILED) {
        throw new IOException("a mix of the demo could not be measured");
      }
      Thread.sleep(200);
    }
    throw new IOException("a mix of the demo was not measured in time");
  }

  private void drawForm(DemoScript script, Bounce mix, int n) {
    if (n > 1) {
      return;
    }
    QuarkusTransaction.requiringNew()
        .run(
            () -> {
              Bounce bounce = Bounce.findById(mix.id());
              if (Form.of(bounce.song()).isEmpty()) {
                Form.draw(
                    bounce,
                    script.song().sections(n).stream()
                        .map(s -> new Section(s.name(), s.fromSeconds(), s.toSeconds()))
                        .toList(),
                    person(script.people().get(0)),
                    clock.instant());
              }
            });
  }

  private void send(DemoScript script, String mix, int n) {
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                sending.send(
                    Bounce.findById(mix),
                    person(script.people().get(0)),
                    null,
                    script.sendings().get(n - 1).line()));
  }

  private void writeNotes(DemoScript script, String song, Bounce mix, int n) {
    for (DemoScript.ScriptedNote note : script.notes()) {
      if (note.mix() != n) {
        continue;
      }
      Person author =
          person(
              script.people().stream()
                  .filter(p -> p.key().equals(note.author()))
                  .findFirst()
                  .orElseThrow());
      caller.is(author);
      boolean written =
          QuarkusTransaction.requiringNew()
              .call(
                  () ->
                      notes.list(song, null).stream()
                          .anyMatch(shown -> shown.note().text().equals(note.text())));
      if (!written) {
        QuarkusTransaction.requiringNew()
            .run(() -> Hearing.heard(author, mix, Hearing.LOSSLESS, clock.instant()));
        Double at = note.atSeconds().orElse(null);
        notes.write(
            song, new NoteDesk.NewNote(note.text(), mix.id(), at, at, null, null, null, null));
      }
    }
  }

  private void markDone(DemoScript script, String song, Bounce mix) {
    caller.is(person(script.people().get(0)));
    List<String> asked =
        QuarkusTransaction.requiringNew()
            .call(
                () ->
                    changes.list(song, "asked").stream()
                        .map(ChangeList.Row::change)
                        .filter(c -> WORKED_ON.contains(c.element()))
                        .map(c -> c.id())
                        .toList());
    if (!asked.isEmpty()) {
      changes.mark(song, new ChangeDesk.Marking(asked, "done", mix.id(), "as-asked", null));
    }
  }

  private static Person person(DemoScript.Person person) {
    return QuarkusTransaction.joiningExisting()
        .call(() -> Person.withEmail(person.address()).orElseThrow());
  }
}

package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.AccessToken;
import org.mixaccord.accounts.ApprovalStays;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Ids;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Person;
import org.mixaccord.accounts.Project;
import org.mixaccord.accounts.Projects;
import org.mixaccord.accounts.Role;
import org.mixaccord.align.TimeSpan;
import org.mixaccord.songs.AudioFacts;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.ComparisonRecord;
import org.mixaccord.songs.Form;
import org.mixaccord.songs.Hearing;
import org.mixaccord.songs.ReceivedFile;
import org.mixaccord.songs.Section;
import org.mixaccord.songs.Song;
import org.mixaccord.songs.Stem;

/** Puts people, a song and measured bounces straight into the database. */
@ApplicationScoped
public class ProjectForTests {
  /** Ids of everybody and everything. */
  public record Cast(
      String project, String song, Map<String, String> people, Map<String, String> tokens) {
    public String person(String name) {
      return people.get(name);
    }

    public String token(String name) {
      return tokens.get(name);
    }
  }

  private final Projects projects;
  private final Doorkeeper doorkeeper;
  private final AfterSending afterSending;
  private final History history;

  ProjectForTests(
      Projects projects, Doorkeeper doorkeeper, AfterSending afterSending, History history) {
    this.projects = projects;
    this.doorkeeper = doorkeeper;
    this.afterSending = afterSending;
    this.history = history;
  }

  /**
   * A project with its engineer “eng”, further members by name and role, a song with three
   * sections, and a person “stranger” outside.
   */
  @Transactional
  public Cast begin(Map<String, Role> others) {
    Map<String, String> people = new LinkedHashMap<>();
    Map<String, String> tokens = new LinkedHashMap<>();
    Person engineer = person("eng", people, tokens);
    Project project = projects.begin(engineer, "Low Tide", "The Fog Lamps", Role.ENGINEER);
    var by = doorkeeper.access(engineer, project.id());
    others.forEach(
        (name, role) -> {
          Person person = person(name, people, tokens);
          var invited = projects.invite(by, null, role, 1);
          projects.accept(invited.secret(), java.util.Optional.of(person), null, null);
        });
    person("stranger", people, tokens);
    Song song = Song.begin(project, "Harbour", Instant.now());
    return new Cast(project.id(), song.id(), people, tokens);
  }

  private static Person person(
      String name, Map<String, String> people, Map<String, String> tokens) {
    Person person = Person.named(name, null, false, Instant.now());
    people.put(name, person.id());
    String secret = Ids.secret();
    AccessToken.make(person, "test", secret, Instant.now());
    tokens.put(name, secret);
    return person;
  }

  /** A hash that belongs to no audio; each number gives another one. */
  public static String hash(int n) {
    return String.format("%064x", n);
  }

  /** A measured main of 100 s from the engineer; its audio is named by the hash. */
  @Transactional
  public String bounce(Cast cast, String pcmSha256) {
    Song song = Song.findById(cast.song());
    Person engineer = Person.findById(cast.person("eng"));
    Bounce bounce =
        Bounce.received(
            song,
            new ReceivedFile(BounceKind.MAIN, null, null, engineer, "mix.wav", 1000, pcmSha256),
            Bounce.count(song, BounceKind.MAIN) + 1,
            false,
            Instant.now());
    bounce.measured(
        new AudioFacts("wav", "pcm", 48000, 24, 24, 2, 4_800_000, false, "s32", pcmSha256), "[]");
    return bounce.id();
  }

  /** A bounce of the cast's song with the audio of another one that has been measured. */
  @Transactional
  public String copy(Cast cast, String measured) {
    Bounce whole = Bounce.findById(measured);
    Song song = Song.findById(cast.song());
    Bounce bounce =
        Bounce.received(
            song,
            new ReceivedFile(
                BounceKind.MAIN,
                null,
                null,
                Person.findById(cast.person("eng")),
                whole.fileName(),
                whole.bytes(),
                whole.sha256()),
            Bounce.count(song, BounceKind.MAIN) + 1,
            false,
            Instant.now());
    bounce.measured(whole.facts().orElseThrow(), whole.defects());
    return bounce.id();
  }

  /** A part of a bounce, from the engineer, not measured. */
  @Transactional
  public String stem(Cast cast, String bounceId, String element) {
    Bounce bounce = Bounce.findById(bounceId);
    Person engineer = Person.findById(cast.person("eng"));
    return Stem.received(
            bounce,
            element,
            new ReceivedFile(
                BounceKind.MAIN, null, null, engineer, "part.wav", bounce.bytes(), bounce.sha256()),
            Instant.now())
        .id();
  }

  /** A blind pick between two mixes of two seconds, offered to everybody who may write. */
  @Transactional
  public String blindPick(Cast cast, String one, String two) {
    laidTogether(one, two);
    BlindPick pick =
        BlindPick.offer(
            Bounce.findById(one),
            Bounce.findById(two),
            new TimeSpan(0, 1),
            "All",
            List.of(),
            Person.findById(cast.person("eng")),
            Instant.now());
    access(cast, "eng").people().members().stream()
        .filter(Member::mayWrite)
        .forEach(m -> BlindEar.open(pick, m.person()));
    return pick.id();
  }

  /** The address of somebody's part in a blind pick. */
  @Transactional
  public String blindEar(String pick, String person) {
    return BlindEar.of(BlindPick.<BlindPick>findById(pick), Person.<Person>findById(person))
        .orElseThrow()
        .id();
  }

  /** A listening test of the engineer between two mixes of two seconds. */
  @Transactional
  public String abxTest(Cast cast, String a, String b) {
    laidTogether(a, b);
    return AbxTest.begin(
            new HeardPlaces.Pair(Bounce.findById(a), Bounce.findById(b)),
            new HeardPlaces.Place(new TimeSpan(0, 1), "All"),
            5,
            Person.findById(cast.person("eng")),
            Instant.now())
        .id();
  }

  private static void laidTogether(String one, String two) {
    if (ComparisonRecord.newestReady(Bounce.findById(one), Bounce.findById(two)).isPresent()) {
      return;
    }
    ComparisonRecord.ask(Bounce.findById(one), Bounce.findById(two), "test", Instant.now())
        .finish("{\"timeMap\":[{\"from\":0,\"to\":2,\"otherFrom\":0,\"otherTo\":2,\"sure\":1}]}");
  }

  /** The membership of somebody. */
  @Transactional
  public String member(Cast cast, String name) {
    return access(cast, "eng").people().ofPerson(cast.person(name)).orElseThrow().id();
  }

  /** Draws one section over a bounce of two seconds. */
  @Transactional
  public void shortSections(Cast cast, String bounceId) {
    Form.draw(
        Bounce.findById(bounceId),
        List.of(new Section("All", 0, 2)),
        Person.findById(cast.person("eng")),
        Instant.now());
  }

  /** Sends a bounce and opens its round. */
  @Transactional
  public void send(Cast cast, String bounceId) {
    Bounce bounce = Bounce.findById(bounceId);
    Song song = bounce.song();
    int round = song.round() + 1;
    song.openRound(round);
    Person engineer = Person.findById(cast.person("eng"));
    bounce.send("Mix " + round, null, round, engineer, Instant.now());
    afterSending.sent(bounce, engineer);
  }

  /** Draws Verse 1 (0–30), Chorus 1 (30–60) and Verse 2 (60–100) on a bounce. */
  @Transactional
  public void sections(Cast cast, String bounceId) {
    Form.draw(
        Bounce.findById(bounceId),
        List.of(
            new Section("Verse 1", 0, 30),
            new Section("Chorus 1", 30, 60),
            new Section("Verse 2", 60, 100)),
        Person.findById(cast.person("eng")),
        Instant.now());
  }

  /** Names somebody as approver. */
  @Transactional
  public void approver(Cast cast, String name) {
    set(cast, name, new Projects.Settings(null, null, true, null));
  }

  /** Gives somebody the last word. */
  @Transactional
  public void lastWord(Cast cast, String name) {
    set(cast, name, new Projects.Settings(null, true, null, null));
  }

  private void set(Cast cast, String name, Projects.Settings settings) {
    Access by = access(cast, "eng");
    projects.change(by, by.people().ofPerson(cast.person(name)).orElseThrow().id(), settings);
  }

  /** Takes somebody out of the project. */
  @Transactional
  public void remove(Cast cast, String name) {
    Access by = access(cast, "eng");
    projects.remove(by, by.people().ofPerson(cast.person(name)).orElseThrow().id());
  }

  /** The band gathers its notes from now on. */
  @Transactional
  public void gather(Cast cast) {
    access(cast, "eng").project().switchTo(true, null, null, null);
  }

  /** The rows of one act in the song's history that somebody may see. */
  @Transactional
  public List<String> acts(Cast cast, String name, String act) {
    return history.visible(access(cast, name), cast.song(), 0, 500).stream()
        .filter(entry -> entry.act().equals(act))
        .map(HistoryEntry::detail)
        .toList();
  }

  /** The newest hash of the song's history. */
  @Transactional
  public String head(Cast cast) {
    List<HistoryEntry> all = HistoryEntry.after(cast.song(), 0, 500);
    return all.get(all.size() - 1).hash();
  }

  private Access access(Cast cast, String name) {
    return doorkeeper.access(Person.findById(cast.person(name)), cast.project());
  }

  /** Puts a finished comparison there, and lets the record look at it. */
  @Transactional
  public void compared(String here, String there, String json) {
    ComparisonRecord.ask(Bounce.findById(here), Bounce.findById(there), "test", Instant.now())
        .finish(json);
    afterSending.compared(here);
  }

  /** Somebody hears a bounce, in full quality. */
  @Transactional
  public void hears(Cast cast, String name, String bounce) {
    Person person = Person.findById(cast.person(name));
    Hearing.heard(person, Bounce.findById(bounce), Hearing.LOSSLESS, Instant.now());
  }

  /** How alike a later mix may be for an approval to stay. */
  @Transactional
  public void approvalStays(Cast cast, ApprovalStays stays) {
    access(cast, "eng").project().switchTo(null, null, null, stays);
  }
}

package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Act;
import org.mixaccord.accounts.Doorkeeper;
import org.mixaccord.accounts.Texts;
import org.mixaccord.changes.ChangeState;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;
import org.mixaccord.review.ApprovalBook;
import org.mixaccord.review.ApprovalDecision;
import org.mixaccord.review.ApprovalRules;
import org.mixaccord.review.OpenPoint;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.Hearing;
import org.mixaccord.songs.SongDoor;

/** Takes what people say to a bounce as a whole, and keeps it. */
@ApplicationScoped
public class ApprovalDesk {
  private static final int WORDS_CHARS = 2000;

  /** What somebody says. */
  public record Said(
      String decision,
      String pcmSha256,
      String comment,
      List<String> despite,
      String reason,
      List<String> onceDone) {}

  /** A decision on the record, and what it is worth for the bounce asked about. */
  public record Entry(Approval approval, ApprovalBook.Standing standing, boolean carried) {}

  /** What came of a decision. */
  public record Made(String id, ApprovalBook.Standing standing, String head) {}

  private final Sheet sheet;
  private final SongDoor door;
  private final OpenPointsDesk points;
  private final ApprovalEffects effects;

  ApprovalDesk(Sheet sheet, SongDoor door, OpenPointsDesk points, ApprovalEffects effects) {
    this.sheet = sheet;
    this.door = door;
    this.points = points;
    this.effects = effects;
  }

  /** What still stands between a bounce and its approval. */
  @Transactional
  public List<OpenPoint> openPoints(String bounceId) {
    SongDoor.ToBounce in = door.bounce(bounceId);
    in.access().require(Act.SEE_LIST);
    return points.of(in.bounce(), in.access(), ApprovalBooks.of(in.song()), List.of());
  }

  /** The decisions that concern a bounce, oldest first. */
  @Transactional
  public List<Entry> list(String bounceId) {
    SongDoor.ToBounce in = door.bounce(bounceId);
    Map<String, Approval> all =
        Approval.of(in.song()).stream().collect(Collectors.toMap(Approval::id, a -> a));
    return ApprovalBooks.of(in.song()).of(bounceId, ApprovalBooks.hash(in.bounce())).stream()
        .map(
            entry -> {
              Approval approval = all.get(entry.given().id());
              boolean carried = !approval.bounce().id().equals(bounceId);
              return new Entry(approval, entry.standing(), carried);
            })
        .toList();
  }

  /** Takes a decision, or says what stands against it. */
  @Transactional
  public Made decide(String bounceId, Said said) {
    SongDoor.ToBounce in = door.bounce(bounceId);
    sheet.lock(in.song());
    Access by = in.access();
    Approval.Words words = words(said);
    checkAwaited(in, words.onceDone());
    ApprovalBook before = ApprovalBooks.of(in.song());
    check(words, said, in, points.of(in.bounce(), by, before, words.onceDone()));
    Instant now = sheet.now();
    Approval approval =
        Approval.give(
            in.bounce(),
            by.member(),
            words,
            ApprovalBooks.hash(in.bounce()),
            Hearing.of(by.person().id(), bounceId).map(Hearing::quality).orElse(null),
            now);
    sheet.tell(by, in.song(), row(in, approval, by.person().name()));
    HistoryEntry head = effects.after(by, in.bounce(), approval);
    ApprovalBook.Standing standing =
        ApprovalBooks.of(in.song()).of(bounceId, ApprovalBooks.hash(in.bounce())).stream()
            .filter(entry -> entry.given().id().equals(approval.id()))
            .map(ApprovalBook.Entry::standing)
            .findFirst()
            .orElseThrow();
    return new Made(approval.id(), standing, head.hash());
  }

  private static Happening row(SongDoor.ToBounce in, Approval approval, String who) {
    String title = in.bounce().title();
    String what =
        switch (approval.decision()) {
          case APPROVE ->
              approval.onceDone().isEmpty()
                  ? " approved " + title
                  : " approved " + title + ", once what was named is done";
          case FINE_BY_ME -> " is fine with " + title;
          case NOT_YET -> " says not yet to " + title;
          case STOP -> " says stop to " + title;
          case FINISHED -> " marked " + title + " finished";
        };
    String despite =
        approval.despite().isEmpty()
            ? ""
            : ", in spite of "
                + String.join(", ", approval.despite())
                + approval.reason().map(r -> ": " + r).orElse("");
    return new Happening(
        "approval",
        "approval-" + approval.decision().wire(),
        approval.id(),
        who + what + despite + ". Audio " + approval.pcmSha256() + ".",
        in.bounce().id(),
        null,
        in.bounce().id(),
        null,
        false);
  }

  private static Approval.Words words(Said said) {
    ApprovalDecision decision =
        ApprovalDecision.of(said.decision())
            .orElseThrow(
                () ->
                    WireJson.invalid(
                        "decision", "Say approve, fine-by-me, not-yet, stop or finished."));
    List<String> despite = said.despite() == null ? List.of() : said.despite();
    for (String code : despite) {
      if (!OpenPoint.CODES.contains(code)) {
        throw WireJson.invalid("despite", "There is no open point called “" + code + "”.");
      }
    }
    return new Approval.Words(
        decision,
        longText("comment", said.comment()),
        despite,
        longText("reason", said.reason()),
        said.onceDone() == null ? List.of() : List.copyOf(said.onceDone()));
  }

  private static String longText(String field, String text) {
    if (text == null || text.isBlank()) {
      return null;
    }
    if (text.length() > WORDS_CHARS) {
      throw WireJson.invalid(field, "“" + field + "” may have at most 2000 letters.");
    }
    Texts.checkStorable(text);
    return text.strip();
  }

  private static void checkAwaited(SongDoor.ToBounce in, List<String> changes) {
    for (String id : changes) {
      Change change = Change.<Change>findByIdOptional(id).orElse(null);
      boolean fits =
          change != null
              && change.song().id().equals(in.song().id())
              && change.note().maySee(in.access())
              && (change.state() == ChangeState.ASKED || change.state() == ChangeState.DONE);
      if (!fits) {
        throw WireJson.invalid("onceDone", "Name changes of this song that are still asked for.");
      }
    }
  }

  private static List<String> askedOn(Access by, Bounce bounce) {
    return by.people().approversOf(bounce.uploader().id()).stream()
        .map(m -> m.person().id())
        .toList();
  }

  private static void check(
      Approval.Words words, Said said, SongDoor.ToBounce in, List<OpenPoint> open) {
    Access by = in.access();
    List<String> asked = askedOn(by, in.bounce());
    ApprovalRules.Ruling ruling =
        ApprovalRules.decide(
            new ApprovalRules.Request(
                words.decision(),
                said.pcmSha256(),
                words.despite(),
                words.reason() != null,
                !words.onceDone().isEmpty()),
            new ApprovalRules.Facts(
                asked.contains(by.person().id()),
                !asked.isEmpty(),
                by.may(Act.WORK_LIST),
                by.may(Act.SAY_FINE),
                in.bounce().sent(),
                ApprovalBooks.hash(in.bounce()),
                open));
    switch (ruling.outcome()) {
      case ALLOWED -> {}
      case NOT_YOURS ->
          throw new ProblemException(
              Problem.NOT_ALLOWED,
              words.decision() == ApprovalDecision.APPROVE
                  ? "You are not asked to approve this mix. You can say that it is fine by you."
                  : words.decision() == ApprovalDecision.FINISHED
                      ? "Somebody else is here to approve, so the engineer cannot just finish it."
                      : "Who only listens cannot say that here.");
      case WRONG_STATE ->
          throw new ProblemException(Problem.WRONG_STATE, "This mix has not been sent yet.");
      case HASH_MISSING ->
          throw WireJson.invalid(
              "pcmSha256", "Name the audio you mean: pcmSha256 of the mix you heard.");
      case HASH_DIFFERS ->
          throw new ProblemException(
                  Problem.HASH_DIFFERS,
                  "The audio you name is not the audio of this mix. Load the page anew and listen.")
              .with("pcmSha256", ApprovalBooks.hash(in.bounce()));
      case OPEN_POINTS ->
          throw new ProblemException(
                  Problem.OPEN_POINTS,
                  "Before approval: "
                      + ruling.open().stream()
                          .map(OpenPoint::detail)
                          .collect(Collectors.joining(" ")))
              .with("openPoints", ruling.open());
      case REASON_NEEDED ->
          throw WireJson.invalid("reason", "Say why you go ahead in spite of what is open.");
      case ONCE_DONE_UNFIT ->
          throw WireJson.invalid("onceDone", "Only an approval can wait for changes.");
    }
  }

  /** Withdraws one's own decision, or lifts a stop. */
  @Transactional
  public Made end(String approvalId, String reason) {
    Approval approval =
        Approval.<Approval>findByIdOptional(approvalId).orElseThrow(Doorkeeper::notFound);
    SongDoor.ToBounce in = door.bounce(approval.bounce().id());
    sheet.lock(in.song());
    Access by = in.access();
    String why = longText("reason", reason);
    ApprovalRules.Outcome outcome =
        ApprovalRules.end(
            approval.given(java.util.Set.of()),
            approval.person().id().equals(by.person().id()),
            askedOn(by, in.bounce()).contains(by.person().id()),
            why != null);
    switch (outcome) {
      case ALLOWED -> {}
      case WRONG_STATE ->
          throw new ProblemException(Problem.WRONG_STATE, "This was taken back already.");
      case REASON_NEEDED ->
          throw WireJson.invalid("reason", "Say why you lift somebody else’s stop.");
      default ->
          throw new ProblemException(
              Problem.NOT_ALLOWED,
              "Everybody takes back what they said themselves; a stop can also be lifted by"
                  + " somebody asked to approve.");
    }
    approval.end(by.person(), why, sheet.now());
    boolean stop = approval.decision() == ApprovalDecision.STOP;
    HistoryEntry head =
        sheet.tell(
            by,
            in.song(),
            new Happening(
                "approval",
                stop ? "stop-lifted" : "approval-withdrawn",
                approval.id(),
                by.person().name()
                    + (stop ? " lifted the stop of " : " took back the decision of ")
                    + approval.person().name()
                    + (why == null ? "." : ": " + why),
                in.bounce().id(),
                null,
                in.bounce().id(),
                null,
                false));
    return new Made(approval.id(), ApprovalBook.Standing.WITHDRAWN, head.hash());
  }
}

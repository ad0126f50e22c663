package org.mixaccord.record;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Clock;
import org.mixaccord.accounts.Person;
import org.mixaccord.songs.Bounce;
import org.mixaccord.songs.BounceKind;
import org.mixaccord.songs.Song;

/** Letting everybody hear a bounce: it gets its label, and a main opens its round. */
@ApplicationScoped
public class Sending {
  private final History history;
  private final AfterSending after;
  private final Clock clock;

  Sending(History history, AfterSending after, Clock clock) {
    this.history = history;
    this.after = after;
    this.clock = clock;
  }

  /**
   * Sends a bounce.
   *
   * @param label what it is called; null: “Mix n” for the n-th main sent, its main's label for an
   *     alternate
   * @param message one line on what was done, or null
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public void send(Bounce bounce, Person by, String label, String message) {
    Song song = bounce.song();
    boolean main = bounce.kind() == BounceKind.MAIN;
    int sentMains =
        (int) Bounce.count("song = ?1 and kind = ?2 and sentAt is not null", song, BounceKind.MAIN);
    int round = main ? sentMains + 1 : Math.max(1, song.round());
    bounce.send(
        label == null || label.isBlank() ? usualLabel(bounce, sentMains) : label,
        message,
        round,
        by,
        clock.instant());
    if (main) {
      song.openRound(round);
    }
    String said = bounce.message().map(m -> " “" + m + "”").orElse("");
    history.append(
        song,
        by,
        Happening.of(bounce, "sent", "sent", by.name() + " sent " + bounce.title() + "." + said));
    after.sent(bounce, by);
  }

  private static String usualLabel(Bounce bounce, int sentMains) {
    if (bounce.kind() == BounceKind.MAIN) {
      return "Mix " + (sentMains + 1);
    }
    return bounce
        .main()
        .flatMap(Bounce::label)
        .orElse(bounce.kind().words() + " " + bounce.number());
  }
}

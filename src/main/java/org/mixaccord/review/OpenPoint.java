package org.mixaccord.review;

import java.util.ArrayList;
import java.util.List;
import java.util.StringJoiner;
import java.util.regex.Pattern;

/**
 * Something that still stands between a bounce and its approval.
 *
 * @param code name of the condition that fails
 * @param detail what fails, in words
 * @param passable whether an approver may go ahead anyway, by naming it with a reason
 */
public record OpenPoint(String code, String detail, boolean passable) {
  public static final String MEASURED = "measured";
  public static final String SENT = "sent";
  public static final String FILE_SOUND = "file-sound";
  public static final String NO_OPEN_QUESTION = "no-open-question";
  public static final String NO_OPEN_CHANGE = "no-open-change";
  public static final String SPEC_MET = "spec-met";
  public static final String NO_STOP = "no-stop";

  /** Every code there is, in the order they are listed. */
  public static final List<String> CODES =
      List.of(MEASURED, SENT, FILE_SOUND, NO_OPEN_QUESTION, NO_OPEN_CHANGE, SPEC_MET, NO_STOP);

  /**
   * What is known of a bounce and its song.
   *
   * @param measured whether it has been measured
   * @param sent whether it has been sent
   * @param defects what is wrong with the file so that the sound suffers, in words
   * @param questions open questions and unsettled contradictions, in words
   * @param changes what is asked for and not in this bounce, in words
   * @param specMisses what was agreed for delivery and is not kept, in words
   * @param stops who has said stop
   */
  public record Facts(
      boolean measured,
      boolean sent,
      List<String> defects,
      List<String> questions,
      List<String> changes,
      List<String> specMisses,
      List<String> stops) {}

  /** The open points of a bounce, in a fixed order; empty when nothing is open. */
  public static List<OpenPoint> of(Facts facts) {
    List<OpenPoint> open = new ArrayList<>();
    if (!facts.measured()) {
      open.add(new OpenPoint(MEASURED, "This mix has not been measured.", false));
    }
    if (!facts.sent()) {
      open.add(new OpenPoint(SENT, "This mix has not been sent.", false));
    }
    add(open, FILE_SOUND, facts.defects(), false);
    add(open, NO_OPEN_QUESTION, facts.questions(), true);
    add(open, NO_OPEN_CHANGE, facts.changes(), true);
    add(open, SPEC_MET, facts.specMisses(), true);
    add(open, NO_STOP, facts.stops(), false);
    return open;
  }

  private static void add(List<OpenPoint> open, String code, List<String> what, boolean passable) {
    if (!what.isEmpty()) {
      open.add(new OpenPoint(code, listed(what), passable));
    }
  }

  /** The first few by name, the rest by number, each a sentence of its own. */
  private static String listed(List<String> what) {
    StringJoiner sentences = new StringJoiner(" ");
    what.stream().limit(SHOWN).map(OpenPoint::sentence).forEach(sentences::add);
    if (what.size() > SHOWN) {
      sentences.add("And " + (what.size() - SHOWN) + " more.");
    }
    return sentences.toString();
  }

  private static String sentence(String words) {
    return ENDED.matcher(words).find() ? words : words + ".";
  }

  private static final int SHOWN = 5;

  /** A stop, also one within quotation marks or brackets. */
  private static final Pattern ENDED = Pattern.compile("[.!?…]$|[.!?…][”)]$");
}

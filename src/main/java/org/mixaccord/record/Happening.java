package org.mixaccord.record;

import org.mixaccord.songs.Bounce;

/**
 * Something about to be written to a song's history, and who may see it.
 *
 * @param type of event: bounce, sent, note, question, change, approval or people
 * @param act what was done, kebab case
 * @param subject id of what it was done to
 * @param detail one sentence
 * @param bounce the bounce it concerns, or null
 * @param change the change it concerns, or null
 * @param gateBounce only who may hear this bounce sees the row; null: no such gate
 * @param gateNote only who may see this note sees the row; null: no such gate
 * @param engineersOnly only engineers see the row
 */
public record Happening(
    String type,
    String act,
    String subject,
    String detail,
    String bounce,
    String change,
    String gateBounce,
    String gateNote,
    boolean engineersOnly) {

  /** Something everybody in the project may see. */
  public static Happening open(String type, String act, String subject, String detail) {
    return new Happening(type, act, subject, detail, null, null, null, null, false);
  }

  /** Something about a bounce, seen by whoever may hear it. */
  public static Happening of(Bounce bounce, String type, String act, String detail) {
    return new Happening(
        type, act, bounce.id(), detail, bounce.id(), null, bounce.id(), null, false);
  }

  /** The same about a bounce, for whoever may see the row already. */
  public Happening about(String bounceId) {
    return new Happening(
        type, act, subject, detail, bounceId, change, gateBounce, gateNote, engineersOnly);
  }

  /** The same about a change. */
  public Happening onChange(String changeId) {
    return new Happening(
        type, act, subject, detail, bounce, changeId, gateBounce, gateNote, engineersOnly);
  }

  /** The same, seen only by whoever may hear a bounce (null: no such gate). */
  public Happening behindBounce(String bounceId) {
    return new Happening(
        type, act, subject, detail, bounce, change, bounceId, gateNote, engineersOnly);
  }

  /** The same, seen only by whoever may see a note. */
  public Happening behindNote(String noteId) {
    return new Happening(
        type, act, subject, detail, bounce, change, gateBounce, noteId, engineersOnly);
  }

  /** The same, for engineers only. */
  public Happening forEngineers() {
    return new Happening(type, act, subject, detail, bounce, change, gateBounce, gateNote, true);
  }
}

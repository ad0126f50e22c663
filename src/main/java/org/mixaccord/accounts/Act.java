package org.mixaccord.accounts;

import java.util.Locale;

/** Everything in a project that not everybody may do; {@link Rights} says who may. */
public enum Act {
  /** Hear private passes and everything hung on them. */
  HEAR_PRIVATE,
  /** See findings, verdicts and the figures of single parts. */
  SEE_CHECKS,
  /** See measurements and comparisons of sent mixes. */
  SEE_FIGURES,
  /** Read notes and the change list. */
  SEE_LIST,
  /** Write notes, answer one's own questions, withdraw one's own changes. */
  WRITE_NOTE,
  /** Fetch the file as uploaded. */
  DOWNLOAD,
  /** Upload any kind of bounce. */
  UPLOAD_MAIN,
  /** Upload a rough or a reference. */
  UPLOAD_ROUGH,
  UPLOAD_STEMS,
  SET_SECTIONS,
  EDIT_SONG,
  SEND,
  /** Mark changes done or left, edit any of them, split, join and add. */
  WORK_LIST,
  CLOSE_ROUND,
  /** Settle a contradiction; withdraw for others. */
  SETTLE,
  SEND_GATHERED,
  /** Fine by me, not yet, stop. */
  SAY_FINE,
  /** Be asked for approval, as far as no upload of one's own is concerned. */
  APPROVE,
  MANAGE_PEOPLE,
  EDIT_SPEC;

  /** Name on the wire. */
  public String wire() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}

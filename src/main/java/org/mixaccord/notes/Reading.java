package org.mixaccord.notes;

import java.util.List;

/**
 * How a note was read.
 *
 * @param changes what is asked for, in the order of the note
 * @param keeps what is to be left alone, in the order of the note
 * @param remarks everything else that was said, in the order of the note
 */
public record Reading(
    List<RequestedChange> changes, List<RequestedKeep> keeps, List<Remark> remarks) {
  /** Copies the lists in. */
  public Reading {
    changes = List.copyOf(changes);
    keeps = List.copyOf(keeps);
    remarks = List.copyOf(remarks);
  }
}

package org.mixaccord.notes;

/**
 * What the author answered to one question.
 *
 * @param start where the asked change's words begin in the note: {@link RequestedChange#start()}
 * @param end where they end
 * @param words the answer: one of the question's choices or the author's own words
 */
public record NoteAnswer(int start, int end, String words) {}

/**
 * The language of notes: words a musician wrote about a bounce become requested changes, keeps and
 * remarks, each with the span of words it came from.
 *
 * <p>Pure: knows no audio, no clock, no storage. What cannot be read stays as a remark; what cannot
 * be acted upon carries a question. Nothing here throws on any text.
 */
package org.mixaccord.notes;

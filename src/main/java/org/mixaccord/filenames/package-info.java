/**
 * Reads names of files into proposals: song, kind, number, rate, depth, side, part. Knows nothing
 * of the bytes, decides nothing, never throws for a name.
 */
package org.mixaccord.filenames;

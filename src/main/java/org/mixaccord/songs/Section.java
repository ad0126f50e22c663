package org.mixaccord.songs;

/**
 * A named stretch of a song, on the time line of one bounce.
 *
 * @param name what people call it
 * @param from start in seconds
 * @param to end in seconds, after the start
 */
public record Section(String name, double from, double to) {}

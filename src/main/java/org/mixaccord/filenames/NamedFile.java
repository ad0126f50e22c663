package org.mixaccord.filenames;

import java.util.OptionalLong;

/**
 * A file to be read by its name alone.
 *
 * @param path its name, or its way in a dropped folder, with / or \ between
 * @param bytes its size, if known
 */
public record NamedFile(String path, OptionalLong bytes) {}

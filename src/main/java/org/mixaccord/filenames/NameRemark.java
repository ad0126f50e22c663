package org.mixaccord.filenames;

import java.util.Optional;

/**
 * Something odd about a file's name beside its sound or beside other files.
 *
 * @param code what it is, kebab case
 * @param detail the same in a sentence
 * @param with the other file it is about
 */
public record NameRemark(String code, String detail, Optional<String> with) {}

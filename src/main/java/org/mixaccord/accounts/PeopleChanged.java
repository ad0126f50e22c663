package org.mixaccord.accounts;

/**
 * Something about the people of a project changed; told to the history of its songs.
 *
 * @param project the project
 * @param by the person who did it
 * @param act what was done, kebab case
 * @param subject the member concerned
 * @param detail one sentence
 */
public record PeopleChanged(String project, String by, String act, String subject, String detail) {}

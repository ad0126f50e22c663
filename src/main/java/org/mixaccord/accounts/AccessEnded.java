package org.mixaccord.accounts;

/**
 * Somebody's way in has ended: a browser signed out, or a person left a project. Open streams of
 * theirs end at once.
 *
 * @param person whose it was
 * @param session the browser session that ended; null when a person left a project
 * @param project the project that was left; null when a browser signed out
 */
public record AccessEnded(String person, String session, String project) {}

package org.mixaccord.accounts;

/**
 * Somebody's way in has ended: a browser signed out, an access token was dropped, or a person left
 * a project. Open streams of theirs end at once.
 *
 * @param person whose it was
 * @param key the browser session or the access token that ended; null when a person left a project
 * @param project the project that was left; null when a key ended
 */
public record AccessEnded(String person, String key, String project) {}

package org.mixaccord.songs;

import org.mixaccord.accounts.Person;

/**
 * A file that came in whole, and what its uploader said of it.
 *
 * @param main the main an alternate belongs to, or null
 * @param label what it may be called once it is sent, or null
 */
public record ReceivedFile(
    BounceKind kind,
    Bounce main,
    String label,
    Person uploader,
    String fileName,
    long bytes,
    String sha256) {}

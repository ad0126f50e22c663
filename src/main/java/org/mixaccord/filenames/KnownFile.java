package org.mixaccord.filenames;

import java.util.Optional;
import java.util.OptionalInt;

/**
 * An uploaded file as far as names are held against it.
 *
 * @param id how it is referred to
 * @param title what it is called, such as "Mix 2"
 * @param fileName as uploaded
 * @param songId its song
 * @param songTitle the song's title
 * @param kind what it was uploaded as
 * @param sha256 hash of its bytes
 * @param pcmSha256 hash of its samples, once decoded
 * @param sampleRateHz what the file has, once decoded
 * @param bitDepth what the file has, if its coding has bits
 */
public record KnownFile(
    String id,
    String title,
    String fileName,
    String songId,
    String songTitle,
    String kind,
    String sha256,
    Optional<String> pcmSha256,
    OptionalInt sampleRateHz,
    OptionalInt bitDepth) {}

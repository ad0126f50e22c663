package org.mixaccord.measure;

import java.util.OptionalInt;

/**
 * What the file says of itself, for the checks against the delivery limits.
 *
 * @param sampleRate frames per second of the file as uploaded
 * @param bitDepth bits a sample; empty for lossy files, which have none
 * @param usedBits bits of an integer sample that are really used; empty where that has no meaning
 * @param floating whether samples are stored as floating point
 * @param lossy whether the file was coded with loss
 */
public record FileFacts(
    int sampleRate, OptionalInt bitDepth, OptionalInt usedBits, boolean floating, boolean lossy) {}

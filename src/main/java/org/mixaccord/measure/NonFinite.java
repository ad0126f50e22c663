package org.mixaccord.measure;

import java.util.OptionalDouble;

/**
 * Samples that are no numbers (NaN, infinite, or beyond any use). They are metered as silence.
 *
 * @param count how many samples, all channels
 * @param firstSeconds time of the first; empty when there is none
 * @param lastSeconds time of the last; empty when there is none
 */
public record NonFinite(long count, OptionalDouble firstSeconds, OptionalDouble lastSeconds) {}

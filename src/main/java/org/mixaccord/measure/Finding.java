package org.mixaccord.measure;

import java.util.OptionalDouble;

/**
 * Something measured that nobody asked about.
 *
 * @param code kebab case, from the list in docs/measurement.md
 * @param severity how much it matters
 * @param detail one or two sentences in a musician's words, figures with units
 * @param fromSeconds start of the place on the bounce's own time line
 * @param toSeconds end of the place
 * @param value the figure that stands out, in the unit the detail names
 * @param limit what it is held against, same unit
 */
public record Finding(
    String code,
    Severity severity,
    String detail,
    double fromSeconds,
    double toSeconds,
    OptionalDouble value,
    OptionalDouble limit) {}

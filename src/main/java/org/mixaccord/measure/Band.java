package org.mixaccord.measure;

import java.util.OptionalDouble;

/**
 * One third-octave band of a range.
 *
 * @param centreHz nominal centre, 20 to 20000 (IEC 61260-1)
 * @param levelDb 10·lg of the mean square, averaged over the channels, re full scale 1.0 (a full
 *     scale sine reads −3.01); empty for silence and where the centre is above 0.45 of the sample
 *     rate
 * @param correlation left against right inside the band, −1 to +1; two channels only, empty where
 *     one is silent
 * @param monoLossDb level lost in this band when both channels are folded to one, 0 or more; two
 *     channels only, empty where nothing at all is left
 */
public record Band(
    double centreHz,
    OptionalDouble levelDb,
    OptionalDouble correlation,
    OptionalDouble monoLossDb) {}

package org.mixaccord.measure;

import java.util.List;
import java.util.OptionalDouble;

/**
 * The figures of a whole clip or of one section. Whatever does not exist (loudness of silence, a
 * range of something too short, stereo figures of a mono file) is empty. Times are seconds from the
 * clip's first sample. Derivations and sources: docs/measurement.md.
 *
 * @param integratedLufs gated loudness (BS.1770-5) of the blocks wholly inside; empty when none
 *     passes the gates
 * @param ungatedLufs loudness of every sample alike; empty under 0.4 s and for digital silence
 * @param shareLufs the section's part in the whole clip's integrated loudness: blocks by their
 *     centre, gate of the whole clip; empty when all of them are below that gate
 * @param dualMonoLufs integrated loudness of a one-channel clip heard from two loudspeakers; empty
 *     for more channels
 * @param loudnessRangeLu loudness range (Tech 3342) from short-term values 100 ms apart; empty
 *     under 10 s
 * @param loudnessRangeStable false under 60 s, where Tech 3341 calls the range unstable
 * @param maxMomentaryLufs loudest 0.4 s window wholly inside, at 10 ms steps
 * @param maxShortTermLufs loudest 3 s window wholly inside, at 10 ms steps
 * @param maxShortTermAt start of that window, s
 * @param truePeakDbtp highest value of the interpolated signal, dBTP; never below the sample peak
 * @param truePeakAt its instant, s
 * @param samplePeakDbfs highest |sample|, dB re full scale 1.0
 * @param samplePeakAt time of its first occurrence, s
 * @param clippedRuns runs of at least three full-scale samples in one channel that begin here
 * @param interSampleOvers stretches that begin here, where the signal between the samples passes 0
 *     dBTP although no sample passes full scale; less than 1 ms apart they are one
 * @param crestDb sample peak minus RMS, channels pooled by power (a sine reads 3.01)
 * @param peakToLoudnessDb true peak minus integrated loudness
 * @param minPeakToShortTermDb smallest true peak minus short-term loudness of one 3 s window
 * @param minPeakToShortTermAt start of that window, s
 * @param dcOffset the channel mean farthest from zero, linear
 * @param correlation left against right, −1 to +1
 * @param sideToMidDb level of (L−R)/2 re (L+R)/2
 * @param balanceDb left re right, positive to the left
 * @param monoLossDb level lost by folding both channels to one, 0 or more
 * @param bands third-octave levels; empty list under 0.1 s
 */
public record Measurements(
    OptionalDouble integratedLufs,
    OptionalDouble ungatedLufs,
    OptionalDouble shareLufs,
    OptionalDouble dualMonoLufs,
    OptionalDouble loudnessRangeLu,
    boolean loudnessRangeStable,
    OptionalDouble maxMomentaryLufs,
    OptionalDouble maxShortTermLufs,
    OptionalDouble maxShortTermAt,
    OptionalDouble truePeakDbtp,
    OptionalDouble truePeakAt,
    OptionalDouble samplePeakDbfs,
    OptionalDouble samplePeakAt,
    int clippedRuns,
    int interSampleOvers,
    OptionalDouble crestDb,
    OptionalDouble peakToLoudnessDb,
    OptionalDouble minPeakToShortTermDb,
    OptionalDouble minPeakToShortTermAt,
    OptionalDouble dcOffset,
    OptionalDouble correlation,
    OptionalDouble sideToMidDb,
    OptionalDouble balanceDb,
    OptionalDouble monoLossDb,
    List<Band> bands) {
  public Measurements {
    bands = List.copyOf(bands);
  }
}

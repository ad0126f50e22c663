package org.mixaccord.measure;

/**
 * Channel weights of BS.1770-5 (Annex 1 Table 3, Annex 3 Table 4) for the usual channel orders of
 * WAVE and FLAC files. A clip does not say its layout, so the number of channels stands for it: 1
 * mono, 2 stereo, 3 L R C, 4 L R Ls Rs, 5 L R C Ls Rs, 6 L R C LFE Ls Rs, 7 L R C LFE Cs Ls Rs, 8 L
 * R C LFE Lb Rb Ls Rs. More channels all count 1.
 */
final class ChannelWeights {
  private static final double SIDE = 1.41; // BS.1770-5 Table 3

  private ChannelWeights() {}

  static double[] of(int channels) {
    return switch (channels) {
      case 4 -> new double[] {1, 1, SIDE, SIDE};
      case 5 -> new double[] {1, 1, 1, SIDE, SIDE};
      case 6 -> new double[] {1, 1, 1, 0, SIDE, SIDE};
      case 7 -> new double[] {1, 1, 1, 0, 1, SIDE, SIDE};
      case 8 -> new double[] {1, 1, 1, 0, 1, 1, SIDE, SIDE};
      default -> {
        double[] ones = new double[channels];
        java.util.Arrays.fill(ones, 1);
        yield ones;
      }
    };
  }
}

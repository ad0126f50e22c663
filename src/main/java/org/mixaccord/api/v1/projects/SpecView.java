package org.mixaccord.api.v1.projects;

import org.mixaccord.accounts.DeliverySpec;

/** What was agreed for delivery; null where nothing was. */
public record SpecView(
    Double ceilingDbtp,
    Double ceilingDbfs,
    Double minLufs,
    Double maxLufs,
    Integer sampleRate,
    Integer bitDepth,
    Integer includedRounds) {

  static SpecView of(DeliverySpec spec) {
    return new SpecView(
        spec.ceilingDbtp(),
        spec.ceilingDbfs(),
        spec.minLufs(),
        spec.maxLufs(),
        spec.sampleRate(),
        spec.bitDepth(),
        spec.includedRounds());
  }

  DeliverySpec spec() {
    return new DeliverySpec(
        ceilingDbtp, ceilingDbfs, minLufs, maxLufs, sampleRate, bitDepth, includedRounds);
  }
}

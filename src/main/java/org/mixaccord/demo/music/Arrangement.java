package org.mixaccord.demo.music;

import java.util.List;
import java.util.Map;

/** What one demo song is made of: its form, its parts ready to be played, its mixes. */
interface Arrangement {
  Form form();

  /** Length of the song in frames, ring-out included. */
  long frames();

  /** Part names and their level in the balance in dB, in the order of a track list. */
  Map<String, Double> balanceDb();

  /** A part from its start, ready to be played once. */
  Track track(String part);

  List<MixPlan> mixes();
}

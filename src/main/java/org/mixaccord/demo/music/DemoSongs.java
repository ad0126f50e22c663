package org.mixaccord.demo.music;

/** The two invented songs of the demo. */
public final class DemoSongs {
  private DemoSongs() {}

  /** The song with a whole round of work behind it: three mixes, seven parts. */
  public static DemoSong first() {
    return new DemoSong(
        "Kitchen Meridian", "Half the Map", "Marigold Overcoat", 100, new FirstSong());
  }

  /** A shorter electronic song by somebody else: two mixes, five parts. */
  public static DemoSong second() {
    return new DemoSong(
        "Glasshouse Tuesday", "Late Service", "Night Bus Botany", 120, new SecondSong());
  }
}

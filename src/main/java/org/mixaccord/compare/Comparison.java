package org.mixaccord.compare;

import java.util.List;
import java.util.OptionalDouble;
import org.mixaccord.align.MapPiece;
import org.mixaccord.align.TimeSpan;

/**
 * What differs between two bounces. Field names are those of the API; a level that does not exist
 * (nothing is left after the gain match, silence, no match) is empty.
 *
 * @param likeness how alike they are
 * @param causes what explains differences that run through the whole bounce
 * @param offsetSeconds {@code otherFrom − from} of the longest piece
 * @param speedRatio seconds here for one second there
 * @param polarity +1 or −1
 * @param gainDb overall level difference, positive when this bounce is louder
 * @param timeMap what is in both, ordered by {@code from}
 * @param onlyHere stretches of this bounce that the other lacks
 * @param onlyThere stretches of the other bounce that this one lacks
 * @param floorDb residual that is normal between these two files, relative to the level of the
 *     whole
 * @param whole figures over everything that is in both
 * @param sections figures of each section, in the order given; sections found only in the other
 *     bounce come last
 */
public record Comparison(
    Likeness likeness,
    List<Cause> causes,
    double offsetSeconds,
    double speedRatio,
    int polarity,
    double gainDb,
    List<MapPiece> timeMap,
    List<TimeSpan> onlyHere,
    List<TimeSpan> onlyThere,
    OptionalDouble floorDb,
    Whole whole,
    List<SectionDifference> sections) {
  public Comparison {
    causes = List.copyOf(causes);
    timeMap = List.copyOf(timeMap);
    onlyHere = List.copyOf(onlyHere);
    onlyThere = List.copyOf(onlyThere);
    sections = List.copyOf(sections);
  }

  /**
   * Something that explains a difference everywhere.
   *
   * @param code which
   * @param detail in words, with the figure
   * @param value the figure in the unit named in {@code detail}; empty where there is none
   */
  public record Cause(CauseCode code, String detail, OptionalDouble value) {}

  /**
   * Figures over everything that is in both bounces.
   *
   * @param loudnessChangeLu change of ungated loudness as delivered, LU
   * @param residualDb what is left after alignment and gain match, relative to the level here
   * @param bands by third-octave band
   * @param elements by part, when stems were given
   */
  public record Whole(
      OptionalDouble loudnessChangeLu,
      OptionalDouble residualDb,
      List<BandDifference> bands,
      List<ElementDifference> elements) {
    public Whole {
      bands = List.copyOf(bands);
      elements = List.copyOf(elements);
    }
  }

  /**
   * Figures of one section.
   *
   * @param name the section's name
   * @param from start here, seconds; empty when it is only there
   * @param to end here, seconds; empty when it is only there
   * @param otherFrom start on the other bounce; empty when it is only here
   * @param otherTo end on the other bounce; empty when it is only here
   * @param difference the verdict
   * @param loudnessChangeLu change of ungated loudness as delivered, LU
   * @param residualDb what is left after alignment and overall gain match, relative to its own
   *     level
   * @param midChangeDb level change of the sum of both sides as delivered; stereo only
   * @param sideChangeDb level change of the difference of both sides as delivered; stereo only
   * @param bands by third-octave band
   * @param elements by part, when stems were given
   */
  public record SectionDifference(
      String name,
      OptionalDouble from,
      OptionalDouble to,
      OptionalDouble otherFrom,
      OptionalDouble otherTo,
      Difference difference,
      OptionalDouble loudnessChangeLu,
      OptionalDouble residualDb,
      OptionalDouble midChangeDb,
      OptionalDouble sideChangeDb,
      List<BandDifference> bands,
      List<ElementDifference> elements) {
    public SectionDifference {
      bands = List.copyOf(bands);
      elements = List.copyOf(elements);
    }
  }

  /**
   * One third-octave band.
   *
   * @param centreHz nominal centre
   * @param changeDb level change as delivered; empty where either side is silent
   * @param residualDb what is left after alignment and overall gain match, relative to the band's
   *     level here; empty where nothing is left
   */
  public record BandDifference(
      double centreHz, OptionalDouble changeDb, OptionalDouble residualDb) {}

  /**
   * One part.
   *
   * @param element its name
   * @param gainChangeDb level change as delivered; empty where it cannot be told
   * @param plusMinusDb how far off that may be
   * @param explained share of the part's (or the mix's) difference the figure accounts for, 0 to 1
   * @param panChange −1 to 1, positive to the right
   * @param lagSeconds by how much the part comes later here than the rest of the music
   * @param present whether it sounds here
   * @param presentThere whether it sounds in the other bounce
   */
  public record ElementDifference(
      String element,
      OptionalDouble gainChangeDb,
      OptionalDouble plusMinusDb,
      OptionalDouble explained,
      OptionalDouble panChange,
      OptionalDouble lagSeconds,
      boolean present,
      boolean presentThere) {}
}

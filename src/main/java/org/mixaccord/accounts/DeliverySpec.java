package org.mixaccord.accounts;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import org.mixaccord.problem.Problem;
import org.mixaccord.problem.ProblemException;

/** What the bounces of a project have to keep to; anything may be left open (null). */
@Embeddable
public class DeliverySpec {
  @Column(name = "ceiling_dbtp")
  private Double ceilingDbtp;

  @Column(name = "ceiling_dbfs")
  private Double ceilingDbfs;

  @Column(name = "min_lufs")
  private Double minLufs;

  @Column(name = "max_lufs")
  private Double maxLufs;

  @Column(name = "sample_rate")
  private Integer sampleRate;

  @Column(name = "bit_depth")
  private Integer bitDepth;

  @Column(name = "included_rounds")
  private Integer includedRounds;

  protected DeliverySpec() {}

  /**
   * A specification.
   *
   * @param ceilingDbtp highest true peak, −60 to 20 dBTP
   * @param ceilingDbfs highest sample peak, −60 to 20 dBFS
   * @param minLufs lowest integrated loudness, −70 to 5 LUFS
   * @param maxLufs highest integrated loudness, −70 to 5 LUFS
   * @param sampleRate frames per second, 8000 to 192000
   * @param bitDepth 16, 24 or 32
   * @param includedRounds rounds agreed on, 0 to 100
   */
  public DeliverySpec(
      Double ceilingDbtp,
      Double ceilingDbfs,
      Double minLufs,
      Double maxLufs,
      Integer sampleRate,
      Integer bitDepth,
      Integer includedRounds) {
    this.ceilingDbtp = within("ceilingDbtp", ceilingDbtp, -60, 20);
    this.ceilingDbfs = within("ceilingDbfs", ceilingDbfs, -60, 20);
    this.minLufs = within("minLufs", minLufs, -70, 5);
    this.maxLufs = within("maxLufs", maxLufs, -70, 5);
    this.sampleRate = within("sampleRate", sampleRate, 8000, 192000);
    this.bitDepth = within("bitDepth", bitDepth, 8, 64);
    this.includedRounds = within("includedRounds", includedRounds, 0, 100);
    if (minLufs != null && maxLufs != null && minLufs > maxLufs) {
      throw new ProblemException(
          Problem.INVALID, "The lowest loudness asked for lies above the highest.");
    }
  }

  private static <N extends Number> N within(String field, N value, double low, double high) {
    if (value != null && !(value.doubleValue() >= low && value.doubleValue() <= high)) {
      throw new ProblemException(
              Problem.INVALID,
              String.format(
                      java.util.Locale.ROOT,
                      "“%s” must lie between %.0f and %.0f.",
                      field,
                      low,
                      high)
                  .replace('-', '−'))
          .with("field", field);
    }
    return value;
  }

  public Double ceilingDbtp() {
    return ceilingDbtp;
  }

  public Double ceilingDbfs() {
    return ceilingDbfs;
  }

  public Double minLufs() {
    return minLufs;
  }

  public Double maxLufs() {
    return maxLufs;
  }

  public Integer sampleRate() {
    return sampleRate;
  }

  public Integer bitDepth() {
    return bitDepth;
  }

  public Integer includedRounds() {
    return includedRounds;
  }
}

package org.mixaccord.measure;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class KWeightingTest {
  @Test
  void regeneratesTheTablesPrintedFor48kHz() {
    KWeighting k = KWeighting.at(48000);
    assertArrayEquals(
        new double[] {1.53512485958697, -2.69169618940638, 1.19839281085285}, k.shelfB(), 1e-13);
    assertArrayEquals(new double[] {-1.69065929318241, 0.73248077421585}, k.shelfA(), 1e-13);
    assertArrayEquals(new double[] {1, -2, 1}, k.highPassB(), 1e-13);
    assertArrayEquals(new double[] {-1.99004745483398, 0.99007225036621}, k.highPassA(), 1e-13);
  }

  @ParameterizedTest
  @CsvSource({
    "44100, 1.53084123005035, -2.65097999515473, 1.16907907992159, -1.66365511325602,"
        + " 0.71259542807323, -1.98916967362980, 0.98919903578704, 0.9995600645",
    "88200, 1.55751537557965, -2.90562707992635, 1.36133397747221, -1.83091998796233,"
        + " 0.84414226108785, -1.99457751545034, 0.99458487587805, 1.0022719634",
    "96000, 1.55971422897580, -2.92674157825108, 1.37826120231582, -1.84460946989011,"
        + " 0.85584332293064, -1.99501754472472, 0.99502375904092, 1.0024927890",
    "176400, 1.57111531774185, -3.03654450240465, 1.46887161198976, -1.91532931683305,"
        + " 0.91877174416001, -1.99728692242381, 0.99728876502607, 1.0036320471",
    "192000, 1.57222721509128, -3.04728305156155, 1.47797134097961, -1.92220223060749,"
        + " 0.92511773511683, -1.99750722284070, 0.99750877835551, 1.0037426754"
  })
  void coefficientsOfOtherRates(
      int rate,
      double b0,
      double b1,
      double b2,
      double a1,
      double a2,
      double c1,
      double c2,
      double scale) {
    KWeighting k = KWeighting.at(rate);
    assertArrayEquals(new double[] {b0, b1, b2}, k.shelfB(), 1e-12);
    assertArrayEquals(new double[] {a1, a2}, k.shelfA(), 1e-12);
    assertArrayEquals(new double[] {c1, c2}, k.highPassA(), 1e-12);
    assertArrayEquals(new double[] {scale, -2 * scale, scale}, k.highPassB(), 1e-9);
  }

  @ParameterizedTest
  @CsvSource({
    "20, -13.275",
    "50, -3.934",
    "100, -1.134",
    "500, 0.043",
    "997, 0.691",
    "1000, 0.698",
    "2000, 3.071",
    "4000, 3.968",
    "8000, 4.039",
    "10000, 4.042",
    "20000, 4.043"
  })
  void gainIsTheSameAtEveryRate(double hz, double db) {
    for (int rate : new int[] {44100, 48000, 88200, 96000, 176400, 192000}) {
      assertEquals(db, KWeighting.at(rate).gainDb(hz, rate), rate == 48000 ? 0.0006 : 0.0065);
    }
  }

  /** The wanted gains are those the printed coefficients give at 48 kHz. */
  @ParameterizedTest
  @CsvSource({
    "100, -1.134",
    "500, 0.043",
    "997, 0.691",
    "1682, 2.483",
    "2000, 3.071",
    "3000, 3.808",
    "3600, 3.928"
  })
  void lowRatesReadTheSameWithinAFewHundredths(double hz, double db) {
    for (int rate : new int[] {8000, 11025, 16000, 22050, 24000}) {
      assertEquals(db, KWeighting.at(rate).gainDb(hz, rate), rate < 11000 ? 0.045 : 0.012);
    }
  }
}

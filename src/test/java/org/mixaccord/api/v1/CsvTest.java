package org.mixaccord.api.v1;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class CsvTest {
  @Test
  void linesEndAsTheFormatWantsThem() {
    Csv csv = new Csv().header(List.of("a", "b (dB)"));
    csv.line(List.of(Csv.words("x"), Csv.number(-1.5)));
    assertEquals("a,b (dB)\r\nx,-1.5\r\n", csv.toString());
  }

  @Test
  void wordsWithSeparatorsAreQuoted() {
    assertEquals("Chorus 1", Csv.words("Chorus 1"));
    assertEquals("\"Chorus, loud\"", Csv.words("Chorus, loud"));
    assertEquals("\"the \"\"drop\"\"\"", Csv.words("the \"drop\""));
    assertEquals("\"two\r\nlines\"", Csv.words("two\r\nlines"));
    assertEquals("", Csv.words(""));
  }

  @Test
  void whatASpreadsheetWouldReckonOutStaysWords() {
    for (String start : List.of("=", "+", "-", "@", "\uFF1D", "\uFF20")) {
      assertEquals("\"'" + start + "1+1\"", Csv.words(start + "1+1"));
      assertEquals("\"' " + start + "1+1\"", Csv.words(" " + start + "1+1"));
    }
    assertEquals("\"'\t=1\"", Csv.words("\t=1"));
    assertEquals("Verse-1", Csv.words("Verse-1"));
  }

  @Test
  void numbersAreWrittenOutWithAPoint() {
    assertEquals("0.0000123", Csv.number(0.0000123));
    assertEquals("123456789", Csv.number(123_456_789));
    assertEquals("-14.6", Csv.number(OptionalDouble.of(-14.6)));
    assertEquals("", Csv.number(OptionalDouble.empty()));
  }
}

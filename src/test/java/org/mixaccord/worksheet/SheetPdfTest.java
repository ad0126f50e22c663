package org.mixaccord.worksheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

/** The printed sheet, read by a text extractor. */
class SheetPdfTest {
  private static String text(WorkSheet sheet) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    SheetPdf.write(sheet, out);
    try (PDDocument document = Loader.loadPDF(out.toByteArray())) {
      assertTrue(document.getNumberOfPages() >= 1);
      document.getPages().forEach(page -> assertEquals(595, page.getMediaBox().getWidth(), 1));
      return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
    }
  }

  @Test
  void everythingOfAListIsOnIt() throws IOException {
    String text =
        text(SheetForTests.sheet(SheetForTests.line(1, "Lead vocal", "up please", 61.2, 90)));
    for (String words :
        new String[] {
          "Marigold Overcoat",
          "Kitchen Meridian. Mix 3, round 3",
          "Lead vocal: up, 1 dB",
          "Chorus 1, 2 and 3",
          "1:01 to 1:30",
          "up please",
          "Bas",
          "open",
          "Leave alone",
          "leave the bridge",
          "1 / 1"
        }) {
      assertTrue(text.contains(words), words + " in " + text);
    }
    assertFalse(text.contains("\u25AF"));
  }

  @Test
  void wordsAreWordsWhateverTheyAre() throws IOException {
    String text = text(SheetForTests.hostile());
    // A line may break anywhere.
    assertTrue(
        text.replace(" ", "").contains("=HYPERLINK(\"x\")second\"line\",<b>notbold</b>&"), text);
    assertTrue(text.contains("naïve Größe Тихо"), text);
    // The extractor gives both directions in the order of reading.
    assertTrue(text.contains("\u05E9\u05DC\u05D5\u05DD"), text);
    // What no font of the sheet has is shown as missing, and said.
    assertTrue(text.contains("\u25AF stands for a character this sheet has no font for"), text);
    assertEquals(174, text.split("\\bgo\\b", -1).length - 1);
  }

  @Test
  void anEmptyListIsASheetToo() throws IOException {
    assertTrue(text(SheetForTests.sheet()).contains("Nobody has asked for anything."));
  }
}

package org.mixaccord.worksheet;

import com.openhtmltopdf.bidi.support.ICUBidiReorderer;
import com.openhtmltopdf.bidi.support.ICUBidiSplitter;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.Optional;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/** The list as a PDF to print: a box to tick at every line, and room to write. */
public final class SheetPdf {
  private static final String FONTS = "/net/sf/jasperreports/fonts/dejavu/";

  /** Stands for what no font of the sheet can show. */
  private static final String UNSHOWN = "\u25AF";

  /** In the box of what is done. */
  private static final String TICK = "\u2713";

  private static final String STYLE =
      """
      @page { size: A4; margin: 16mm 14mm 18mm; @bottom-right { content: counter(page) " / "\
       counter(pages); font-family: sheet; font-size: 8pt; } }
      body { font-family: sheet; font-size: 9pt; line-height: 1.35; color: #111; }
      h1 { font-size: 16pt; margin: 0; } h2 { font-size: 11pt; margin: 6mm 0 1mm; }
      .quiet { color: #444; font-size: 8pt; }
      table { width: 100%; border-collapse: collapse; -fs-table-paginate: paginate; }
      th { text-align: left; font-size: 8pt; border-bottom: 1pt solid #111; padding: 1mm 2mm 1mm 0; }
      td { vertical-align: top; border-bottom: 0.4pt solid #888; padding: 1.6mm 2mm 1.6mm 0; }
      tr { page-break-inside: avoid; }
      .box { width: 3.2mm; height: 3.2mm; border: 0.8pt solid #111; display: inline-block;
        font-size: 8pt; line-height: 3.2mm; text-align: center; }
      .said { white-space: pre-wrap; word-wrap: break-word; }
      .room { border-bottom: 0.4pt dotted #666; height: 6mm; }
      """;

  private SheetPdf() {}

  /** Writes the PDF; the stream stays open. */
  public static void write(WorkSheet sheet, OutputStream out) throws IOException {
    XRLog.setLoggingEnabled(false);
    Html html = new Html();
    String page = page(sheet, html);
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.useUnicodeBidiSplitter(new ICUBidiSplitter.ICUBidiSplitterFactory());
    builder.useUnicodeBidiReorderer(new ICUBidiReorderer());
    builder.defaultTextDirection(BaseRendererBuilder.TextDirection.LTR);
    font(builder, "DejaVuSans.ttf", 400);
    font(builder, "DejaVuSans-Bold.ttf", 700);
    // Nothing is fetched, whatever somebody wrote.
    builder.useUriResolver((base, uri) -> null);
    builder.withHtmlContent(page, null);
    builder.toStream(out);
    builder.run();
  }

  private static void font(PdfRendererBuilder builder, String file, int weight) {
    builder.useFont(
        () -> SheetPdf.class.getResourceAsStream(FONTS + file),
        "sheet",
        weight,
        BaseRendererBuilder.FontStyle.NORMAL,
        true);
  }

  private static String page(WorkSheet sheet, Html html) {
    StringBuilder page = new StringBuilder();
    page.append("<html><head><title>").append(html.text(sheet.song() + ", work sheet"));
    page.append("</title><style>").append(STYLE).append("</style></head><body><h1>");
    page.append(html.text(sheet.song())).append("</h1><p>").append(html.text(sheet.artist()));
    page.append(". ").append(html.text(sheet.mix())).append(", round ").append(sheet.round());
    page.append("</p><table><thead><tr><th></th><th>What</th><th>Where</th><th>Words</th>");
    page.append("<th>Answer</th></tr></thead><tbody>");
    for (WorkSheet.Line line : sheet.lines()) {
      row(page, line, html);
    }
    page.append("</tbody></table>");
    if (sheet.lines().isEmpty()) {
      page.append("<p>Nobody has asked for anything.</p>");
    }
    if (!sheet.keeps().isEmpty()) {
      page.append("<h2>Leave alone</h2><table><tbody>");
      for (WorkSheet.Keep keep : sheet.keeps()) {
        page.append("<tr><td style=\"width:30%\"><b>").append(html.text(keep.part()));
        page.append("</b><br/>").append(html.text(keep.where())).append("</td><td>");
        said(page, keep.said(), html);
        page.append("</td></tr>");
      }
      page.append("</tbody></table>");
    }
    if (html.unshown) {
      page.append("<p class=\"quiet\">").append(UNSHOWN);
      page.append(" stands for a character this sheet has no font for. The words are whole on the");
      page.append(" page and in the table.</p>");
    }
    return page.append("</body></html>").toString();
  }

  private static void row(StringBuilder page, WorkSheet.Line line, Html html) {
    page.append("<tr><td style=\"width:9mm\">").append(line.number());
    page.append("<br/><span class=\"box\">").append(ticked(line) ? TICK : "");
    page.append("</span></td><td style=\"width:24%\"><b>");
    page.append(html.text(line.what())).append("</b>");
    line.newWork().ifPresent(kind -> page.append("<br/>New work: ").append(html.text(kind)));
    page.append("</td><td style=\"width:19%\">").append(html.text(line.where()));
    for (WorkSheet.Stretch place : line.places()) {
      page.append("<br/><span class=\"quiet\">").append(AskWords.clock(place.fromSeconds()));
      if (place.toSeconds() > place.fromSeconds()) {
        page.append(" to ").append(AskWords.clock(place.toSeconds()));
      }
      page.append("</span>");
    }
    page.append("</td><td>");
    line.said().forEach(said -> said(page, said, html));
    page.append("</td><td style=\"width:22%\">").append(html.text(line.state().words()));
    answer(line).ifPresent(words -> page.append("<br/>").append(html.text(words)));
    if (line.state() == WorkSheet.State.OPEN || line.state() == WorkSheet.State.UNCLEAR) {
      page.append("<div class=\"room\"></div>");
    }
    page.append("</td></tr>");
  }

  private static boolean ticked(WorkSheet.Line line) {
    return line.state() == WorkSheet.State.DONE || line.state() == WorkSheet.State.ANSWERED;
  }

  private static Optional<String> answer(WorkSheet.Line line) {
    String words =
        String.join(
            ". ",
            java.util.stream.Stream.of(line.how(), line.reason(), line.moved())
                .flatMap(Optional::stream)
                .toList());
    return words.isEmpty() ? Optional.empty() : Optional.of(words);
  }

  private static void said(StringBuilder page, WorkSheet.Said said, Html html) {
    page.append("<div class=\"said\" dir=\"auto\">").append(html.text(said.words()));
    page.append("</div><div class=\"quiet\">").append(html.text(said.name())).append("</div>");
  }

  /** Makes words safe inside a document, and shows only what the font has. */
  private static final class Html {
    private boolean unshown;

    String text(String words) {
      StringBuilder safe = new StringBuilder();
      words
          .codePoints()
          .filter(c -> c == '\n' || !Character.isISOControl(c))
          .filter(c -> Character.getType(c) != Character.FORMAT || c == 0x200F || c == 0x200E)
          .forEach(c -> safe.append(shown(c)));
      return safe.toString();
    }

    private String shown(int c) {
      switch (c) {
        case '<':
          return "&lt;";
        case '>':
          return "&gt;";
        case '&':
          return "&amp;";
        case '"':
          return "&quot;";
        default:
          break;
      }
      boolean invisible =
          Character.isWhitespace(c) || Character.getType(c) == Character.NON_SPACING_MARK;
      if (!invisible && Glyphs.LOOKUP.getGlyphId(c) == 0) {
        unshown = true;
        return UNSHOWN;
      }
      return Character.toString(c);
    }
  }

  /** What the font of the sheet can show; read once, when the first sheet is printed. */
  private static final class Glyphs {
    static final CmapLookup LOOKUP = read();

    private static CmapLookup read() {
      try (InputStream in = SheetPdf.class.getResourceAsStream(FONTS + "DejaVuSans.ttf");
          TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(in))) {
        return font.getUnicodeCmapLookup();
      } catch (IOException e) {
        throw new IllegalStateException("the font of the work sheet can't be read", e);
      }
    }
  }
}

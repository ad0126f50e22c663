package org.mixaccord.worksheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Invented lists, some with words nobody should have to print. */
final class SheetForTests {
  static final String HOSTILE =
      "=HYPERLINK(\"x\")\r\nsecond \"line\", <b>not bold</b> & \u202Eright to left\u202C, "
          + "\u05E9\u05DC\u05D5\u05DD, \u0645\u0631\u062D\u0628\u0627, naïve Größe Тихо, 🎛 ひかり \u0007";
  static final String LONG = "the words go on and on ".repeat(174).strip();

  private SheetForTests() {}

  static WorkSheet.Line line(int number, String part, String words, double... fromTo) {
    List<WorkSheet.Stretch> places = new ArrayList<>();
    for (int i = 0; i < fromTo.length; i += 2) {
      places.add(new WorkSheet.Stretch("Chorus " + (i / 2 + 1), fromTo[i], fromTo[i + 1]));
    }
    return new WorkSheet.Line(
        Integer.toString(number),
        part,
        "up, 1 dB",
        List.of(new WorkSheet.Said("Lio", words), new WorkSheet.Said("Bas", "same here")),
        "Chorus 1, 2 and 3",
        places,
        WorkSheet.State.OPEN,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  static WorkSheet sheet(WorkSheet.Line... lines) {
    return new WorkSheet(
        "Marigold Overcoat",
        "Kitchen Meridian",
        "Mix 3",
        3,
        List.of(lines),
        List.of(
            new WorkSheet.Keep(
                "Whole mix",
                "Bridge",
                List.of(new WorkSheet.Stretch("Bridge", 106.6, 126.25)),
                new WorkSheet.Said("Lio", "leave the bridge"))));
  }

  static WorkSheet hostile() {
    return sheet(
        line(1, "Lead vocal", HOSTILE, 0, 4.5, 61.2345, 90),
        line(2, "Drums", LONG, 120.001, 120.001),
        line(3, "+Strings", "-up \u2212 a bit", 3599.9994, 3601));
  }
}

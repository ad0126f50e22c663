package org.mixaccord.threads;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.mixaccord.threads.Conversation.Message;
import org.mixaccord.threads.Conversation.Why;

/** Pasted conversations of every shape; all of them are invented. */
class ConversationReaderTest {
  private static List<String> said(String text) {
    return ConversationReader.read(text).messages().stream()
        .map(m -> m.sender() + ": " + m.text())
        .toList();
  }

  private static List<Why> left(String text) {
    return ConversationReader.read(text).leftOut().stream().map(Conversation.LeftOut::why).toList();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "[03/05/2031, 14:05:11] Lio: vocal up 1 dB in the chorus\nand a bit more air\n"
            + "[03/05/2031, 14:06:02] Bas Okombe: no, it is fine",
        "03/05/2031, 14:05 - Lio: vocal up 1 dB in the chorus\nand a bit more air\n"
            + "03/05/2031, 14:06 - Bas Okombe: no, it is fine",
        "3.5.31, 2:05 PM \u2013 Lio: vocal up 1 dB in the chorus\nand a bit more air\n"
            + "3.5.31, 2:06 PM \u2013 Bas Okombe: no, it is fine",
        "Lio, [3 May 2031 14:05]:\nvocal up 1 dB in the chorus\nand a bit more air\n\n"
            + "Bas Okombe, [3 May 2031 14:06]:\nno, it is fine",
        "Lio  14:05\nvocal up 1 dB in the chorus\nand a bit more air\n"
            + "Bas Okombe  14:06\nno, it is fine",
        "Lio\nToday at 2:05 PM\nvocal up 1 dB in the chorus\nand a bit more air\n"
            + "Bas Okombe\nToday at 2:06 PM\nno, it is fine",
        "\u200E[03/05/2031, 14:05:11] \u202ALio\u202C: vocal up 1 dB in the chorus\r\nand a bit more"
            + " air\r\n\u200E[03/05/2031, 14:06:02] ~ Bas Okombe: no, it is fine",
        "From: Lio <lio@example.org>\nSent: Saturday, 3 May 2031 14:05\nTo: Tove\nSubject: Re: mix\n\n"
            + "vocal up 1 dB in the chorus\nand a bit more air\n\n-----Earlier Message-----\n"
            + "From: Bas Okombe <bas@example.org>\nSent: Saturday, 3 May 2031 14:06\n"
            + "To: Tove\nSubject: mix\n\nno, it is fine",
        "Von: Lio\nGesendet: Samstag, 3. Mai 2031 14:05\nAn: Tove\nBetreff: AW: Mix\n\n"
            + "vocal up 1 dB in the chorus\nand a bit more air\n\n"
            + "Am 3. Mai 2031 um 14:06 schrieb Bas Okombe:\n\nno, it is fine",
      })
  void whoWroteWhatIsToldInEveryShape(String text) {
    assertEquals(
        List.of(
            "Lio: vocal up 1 dB in the chorus\nand a bit more air", "Bas Okombe: no, it is fine"),
        said(text));
  }

  @Test
  void aDialogueIsOneWhenNamesComeAgain() {
    assertEquals(
        List.of("Lio: louder", "Bas: where?", "Lio: in the chorus\nall of it"),
        said("Lio: louder\nBas: where?\nLio: in the chorus\nall of it"));
    // A list of parts is no conversation.
    assertEquals(
        List.of(": Vocals: up 1\nDrums: down 1\nBass: fine"),
        said("Vocals: up 1\nDrums: down 1\nBass: fine"));
  }

  @Test
  void whatWasSaidBeforeIsLeftOutAndKept() {
    String text =
        """
        Hi Tove, the strings are too loud now.

        On Fri, 2 May 2031 at 09:12, Tove Arkwell <tove@example.org> wrote:

        > Here is mix 2.
        > > did you get my note?
        > Best, T

        And the bass too.
        """;
    Conversation read = ConversationReader.read(text);
    assertEquals(1, read.messages().size());
    assertEquals(
        "Hi Tove, the strings are too loud now.\n\nAnd the bass too.",
        read.messages().get(0).text());
    assertTrue(read.leftOut().stream().allMatch(out -> out.why() == Why.QUOTED));
    String all =
        String.join("\n", read.leftOut().stream().map(Conversation.LeftOut::text).toList());
    assertTrue(all.contains("> > did you get my note?"), all);
    assertTrue(all.contains("wrote:"), all);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "bass down please\n\n-- \nLio Fennimar\n+47 123 45 678",
        "bass down please\n\nSent from my phone",
        "bass down please\n\nVon meinem Telefon gesendet",
        "bass down please\n\nBest,\nLio",
        "bass down please\n\nBest,\n\nLio Fennimar",
        "bass down please\nKind regards\n- Lio",
        "bass down please\n\nLio Fennimar\nlio@example.org\n+47 123 45 678\nwww.example.org",
      })
  void signaturesAreLeftOut(String text) {
    assertEquals(List.of(": bass down please"), said(text));
    assertEquals(List.of(Why.SIGNATURE), left(text));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "bass down please\n\nThanks!",
        "the bass in chorus 2\nis too loud",
        "vocals up\nbest\nSolo quieter"
      })
  void wordsThatAreNoSignatureStay(String text) {
    assertEquals(List.of(), left(text));
  }

  @Test
  void noticesAreLeftOut() {
    String text =
        """
        03/05/2031, 14:00 - Messages here are private
        03/05/2031, 14:01 - Bas joined
        03/05/2031, 14:05 - Lio: <Media omitted>
        03/05/2031, 14:06 - Lio: louder please
        03/05/2031, 14:07 - Bas: voice message omitted
        """;
    assertEquals(List.of("Lio: louder please"), said(text));
    assertEquals(List.of(Why.NOTICE, Why.NOTICE, Why.NOTICE, Why.NOTICE), left(text));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "2031-05-03, 14:05|2031-05-03T14:05",
        "3.5.2031, 14:05|2031-05-03T14:05",
        "23/05/2031, 14:05|2031-05-23T14:05",
        "05/23/31, 2:05 pm|2031-05-23T14:05",
        "05/05/2031, 12:05 am|2031-05-05T00:05",
        "3 May 2031 at 14:05|2031-05-03T14:05",
        "3. Mai 2031 um 14:05|2031-05-03T14:05",
        "May 3, 2031 14:05|2031-05-03T14:05",
        "3 d\u00E9cembre 2031 14:05|2031-12-03T14:05",
        "03/05/2031, 14:05|",
        "14:05|",
        "31/02/2031, 14:05|",
      })
  void datesAreReadWhereTheyAreCertain(String stamp, String wanted) {
    Stamps.Order order = Stamps.order(List.of(stamp));
    assertEquals(
        Optional.ofNullable(wanted).map(LocalDateTime::parse), Stamps.read(stamp, order), stamp);
  }

  @Test
  void oneCertainDateTellsTheOthers() {
    Conversation read =
        ConversationReader.read("03/05/2031, 14:05 - Lio: a\n13/05/2031, 14:05 - Lio: b\n");
    assertEquals(
        List.of(LocalDateTime.parse("2031-05-03T14:05"), LocalDateTime.parse("2031-05-13T14:05")),
        read.messages().stream().map(m -> m.at().orElseThrow()).toList());
    assertFalse(read.dayFirstUnsure());
    Conversation unsure = ConversationReader.read("03/05/2031, 14:05 - Lio: a\n");
    assertTrue(unsure.dayFirstUnsure());
    assertEquals("03/05/2031, 14:05", unsure.messages().get(0).when());
  }

  /** Ordinary notes have colons, times and dashes too. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "1:12 - 1:30 the pad is swallowing the vocal, tuck it 2db or so",
        "vox: up 1\ndrums: fine",
        "at 0:45: click\nat 1:05: pop",
        "Hi,\nverse 1 - bring the guitar up: it got lost\nthanks",
        "> is no quote mark here",
        "",
        "\n\n\n",
      })
  void aNoteIsOneMessageOfNobodyKnown(String text) {
    Conversation read = ConversationReader.read(text);
    assertTrue(read.messages().size() <= 1, read.toString());
    read.messages().forEach(m -> assertEquals("", m.sender()));
  }

  @Test
  void everyLineIsInOnePlaceWhateverThereIs() {
    Random random = new Random(31);
    List<String> pieces =
        List.of(
            "[03/05/2031, 14:05] Lio: louder",
            "> quoted",
            "",
            "-- ",
            "Sent from my phone",
            "From: Lio",
            "Sent: Monday",
            "Subject: x",
            "On Monday at 9, Lio wrote:",
            "Lio",
            "14:05",
            "Bas: softer",
            "words and words",
            "-----Older-----",
            "03/05/2031, 14:00 - Bas joined",
            "<media>",
            "\u202Eodd\u202C",
            "lio@example.org",
            "+47 123 45 678",
            "::::",
            "[",
            ">>>>>",
            "wrote:",
            "\t",
            "on " + "x".repeat(200) + " wrote:");
    for (int round = 0; round < 3000; round++) {
      List<String> lines = new ArrayList<>();
      for (int i = 0; i < random.nextInt(14); i++) {
        lines.add(pieces.get(random.nextInt(pieces.size())));
      }
      String text = String.join("\n", lines);
      Conversation read = ConversationReader.read(text);
      int[] times = new int[(int) text.lines().count()];
      read.messages().stream().map(Message::lines).forEach(l -> l.forEach(i -> times[i]++));
      read.leftOut().forEach(out -> out.lines().forEach(i -> times[i]++));
      for (int i = 0; i < times.length; i++) {
        assertEquals(1, times[i], "line " + i + " of\n" + text + "\n" + read);
      }
      // Read again, the words of a message stay what they are.
      for (Message message : read.messages()) {
        assertFalse(message.text().startsWith("\n"), text);
      }
      assertEquals(read, ConversationReader.read(text));
    }
  }

  @Test
  void aLongAndDeepTextIsReadToo() {
    String deep = (">".repeat(500) + " deep\n").repeat(100);
    String names = "Some Name Here\n14:05\nwords\n".repeat(2000);
    String colons = ("a".repeat(30) + ": b ").repeat(3000);
    for (String text : List.of(deep, names, colons, "On " + "a, b ".repeat(20_000) + "wrote:")) {
      Conversation read = ConversationReader.read(text);
      assertTrue(read.messages().size() <= 2000);
    }
  }
}

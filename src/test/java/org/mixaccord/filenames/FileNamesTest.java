package org.mixaccord.filenames;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.text.Normalizer;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.mixaccord.filenames.NameContext.KnownSong;
import org.mixaccord.filenames.NameProposal.Use;

/** What holds of any name, and what names say about each other. */
class FileNamesTest {
  private static final NameContext CONTEXT = NamesTableTest.CONTEXT;

  private static List<NameProposal> read(Use use, String... names) {
    return FileNames.read(
        List.of(names).stream().map(n -> new NamedFile(n, OptionalLong.empty())).toList(),
        CONTEXT,
        Optional.ofNullable(use));
  }

  private static NameProposal one(Use use, String name) {
    return read(use, name).get(0);
  }

  @Test
  void leftAndRightFindEachOtherWhateverLiesBetween() {
    List<NameProposal> read =
        read(
            Use.BOUNCE,
            "Ebb_mix3.L.wav",
            "Ebb_mix4.R.wav",
            "Ebb_mix4.L.wav",
            "Low Water mix 3 L.wav",
            "Ebb_mix3.R.wav");
    assertEquals(OptionalInt.of(4), read.get(0).pairWith());
    assertEquals(OptionalInt.of(2), read.get(1).pairWith());
    assertEquals(OptionalInt.of(1), read.get(2).pairWith());
    assertEquals(OptionalInt.empty(), read.get(3).pairWith());
    assertEquals(OptionalInt.of(0), read.get(4).pairWith());
    assertTrue(read.get(0).sure());
  }

  @Test
  void twoFilesThatReadTheSameAreDoubted() {
    List<NameProposal> read = read(Use.BOUNCE, "Ebb mix 3.wav", "Ebb_v3.wav", "Ebb mix 3 inst.wav");
    assertFalse(read.get(0).sure());
    assertFalse(read.get(1).sure());
    assertTrue(read.get(2).sure());
  }

  @Test
  void aCounterTellsPartsApartWhereNothingElseDoes() {
    List<NameProposal> read =
        read(Use.STEM, "Stems Ebb/BGV_01.wav", "Stems Ebb/BGV_02.wav", "Stems Ebb/LV_01.wav");
    assertEquals(
        List.of("backing vocals 1", "backing vocals 2", "lead vocal"),
        read.stream().map(p -> p.element().orElseThrow()).toList());
    assertTrue(read.stream().allMatch(NameProposal::sure));
  }

  @Test
  void partsAreToldFromMixesByTheirNamesAndFolders() {
    List<NameProposal> read =
        read(null, "Ebb mix 3.wav", "LV.wav", "Ebb Stems/Ebb_Gtr.wav", "03 - Kick In.wav");
    assertEquals(
        List.of(Use.BOUNCE, Use.STEM, Use.STEM, Use.STEM),
        read.stream().map(NameProposal::use).toList());
    assertEquals("Ebb", read.get(2).title().orElseThrow());
  }

  @Test
  void aFolderOfTheProjectIsNoSong() {
    NameContext harbour = new NameContext(List.of(), "The Invented", "Harbour Lights");
    List<String> folders =
        List.of(
            "Harbour Lights mixes",
            "Harbour Lights - bounces 2031-04-30",
            "HARBOUR_LIGHTS",
            "The Invented - Harbour Lights masters v2",
            "Mixes 2031",
            "Harbour Lights/Final Mixes");
    for (String folder : folders) {
      NameProposal read =
          FileNames.read(
                  List.of(new NamedFile(folder + "/mix 3.wav", OptionalLong.empty())),
                  harbour,
                  Optional.of(Use.BOUNCE))
              .get(0);
      assertEquals(Optional.empty(), read.title(), folder);
      assertEquals("Mix 3", read.label().orElseThrow(), folder);
    }
  }

  @Test
  void aFolderNamedLikeANewSongOfTheOthersIsThatSongs() {
    List<NameProposal> read =
        read(null, "All/Ferry Bell mix 2.wav", "All/ferry bell/stems/Kick.wav", "All/Reef/LV.wav");
    assertEquals("“Ferry Bell”, kick.", read.get(1).words());
    assertEquals("Reef", read.get(2).title().orElseThrow());
    assertFalse(read.get(2).sure());
  }

  @Test
  void everythingDroppedOnASongIsOfThatSong() {
    NameProposal read =
        FileNames.readFor(
                new KnownSong("s", "Copper Lanterns"),
                List.of(new NamedFile("LV dbl.wav", OptionalLong.of(0x10000))),
                CONTEXT,
                Optional.of(Use.STEM))
            .get(0);
    assertEquals("s", read.songId().orElseThrow());
    assertEquals("lead vocal double", read.element().orElseThrow());
    assertEquals("“Copper Lanterns”, lead vocal double.", read.words());
  }

  @Test
  void anEmptyFileIsLeftOut() {
    NameProposal read =
        FileNames.read(
                List.of(new NamedFile("Ebb.wav", OptionalLong.of(0))), CONTEXT, Optional.empty())
            .get(0);
    assertEquals("The file is empty.", read.words());
  }

  @Test
  void theWordsSayWhatWasReadAndWhatToCheck() {
    assertEquals(
        "“Low Water”, instrumental, mix 3b, 48 kHz, 24 bits.",
        one(Use.BOUNCE, "LowWater_Mix3b_INST_48k24.wav").words());
    assertEquals(
        "“Ebb”, final 2. Please check: “Final” is no number; the next one will be final too.",
        one(Use.BOUNCE, "Ebb final2.wav").words());
    assertEquals(
        "“Ebb”, 44.1 kHz, 2031-04-30.", one(Use.BOUNCE, "Ebb_44.1_2031-04-30.wav").words());
  }

  @Test
  void compositionAndCaseOfLettersMakeNoDifference() {
    for (String song : NamesTableTest.SONGS) {
      for (Normalizer.Form form : Normalizer.Form.values()) {
        String name = Normalizer.normalize(song, form);
        assertEquals(
            Optional.of("id of " + song), one(Use.BOUNCE, name + "_mix3.wav").songId(), name);
        String upper = name.toUpperCase(java.util.Locale.ROOT);
        assertEquals(
            Optional.of("id of " + song), one(Use.BOUNCE, upper + " v2.wav").songId(), upper);
      }
    }
  }

  /** Whatever words are put together, in whatever order: song, number and rate are found. */
  @Test
  void whatAPersonPutsTogetherIsTakenApartAgain() {
    Random random = new Random(11);
    List<String> between = List.of("_", " ", "-", " - ", "__");
    List<String> numbers = List.of("mix%d", "mix %d", "v%d", "V0%d", "rev%d", "Mix_%d", "MIX-%d");
    List<String> rates = List.of("48k", "4824", "48kHz_24bit", "48-24", "24bit_48k");
    for (int i = 0; i < 3000; i++) {
      String song = NamesTableTest.SONGS.get(random.nextInt(NamesTableTest.SONGS.size()));
      String gap = between.get(random.nextInt(between.size()));
      int number = 1 + random.nextInt(9);
      String name =
          String.join(
              gap,
              random.nextBoolean() ? song : song.replace(" ", "_"),
              String.format(numbers.get(random.nextInt(numbers.size())), number),
              rates.get(random.nextInt(rates.size())));
      NameProposal read = one(Use.BOUNCE, name + ".wav");
      assertEquals(Optional.of("id of " + song), read.songId(), name);
      assertEquals(OptionalInt.of(number), read.number(), name);
      assertEquals(OptionalInt.of(48000), read.sampleRateHz(), name);
    }
  }

  @Test
  void noNameIsTooOddToBeRead() {
    Random random = new Random(7);
    String letters = "aZé\u0301ßひ水\uD834\uDD1E01249._-+ ()[]/\\'’\u0000\n\uD800LRvmix";
    List<String> names = new java.util.ArrayList<>(List.of("", " ", ".", "..", "/", "\\", ".wav"));
    for (int i = 0; i < 20000; i++) {
      StringBuilder name = new StringBuilder();
      for (int n = random.nextInt(24); n >= 0; n--) {
        name.append(letters.charAt(random.nextInt(letters.length())));
      }
      names.add(name.toString());
    }
    names.add("9".repeat(5000) + ".wav");
    names.add("mix".repeat(5000));
    for (Use use : new Use[] {null, Use.BOUNCE, Use.STEM}) {
      List<NameProposal> read = read(use, names.toArray(String[]::new));
      assertEquals(names.size(), read.size());
      for (NameProposal proposal : read) {
        assertFalse(proposal.words().isBlank());
        proposal.title().ifPresent(t -> assertFalse(t.isBlank()));
        proposal.element().ifPresent(e -> assertFalse(e.isBlank()));
      }
    }
  }

  @Test
  void readingTwiceReadsTheSame() {
    String[] names = {"Ebb mix 3.wav", "LV.wav", "Ebb.L.wav", "x/y/Ebb.R.wav"};
    assertEquals(read(null, names), read(null, names));
  }
}

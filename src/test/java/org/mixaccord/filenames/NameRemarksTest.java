package org.mixaccord.filenames;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

/** What is said of a name beside its sound and beside the files that were there before. */
class NameRemarksTest {
  private static final NameContext CONTEXT = NamesTableTest.CONTEXT;

  private static KnownFile file(String id, String name, String song, String kind, String pcm) {
    return new KnownFile(
        id,
        "Mix " + id,
        name,
        "id of " + song,
        song,
        kind,
        "bytes of " + id,
        Optional.of(pcm),
        OptionalInt.of(48000),
        OptionalInt.of(24));
  }

  private static List<String> said(KnownFile here, KnownFile... before) {
    return NameRemarks.of(here, List.of(before), CONTEXT).stream()
        .map(r -> r.code() + ": " + r.detail())
        .toList();
  }

  @Test
  void theMixThatIsThereAlreadyIsNamed() {
    KnownFile first = file("1", "Ebb_mix1.wav", "Ebb", "main", "x");
    KnownFile elsewhere = file("2", "Low Water v1.wav", "Low Water", "main", "x");
    KnownFile again = file("3", "Ebb_mix3.wav", "Ebb", "main", "x");
    assertEquals(
        List.of(
            "same-sound: This is the mix you already have, Mix 1 (“Ebb_mix1.wav”): another file,"
                + " but the same sound, sample for sample."),
        said(again, first, elsewhere));
    assertEquals(
        List.of(
            "same-sound: This is the mix you already have, Mix 2 of “Low Water” (“Low Water"
                + " v1.wav”): another file, but the same sound, sample for sample."),
        said(again, elsewhere));
    KnownFile bytes =
        new KnownFile(
            "4",
            "Pass 4",
            "x.wav",
            "id of Ebb",
            "Ebb",
            "main",
            "bytes of 1",
            Optional.empty(),
            OptionalInt.empty(),
            OptionalInt.empty());
    assertEquals(
        List.of(
            "same-bytes: This is the mix you already have, Mix 1 (“Ebb_mix1.wav”): byte for byte"
                + " the same file."),
        said(bytes, first));
  }

  @Test
  void oneNameForTwoSoundsIsToldWhateverTheCaseAndComposition() {
    assertEquals(
        List.of(
            "same-name: Mix 1 (“EBB mix\u00e9 2.wav”) has the same file name, but other sound."),
        said(
            file("2", "ebb mixe\u0301 2.wav", "Ebb", "main", "y"),
            file("1", "EBB mix\u00e9 2.wav", "Ebb", "main", "x")));
    assertEquals(
        List.of(),
        said(
            file("2", "mix2.wav", "Ebb", "main", "y"),
            file("1", "mix2.wav", "Low Water", "main", "x")));
  }

  @Test
  void aNumberGoingBackIsToldBesideTheNewestMainOnly() {
    KnownFile three = file("3", "Ebb_v3.wav", "Ebb", "main", "x");
    KnownFile two = file("4", "Ebb mix 2.wav", "Ebb", "main", "y");
    assertEquals(
        List.of(
            "number-back: The name says number 2, but the mix uploaded before it, “Ebb_v3.wav”, is"
                + " number 3. Is it the one you meant?"),
        said(two, three));
    assertEquals(List.of(), said(file("5", "Ebb mix 3.wav", "Ebb", "main", "z"), three, two));
    assertEquals(List.of(), said(file("5", "Ebb mix 3b.wav", "Ebb", "main", "z"), three));
    assertEquals(
        List.of(), said(file("5", "Ebb rough 1.wav", "Ebb", "rough", "z"), three), "roughs count");
  }

  @Test
  void aNameThatSaysOtherFiguresThanTheFileIsTold() {
    assertEquals(
        List.of(
            "rate-differs: The name says 44.1 kHz, the file has 48 kHz.",
            "depth-differs: The name says 16 bits, the file has 24."),
        said(file("1", "Ebb_mix1_4416.wav", "Ebb", "main", "x")));
    assertEquals(List.of(), said(file("1", "Ebb_mix1_4824.wav", "Ebb", "main", "x")));
  }

  @Test
  void aNameOfAnotherKindOrSongIsTold() {
    assertEquals(
        List.of(
            "kind-differs: The name reads like this kind of mix: instrumental. It was uploaded as"
                + " main.",
            "song-differs: The name speaks of “Low Water”, but this is “Ebb”."),
        said(file("1", "LowWater_inst.wav", "Ebb", "main", "x")));
    assertEquals(List.of(), said(file("1", "Ebb_inst.wav", "Ebb", "instrumental", "x")));
    assertEquals(List.of(), said(file("1", "Ebb_mix2.mp3", "Ebb", "rough", "x")));
  }

  @Test
  void namesThatCannotBeReadAreLeftInPeace() {
    for (String name : List.of("unnamed", "???", "._Ebb.wav", " ", "\u0000.wav", "a.zip")) {
      assertEquals(List.of(), said(file("1", name, "Ebb", "main", "x")), name);
    }
  }
}

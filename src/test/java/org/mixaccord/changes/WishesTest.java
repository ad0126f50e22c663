package org.mixaccord.changes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.mixaccord.notes.Amount;

class WishesTest {
  private static final Place CHORUS = new Place(Set.of("chorus 1"), Optional.empty());
  private static final Place VERSE = new Place(Set.of("verse 1"), Optional.empty());

  private static Wish wish(String id, String asker, String direction, Place place) {
    return new Wish(id, asker, "snare", "level", direction, Optional.empty(), place);
  }

  private static Place at(double from, double to, String... sections) {
    return new Place(Set.of(sections), Optional.of(new Place.Span(from, to)));
  }

  @Test
  void oppositesOfTwoPeopleContradictWhereTheyMeet() {
    Wish up = wish("1", "ann", "up", CHORUS);
    assertEquals(
        Map.of("1", List.of("2"), "2", List.of("1")),
        Wishes.contradictions(List.of(up, wish("2", "bob", "down", Place.WHOLE_SONG))));
    assertEquals(Map.of(), Wishes.contradictions(List.of(up, wish("2", "bob", "down", VERSE))));
    assertEquals(Map.of(), Wishes.contradictions(List.of(up, wish("2", "ann", "down", CHORUS))));
    assertEquals(Map.of(), Wishes.contradictions(List.of(up, wish("2", "bob", "up", CHORUS))));
  }

  @Test
  void timesMeetTimesAndSections() {
    Wish up = wish("1", "ann", "up", at(35, 36, "chorus 1"));
    assertEquals(
        Set.of("1", "2"),
        Wishes.contradictions(List.of(up, wish("2", "bob", "down", CHORUS))).keySet());
    assertEquals(
        Map.of(),
        Wishes.contradictions(List.of(up, wish("2", "bob", "down", at(40, 41, "chorus 1")))));
    assertEquals(
        Set.of("1", "2"),
        Wishes.contradictions(List.of(up, wish("2", "bob", "down", at(36, 36, "chorus 1"))))
            .keySet());
  }

  @Test
  void theCentreExcludesEitherSide() {
    Wish left = new Wish("1", "a", "organ", "pan", "left", Optional.empty(), CHORUS);
    Wish centre = new Wish("2", "b", "organ", "pan", "centre", Optional.empty(), CHORUS);
    assertEquals(Set.of("1", "2"), Wishes.contradictions(List.of(left, centre)).keySet());
  }

  @Test
  void repeatsNeedTheSamePlaceAndNoTwoAmounts() {
    Wish one = wish("1", "ann", "up", CHORUS);
    assertEquals(
        Set.of("1", "2"), Wishes.repeats(List.of(one, wish("2", "bob", "up", CHORUS))).keySet());
    assertEquals(Map.of(), Wishes.repeats(List.of(one, wish("2", "bob", "up", Place.WHOLE_SONG))));
    Wish little =
        new Wish("1", "a", "snare", "level", "up", Optional.of(Amount.of(1, "dB")), CHORUS);
    Wish much = new Wish("2", "b", "snare", "level", "up", Optional.of(Amount.of(3, "dB")), CHORUS);
    assertEquals(Map.of(), Wishes.repeats(List.of(little, much)));
  }

  @Test
  void whatFollowsGoesOnOrBack() {
    Optional<Amount> two = Optional.of(Amount.of(2, "dB"));
    FollowUp more = FollowUp.of(FollowUp.Says.MORE, "level", "up", two, "vox up 2");
    assertEquals(List.of("up", Optional.empty()), List.of(more.direction(), more.amount()));
    assertEquals("More: “vox up 2”", more.text());
    FollowUp half = FollowUp.of(FollowUp.Says.HALFWAY, "level", "up", two, "vox up 2");
    assertEquals("down", half.direction());
    assertEquals(Optional.of(Amount.of(1, "dB")), half.amount());
    FollowUp back = FollowUp.of(FollowUp.Says.PUT_BACK, "mute", "out", Optional.empty(), "lose it");
    assertEquals("in", back.direction());
    FollowUp fix = FollowUp.of(FollowUp.Says.TOO_MUCH, "tuning", "fix", Optional.empty(), "flat");
    assertEquals(List.of("other", "any"), List.of(fix.aspect(), fix.direction()));
    assertThrows(
        IllegalArgumentException.class,
        () -> FollowUp.of(FollowUp.Says.GOOD, "level", "up", two, "x"));
  }
}

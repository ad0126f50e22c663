package org.mixaccord.notes;

/**
 * A stretch of the note with one meaning.
 *
 * @param type what it is
 * @param a its first detail (canonical name, aspect, the words themselves)
 * @param b its second
 * @param c its third
 * @param value a number, or seconds
 * @param amount how much, for an {@link Type#AMOUNT}
 * @param place where, for a {@link Type#PLACE}
 * @param signed −1 or +1 where a sign was written
 * @param start index of its first character in the note
 * @param end index after its last
 */
record Item(
    Type type,
    String a,
    String b,
    String c,
    double value,
    Amount amount,
    Place place,
    int signed,
    int start,
    int end) {
  static Item of(Lexicon.Entry entry, int start, int end) {
    return new Item(entry.type(), entry.a(), entry.b(), entry.c(), 0, null, null, 0, start, end);
  }

  static Item mark(Type type, String words, int start, int end) {
    return new Item(type, words, "", "", 0, null, null, 0, start, end);
  }

  static Item number(Type type, double value, int signed, int start, int end) {
    return new Item(type, "", "", "", value, null, null, signed, start, end);
  }

  static Item amount(Amount amount, int signed, int start, int end) {
    return new Item(Type.AMOUNT, "", "", "", 0, amount, null, signed, start, end);
  }

  static Item place(Place place, int start, int end) {
    return new Item(Type.PLACE, "", "", "", 0, null, place, 0, start, end);
  }

  Item as(Type other) {
    return new Item(other, a, b, c, value, amount, place, signed, start, end);
  }

  boolean is(Type other) {
    return type == other;
  }
}

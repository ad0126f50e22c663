package org.mixaccord.worksheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Wishes that are worked as one: those that say the same stand on one line, any other keeps its
 * part, amount and place on a line of its own with the same number and a letter.
 */
public final class OnePiece {
  private static final int LETTERS = 26;

  private OnePiece() {}

  /**
   * The lines of one piece of work.
   *
   * @param number of the piece on the list, from 1
   * @param wishes one line for each wish, in the list's order; their own numbers do not count
   * @return {@code "3"} where all say the same, else {@code "3a"}, {@code "3b"} and so on
   */
  public static List<WorkSheet.Line> lines(int number, List<WorkSheet.Line> wishes) {
    Map<WorkSheet.Line, List<WorkSheet.Line>> same = new LinkedHashMap<>();
    for (WorkSheet.Line wish : wishes) {
      WorkSheet.Line bare = wish.with("", List.of(), Optional.empty());
      same.computeIfAbsent(bare, key -> new ArrayList<>()).add(wish);
    }
    List<WorkSheet.Line> lines = new ArrayList<>();
    for (List<WorkSheet.Line> alike : same.values()) {
      String letter = same.size() == 1 ? "" : letter(lines.size());
      List<WorkSheet.Said> said = alike.stream().flatMap(line -> line.said().stream()).toList();
      WorkSheet.Line first = alike.get(0);
      lines.add(first.with(number + letter, said, first.moved()));
    }
    return lines;
  }

  /** 0 is a, 25 is z, 26 is aa. */
  private static String letter(int index) {
    String last = String.valueOf((char) ('a' + index % LETTERS));
    return index < LETTERS ? last : letter(index / LETTERS - 1) + last;
  }
}

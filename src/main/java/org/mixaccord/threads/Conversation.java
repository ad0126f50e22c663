package org.mixaccord.threads;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;

/**
 * What a pasted text was taken apart into. Every line of it is in one message or in one thing left
 * out.
 *
 * @param messages in the order of the text
 * @param leftOut what is in no message
 * @param dayFirstUnsure whether days and months could not be told apart, so that dates stay as
 *     written
 */
public record Conversation(List<Message> messages, List<LeftOut> leftOut, boolean dayFirstUnsure) {

  /**
   * One message.
   *
   * @param sender as written; empty if nobody is named
   * @param when as written; empty if nothing is said
   * @param at the same as a time of day on a date, where that is certain
   * @param text the words, without what was left out
   * @param lines the lines of the pasted text it has, its head among them, from 0
   */
  public record Message(
      String sender, String when, Optional<LocalDateTime> at, String text, List<Integer> lines) {
    public Message {
      lines = List.copyOf(lines);
    }
  }

  /** Why something is in no message. */
  public enum Why {
    QUOTED("quoted"),
    SIGNATURE("signature"),
    HEAD("head"),
    NOTICE("notice");

    private final String wire;

    Why(String wire) {
      this.wire = wire;
    }

    /** As programs say it. */
    public String wire() {
      return wire;
    }
  }

  /**
   * Lines that are in no message.
   *
   * @param message the message they stood in, from 0; −1 for none
   * @param text as pasted
   */
  public record LeftOut(Why why, int message, String text, List<Integer> lines) {
    public LeftOut {
      lines = List.copyOf(lines);
    }
  }

  public Conversation {
    messages = List.copyOf(messages);
    leftOut = List.copyOf(leftOut);
  }
}

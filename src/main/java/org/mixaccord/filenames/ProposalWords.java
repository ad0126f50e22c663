package org.mixaccord.filenames;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.mixaccord.filenames.NameProposal.Use;

/** A proposal in sentences. */
final class ProposalWords {
  private static final int HZ_PER_KHZ = 1000;

  private ProposalWords() {}

  static String of(NameProposal proposal) {
    if (proposal.leaveOut().isPresent()) {
      return proposal.leaveOut().get();
    }
    List<String> said = new ArrayList<>();
    proposal.title().ifPresent(t -> said.add("“" + t + "”"));
    proposal.element().ifPresent(said::add);
    proposal.kind().ifPresent(k -> said.add(kind(k, proposal.label().orElse(""))));
    proposal.label().ifPresent(l -> said.add(l.toLowerCase(Locale.ROOT)));
    if (proposal.use() == Use.BOUNCE) {
      proposal.side().ifPresent(s -> said.add(s.word() + " channel"));
    }
    proposal.sampleRateHz().ifPresent(hz -> said.add(kiloHertz(hz)));
    proposal.bitDepth().ifPresent(bits -> said.add(bits + " bits"));
    proposal.date().ifPresent(said::add);
    said.removeIf(String::isEmpty);
    String read = said.isEmpty() ? "Nothing could be read from the name" : String.join(", ", said);
    String first = Character.toUpperCase(read.charAt(0)) + read.substring(1) + ".";
    return proposal.doubts().isEmpty()
        ? first
        : first + " Please check: " + String.join(" ", proposal.doubts());
  }

  private static String kind(String kind, String label) {
    String words = kind.equals("tv") ? "TV" : kind.replace('-', ' ');
    return kind.equals("main") || label.toLowerCase(Locale.ROOT).startsWith(kind.replace('-', ' '))
        ? ""
        : words;
  }

  /** 44.1 kHz, 48 kHz. */
  static String kiloHertz(int hz) {
    return hz % HZ_PER_KHZ == 0 ? hz / HZ_PER_KHZ + " kHz" : (hz / 100) / 10.0 + " kHz";
  }
}

package org.mixaccord.compare;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.mixaccord.align.Alignment;
import org.mixaccord.align.Retimed;
import org.mixaccord.audio.PcmSource;

/**
 * What each part did, from stems.
 *
 * <p>A part with a stem of both bounces is compared directly: the two stems, aligned as the bounces
 * are, give its level, side and lateness without a model. Where only one bounce has stems, the
 * other bounce is explained as their weighted sum by least squares; that needs all loud parts among
 * the stems, and says so through {@code explained}.
 */
final class PartChanges {
  private final List<Source> sources;

  private PartChanges(List<Source> sources) {
    this.sources = sources;
  }

  /** Something that can tell parts' changes in a stretch. */
  interface Source {
    /** Changes between two times here. */
    List<Comparison.ElementDifference> in(double from, double to) throws IOException;
  }

  static PartChanges of(ComparisonInput input, Alignment alignment) throws IOException {
    List<Source> sources = new ArrayList<>();
    PcmSource here = input.here().pcm();
    Map<String, PcmSource> moved = new TreeMap<>();
    for (Map.Entry<String, PcmSource> e : input.stemsThere().entrySet()) {
      moved.put(
          e.getKey(),
          new Retimed(e.getValue(), alignment.timeMap(), here.sampleRate(), here.frames()));
    }
    TreeSet<String> onlyThere = new TreeSet<>(moved.keySet());
    TreeSet<String> onlyHere = new TreeSet<>(input.stemsHere().keySet());
    for (String element : new TreeSet<>(input.stemsHere().keySet())) {
      PcmSource stem = input.stemsHere().get(element);
      if (moved.containsKey(element) && stem.sampleRate() == here.sampleRate()) {
        sources.add(StemPair.of(element, stem, moved.get(element), here.frames()));
        onlyThere.remove(element);
        onlyHere.remove(element);
      }
    }
    if (!onlyThere.isEmpty()) {
      sources.add(StemFit.of(moved, onlyThere, here, true));
    }
    onlyHere.removeIf(e -> input.stemsHere().get(e).sampleRate() != here.sampleRate());
    if (!onlyHere.isEmpty()) {
      PcmSource there =
          new Retimed(input.there().pcm(), alignment.timeMap(), here.sampleRate(), here.frames());
      sources.add(StemFit.of(new TreeMap<>(input.stemsHere()), onlyHere, there, false));
    }
    return new PartChanges(sources);
  }

  /** Changes of all parts between two times here, by name. */
  List<Comparison.ElementDifference> in(double from, double to) throws IOException {
    List<Comparison.ElementDifference> out = new ArrayList<>();
    for (Source source : sources) {
      out.addAll(source.in(from, to));
    }
    out.sort((a, b) -> a.element().compareTo(b.element()));
    return out;
  }
}

package org.mixaccord.audio.container;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/**
 * Finds the samples of WAV files: RIFF, RIFX (big-endian), RF64 and BW64.
 *
 * <p>No declared size is believed beyond the bytes that are there; chunks come in any order, and a
 * broken one never hides the audio. At most {@value #MOST_CHUNKS} chunks and {@value #SCAN_BYTES}
 * bytes are looked at, so that time and memory do not depend on what the file claims.
 *
 * @see <a href="https://tech.ebu.ch/publications/tech3306">EBU Tech 3306 (RF64), ITU-R BS.2088
 *     (BW64); the RIFF form after the Multimedia Programming Interface, 1991</a>
 */
public final class WavWalker {
  private static final int MOST_CHUNKS = 10_000;
  private static final int SCAN_BYTES = 1 << 22;
  private static final long SECONDS_OF_A_DAY = 86_400;
  private static final long ALL_ONES = 0xFFFFFFFFL;

  /** Writers that never came back to their header leave the largest number there is. */
  private static final long UNFINISHED_SLACK = 4096;

  private static final Set<String> KNOWN =
      Set.of(
          "fmt ", "data", "LIST", "bext", "JUNK", "junk", "fact", "cue ", "smpl", "id3 ", "ID3 ",
          "iXML", "PEAK", "inst", "minf", "elm1", "regn", "umid", "axml", "chna", "ds64", "FLLR",
          "PAD ", "acid", "DISP", "levl", "link", "_PMX", "cart", "plst", "labl", "note", "wavl");

  private final Bytes in;
  private final String container;
  private final List<FileDefect> defects = new ArrayList<>();
  private final WavMarkers markers;
  private long formatAt = -1;
  private long formatSize;
  private long dataAt = -1;
  private long dataDeclared;
  private long longDataSize = -1;
  private long soundFrames;
  private long sessionFrame = -1;
  private long moreSoundBytes;
  private boolean inPieces;
  private boolean brokenBeforeData;

  private WavWalker(ByteSource source, String magic) {
    this.in = new Bytes(source, magic.equals("RIFX"));
    this.markers = new WavMarkers(in);
    this.container = magic.equals("RIFF") ? "WAV" : magic;
  }

  /**
   * Walks a file whose first bytes were recognised as one of the four forms.
   *
   * @throws IllegalArgumentException if it is none of them
   */
  public static Walk walk(ByteSource source) throws IOException {
    Bytes head = new Bytes(source, false);
    String magic = head.id(0);
    if (!Set.of("RIFF", "RIFX", "RF64", "BW64").contains(magic) || !head.id(8).equals("WAVE")) {
      throw new IllegalArgumentException("not a WAV file: " + magic);
    }
    return new WavWalker(source, magic).walk();
  }

  private Walk walk() throws IOException {
    walkChunks(12);
    if (dataAt < 0 || formatAt < 0) {
      scanForLostChunks();
    }
    if (formatAt < 0) {
      return Walk.Unusable.noAudio(
          "The WAV file does not say how its sound is written (its format description is missing)."
              + " Export it again.");
    }
    WavFormat format = WavFormat.read(in, formatAt, formatSize, defects);
    Optional<Walk.Unusable> unusable = format.unusable();
    if (unusable.isPresent()) {
      return unusable.get();
    }
    if (inPieces) {
      return Walk.Unusable.unsupported(
          "The sound in this WAV file is kept in several pieces with silence between them. Export it"
              + " again as one.");
    }
    long bytes = dataAt < 0 ? 0 : trueDataBytes();
    if (bytes <= 0) {
      return Walk.Unusable.noAudio(
          "The WAV file has a header but no sound after it. Export it again.");
    }
    if (brokenBeforeData) {
      defects.add(
          FileDefect.whole(
              "broken-metadata",
              "Notes stored inside the file are damaged; the sound was found all the same.",
              false));
    }
    if (sessionFrame > 0 && sessionFrame / format.sampleRate() < SECONDS_OF_A_DAY) {
      defects.add(FileDefect.placeInSession((double) sessionFrame / format.sampleRate()));
    }
    boolean coded = format.coding() == SampleCoding.CODED;
    int frameBytes = Math.max(1, format.sampleBytes() * format.channels());
    // Block codings fill their last block; the true length is in a chunk of its own.
    long frames = coded ? soundFrames : bytes / frameBytes;
    if (!coded) {
      if (frames == 0) {
        return Walk.Unusable.noAudio(
            "The WAV file holds less than one sample of sound. Export it again.");
      }
      noteMoreSound((double) moreSoundBytes / frameBytes / format.sampleRate());
      long rest = bytes % frameBytes;
      boolean onlyPadding = rest == 1 && in.u8(dataAt + bytes - 1) == 0;
      if (rest != 0 && !onlyPadding) {
        defects.add(FileDefect.partialFrame());
      }
    }
    return new Walk.Found(
        new PcmLayout(
            container,
            format.coding(),
            format.codec(),
            format.sampleRate(),
            format.channels(),
            format.channelMask(),
            format.validBits(),
            coded ? 0 : format.sampleBytes(),
            container.equals("RIFX"),
            dataAt,
            frames,
            defects),
        markers.found(),
        sessionFrame >= 0 ? OptionalLong.of(sessionFrame) : OptionalLong.empty());
  }

  private void noteMoreSound(double seconds) {
    if (moreSoundBytes > 0) {
      defects.add(
          FileDefect.whole(
              "more-sound",
              String.format(
                  Locale.ROOT,
                  "Behind the sound is a second piece of sound of %.1f s, which is left out. Listen"
                      + " whether the end is there, or export it again.",
                  seconds),
              true));
    }
  }

  private void walkChunks(long start) throws IOException {
    long at = start;
    for (int n = 0; n < MOST_CHUNKS && at + 8 <= in.size(); n++) {
      String id = in.id(at);
      long size = in.u32(at + 4);
      note(id, at + 8, size);
      if (id.equals("data") && dataAt == at + 8) {
        size = declaredData();
        boolean empty = size == 0 && !chunksFollow(dataAt);
        if (empty || unfinished(size) || size > in.size() - dataAt) {
          return;
        }
      }
      long end = at + 8 + size;
      if (dataAt < 0 && end > in.size()) {
        brokenBeforeData = true;
        return;
      }
      at = next(end, size);
    }
  }

  /** The start of the chunk behind one of odd size that ends here: padded, or not. */
  private long next(long end, long size) throws IOException {
    if (size % 2 == 0) {
      return end;
    }
    if (KNOWN.contains(in.id(end)) && !KNOWN.contains(in.id(end + 1))) {
      defects.add(
          FileDefect.whole(
              "missing-pad",
              "A filling byte is missing between two parts of the file; the sound is not touched.",
              false));
      return end;
    }
    return end + 1;
  }

  private void note(String id, long at, long size) throws IOException {
    switch (id) {
      case "bext" -> {
        // Two halves of the first sample's place, behind the texts and the date (EBU Tech 3285).
        sessionFrame = size >= 346 ? in.u32(at + 342) << 32 | in.u32(at + 338) : -1;
      }
      case "fact" -> soundFrames = size >= 4 ? in.u32(at) : 0;
      case "ds64" -> longDataSize = in.i64(at + 8);
      case "fmt " -> {
        if (formatAt < 0 && size >= 14) {
          formatAt = at;
          formatSize = size;
        }
      }
      case "data" -> {
        if (dataAt < 0 || dataDeclared == 0) {
          dataAt = at;
          dataDeclared = size;
        } else if (size <= in.size() - at) {
          moreSoundBytes += size;
        }
      }
      case "LIST" -> {
        if (size >= 4 && in.id(at).equals("wavl")) {
          soundList(at + 4, Math.min(in.size(), at + size));
        } else {
          markers.note(id, at, size);
        }
      }
      default -> markers.note(id, at, size);
    }
  }

  /** Sound as a list of pieces with silence between them; a single piece is as good as none. */
  private void soundList(long start, long end) throws IOException {
    long at = start;
    int pieces = 0;
    for (int n = 0; n < MOST_CHUNKS && at + 8 <= end; n++) {
      String id = in.id(at);
      long size = in.u32(at + 4);
      if (id.equals("data") && pieces == 0) {
        note(id, at + 8, size);
      }
      pieces += id.equals("data") || id.equals("slnt") ? 1 : 0;
      at += 8 + size + (size & 1);
    }
    inPieces |= pieces > 1;
  }

  /** Looks for the two chunks that matter where the walk lost its way. */
  private void scanForLostChunks() throws IOException {
    byte[] window = in.read(0, (int) Math.min(SCAN_BYTES, in.size()));
    for (int i = 12; i + 8 <= window.length; i++) {
      boolean candidate =
          (formatAt < 0 && window[i] == 'f' && window[i + 1] == 'm' && window[i + 2] == 't')
              || (dataAt < 0 && window[i] == 'd' && window[i + 1] == 'a' && window[i + 2] == 't');
      if (candidate) {
        String id = in.id(i);
        if (id.equals("data") || (id.equals("fmt ") && in.u32(i + 4) <= 4096)) {
          note(id, i + 8L, in.u32(i + 4));
        }
      }
    }
    brokenBeforeData |= dataAt >= 0;
  }

  private long declaredData() {
    boolean longForm = container.equals("RF64") || container.equals("BW64");
    return longForm && dataDeclared == ALL_ONES && longDataSize >= 0 ? longDataSize : dataDeclared;
  }

  private static boolean unfinished(long size) {
    return (size <= ALL_ONES && size >= ALL_ONES - UNFINISHED_SLACK)
        || (size <= 0x80000000L && size >= 0x7FFFFFFFL - UNFINISHED_SLACK);
  }

  private long trueDataBytes() throws IOException {
    long there = in.size() - dataAt;
    long declared = declaredData();
    if (unfinished(declared) && declared != there) {
      defects.add(FileDefect.unfinishedHeader());
      return there;
    }
    if (declared == 0) {
      if (there > 0 && !chunksFollow(dataAt)) {
        defects.add(FileDefect.unfinishedHeader());
        return there;
      }
      return 0;
    }
    if (declared > there) {
      defects.add(FileDefect.truncated(there, declared));
      return there;
    }
    return declared + soundBehind(declared);
  }

  /** Bytes behind the declared end that are sound all the same; 0 where they are not. */
  private long soundBehind(long declared) throws IOException {
    long end = dataAt + declared;
    long rest = in.size() - end;
    if (rest <= 1 || chunksFollow(end + (declared & 1)) || chunksFollow(end)) {
      noteRiffSize();
      return 0;
    }
    String head = in.id(end);
    boolean tag = head.startsWith("TAG") || head.startsWith("ID3") || head.equals("APET");
    if (!tag && (rest > declared / 4 || rest > 1 << 20) && !zeros(end, rest)) {
      defects.add(
          FileDefect.whole(
              "lying-sizes",
              "The file claims to be shorter than it is; all of the sound in it was taken. Check"
                  + " that the end is where it should be.",
              true));
      return rest;
    }
    defects.add(FileDefect.trailing(rest));
    return 0;
  }

  private void noteRiffSize() throws IOException {
    long riff = in.u32(4);
    boolean longForm = container.equals("RF64") || container.equals("BW64");
    boolean told = longForm && riff == ALL_ONES;
    if (!told && Math.abs(riff + 8 - in.size()) > 1) {
      defects.add(
          FileDefect.whole(
              "lying-sizes",
              "The length in the file's header is wrong; the sound itself is whole.",
              false));
    }
  }

  /**
   * Whether chunks begin here: one of a known name, or any that lead from one to the next exactly
   * to the end of the file. Sound now and then looks like a name, but not like a chain.
   */
  private boolean chunksFollow(long start) throws IOException {
    long at = start;
    for (int n = 0; n < MOST_CHUNKS && at + 8 <= in.size(); n++) {
      if (KNOWN.contains(in.id(at))) {
        return true;
      }
      long size = in.u32(at + 4);
      if (size > in.size() - at - 8 || in.u32(at) == 0) {
        return false; // zeros are filling, not a chain of nameless chunks
      }
      at += 8 + size + (size & 1);
    }
    return at > start && at >= in.size();
  }

  private boolean zeros(long from, long count) throws IOException {
    for (byte b : in.read(from, (int) Math.min(count, SCAN_BYTES))) {
      if (b != 0) {
        return false;
      }
    }
    return true;
  }
}

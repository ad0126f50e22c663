package org.mixaccord.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import org.mixaccord.audio.container.ByteSource;
import org.mixaccord.audio.container.CafWalker;
import org.mixaccord.audio.container.CodedTiming;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.audio.container.FrameWalker;
import org.mixaccord.audio.container.Mp4Walker;
import org.mixaccord.audio.container.OggWalker;

/**
 * What is known of a coded file before it is decoded: where its sound begins, which part of it is
 * meant to be heard, and how long it should be. A decoder tells only how far it got.
 *
 * @param firstByte first byte the decoder is given
 * @param timing what is trimmed here; empty if the decoder trims, or nothing is to be trimmed
 * @param trimsHere true if the decoder must leave the trimming to us
 * @param frames the length the file claims without run-up, exact; empty where it claims none
 * @param isLossyByHead true where the head says that something was thrown away, though the coding
 *     could do without
 * @param isWithoutIndex true for an MP4 file that was never finished
 * @param defects what is wrong already
 */
record CodedPlan(
    long firstByte,
    Optional<CodedTiming> timing,
    boolean trimsHere,
    OptionalLong frames,
    boolean isLossyByHead,
    boolean isWithoutIndex,
    List<FileDefect> defects) {

  /** Codings whose packets do not say how late their decoders are. */
  private static final FileDefect START_UNSURE =
      FileDefect.whole(
          "start-unsure",
          "The file does not say how late its coding makes the sound, so against the WAV it may"
              + " start 10 to 50 ms late. For comparing, send the WAV.",
          false);

  CodedPlan {
    defects = List.copyOf(defects);
  }

  /** A file of which nothing is known before it is decoded. */
  static CodedPlan plain(long firstByte) {
    return new CodedPlan(
        firstByte, Optional.empty(), false, OptionalLong.empty(), false, false, List.of());
  }

  static CodedPlan of(FileBytes bytes, Sniffer.Sniffed sniffed) throws IOException {
    long start = sniffed.start();
    return switch (sniffed.format()) {
      case FLAC -> plain(start).claiming(flac(bytes, start));
      case WAVPACK -> wavPack(bytes, start);
      case MP4 -> mp4(bytes.from(start), start);
      case CAF ->
          CafWalker.timing(bytes.from(start))
              .map(t -> plain(start).trimming(t))
              .orElse(plain(start));
      case MP3 -> mp3(FrameWalker.mpeg(bytes, start));
      case ADTS -> {
        FrameWalker.Found found = FrameWalker.adts(bytes, start);
        CodedPlan plan = plain(found.soundAt()).saying(START_UNSURE);
        yield found.isCutOff() ? plan.saying(FileDefect.cutOff()) : plan;
      }
      case OGG_VORBIS, OGG_OPUS -> ogg(OggWalker.walk(bytes, start), start);
      default -> plain(start);
    };
  }

  /** Sound in a coding of fixed blocks inside a WAV file that says how long it is. */
  static CodedPlan blocks(int sampleRate, long frames, long firstByte) {
    return plain(firstByte).trimming(new CodedTiming(sampleRate, 0, OptionalLong.of(frames), 0));
  }

  /** A coding inside a container that has no place for its delay. */
  static CodedPlan unsure(long firstByte) {
    return plain(firstByte).saying(START_UNSURE);
  }

  private CodedPlan trimming(CodedTiming found) {
    return new CodedPlan(
        firstByte, Optional.of(found), true, frames, isLossyByHead, isWithoutIndex, defects);
  }

  private CodedPlan claiming(OptionalLong claimed) {
    return new CodedPlan(
        firstByte, timing, trimsHere, claimed, isLossyByHead, isWithoutIndex, defects);
  }

  private CodedPlan saying(FileDefect defect) {
    List<FileDefect> all = new ArrayList<>(defects);
    all.add(defect);
    return new CodedPlan(firstByte, timing, trimsHere, frames, isLossyByHead, isWithoutIndex, all);
  }

  /** STREAMINFO is always the first block: 36 bits of total samples from byte 21 on (RFC 9639). */
  private static OptionalLong flac(ByteSource bytes, long start) throws IOException {
    byte[] head = new byte[26];
    if (bytes.read(start, head, 0, 26) < 26) {
      return OptionalLong.empty();
    }
    long total = head[21] & 15;
    for (int i = 22; i < 26; i++) {
      total = total << 8 | (head[i] & 0xff);
    }
    return total == 0 ? OptionalLong.empty() : OptionalLong.of(total);
  }

  /** The head of a block: total samples in 40 bits from bytes 12 and 11, flags from byte 24. */
  private static CodedPlan wavPack(ByteSource bytes, long start) throws IOException {
    byte[] head = new byte[32];
    bytes.read(start, head, 0, head.length);
    long total = 0;
    for (int i = 15; i >= 12; i--) {
      total = total << 8 | (head[i] & 0xff);
    }
    boolean known = total != 0xFFFFFFFFL && total > 0;
    boolean hybrid = (head[24] & 8) != 0;
    CodedPlan plan =
        new CodedPlan(
            start, Optional.empty(), false, OptionalLong.empty(), hybrid, false, List.of());
    return known ? plan.claiming(OptionalLong.of(total | (head[11] & 0xffL) << 32)) : plan;
  }

  private static CodedPlan mp4(ByteSource bytes, long start) throws IOException {
    Mp4Walker.Found found = Mp4Walker.walk(bytes);
    CodedPlan plan =
        new CodedPlan(
            start,
            Optional.empty(),
            false,
            OptionalLong.empty(),
            false,
            !found.hasIndex(),
            List.of());
    return found.timing().map(plan::trimming).orElse(plan);
  }

  private static CodedPlan mp3(FrameWalker.Found found) {
    CodedPlan plan = plain(found.soundAt());
    boolean isShort =
        found.claimedFrames().isPresent() && found.frames() < found.claimedFrames().getAsLong();
    if (isShort) {
      plan = plan.saying(FileDefect.truncated(found.frames(), found.claimedFrames().getAsLong()));
    } else if (found.isCutOff()) {
      plan = plan.saying(FileDefect.cutOff());
    }
    if (found.delayFrames().isEmpty()) {
      return plan.saying(START_UNSURE);
    }
    int delay = found.delayFrames().getAsInt();
    // Of a file that is cut off, the decoder may still get something out of the last, broken frame.
    OptionalLong length =
        isShort || found.isCutOff()
            ? OptionalLong.empty()
            : OptionalLong.of(Math.max(0, found.frames() - delay - found.paddingFrames()));
    return plan.trimming(new CodedTiming(found.sampleRate(), delay, length, 0));
  }

  private static CodedPlan ogg(OggWalker.Found found, long start) {
    CodedPlan plan = plain(start);
    if (!found.isFinished()) {
      return plan.saying(FileDefect.cutOff());
    }
    if (found.preSkip() > 0) {
      return plan.saying(trimmed(found.preSkip(), 0, 48_000));
    }
    return plan;
  }

  long startFrames(int sampleRate) {
    return timing.isEmpty() ? 0 : timing.get().startFrames(sampleRate);
  }

  OptionalLong lengthFrames(int sampleRate) {
    return timing.isEmpty() ? OptionalLong.empty() : timing.get().lengthFrames(sampleRate);
  }

  /** What is to be said once it is known how many frames came and how many were kept. */
  void compare(
      CodedStream stream, long decoded, long kept, boolean complained, List<FileDefect> said) {
    said.addAll(defects);
    int rate = stream.sampleRate();
    OptionalLong claimed = frames.isPresent() ? frames : lengthFrames(rate);
    // Every AAC encoder has a run-up: a start of 0 was not written down by one that knew.
    boolean isAac = stream.codec().startsWith("aac");
    if (isAac && trimsHere && startFrames(rate) == 0) {
      said.add(START_UNSURE);
    }
    boolean isTold = defects.stream().anyMatch(defect -> defect.code().equals("truncated"));
    if (!isTold && claimed.isPresent() && kept < claimed.getAsLong()) {
      long all = claimed.getAsLong();
      said.add(complained ? FileDefect.incomplete(kept, all) : FileDefect.truncated(kept, all));
    }
    long front = Math.min(startFrames(rate), decoded);
    long behind = decoded - front - kept;
    if (front + behind > 0) {
      said.add(trimmed(front, behind, rate));
    }
    long silence = timing.map(CodedTiming::silenceTicks).orElse(0L);
    if (silence > 0) {
      double seconds = (double) silence / timing.get().ticksPerSecond();
      said.add(
          FileDefect.whole(
              "silence-left-out",
              String.format(
                  Locale.ROOT,
                  "The file asks players for %.3f s of silence before its sound; it is not in the"
                      + " sound itself and is left out.",
                  seconds),
              false));
    }
  }

  private static FileDefect trimmed(long front, long behind, int rate) {
    String end = behind > 0 ? " and " + behind + " at the end" : "";
    return FileDefect.whole(
        "delay-trimmed",
        String.format(
            Locale.ROOT,
            "%d samples at the start (%.1f ms)%s belong to the coding and not to the music; they are"
                + " left out, as the file itself asks.",
            front,
            1000.0 * front / rate,
            end),
        false);
  }
}

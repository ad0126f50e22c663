package org.mixaccord.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.mixaccord.audio.container.AiffWalker;
import org.mixaccord.audio.container.ByteSource;
import org.mixaccord.audio.container.CafWalker;
import org.mixaccord.audio.container.FileDefect;
import org.mixaccord.audio.container.FileMarker;
import org.mixaccord.audio.container.PcmLayout;
import org.mixaccord.audio.container.SampleCoding;
import org.mixaccord.audio.container.Speakers;
import org.mixaccord.audio.container.Walk;
import org.mixaccord.audio.container.WavWalker;
import org.mixaccord.intake.DecodeResult.Decoded;
import org.mixaccord.intake.DecodeResult.Reason;
import org.mixaccord.intake.DecodeResult.Rejected;
import org.mixaccord.storage.DerivedFiles;

/**
 * Turns an uploaded file into raw samples and facts, or says in words why that cannot be.
 *
 * <p>Plain samples are moved by ourselves from where the chunk walker found them; everything coded
 * goes through a confined child.
 */
public final class Decoder {
  private static final String PLAIN = "Mixaccord";
  private static final int MOST_COMPLAINTS = 2;

  private final Ffmpeg ffmpeg;
  private final DerivedFiles derived;
  private final long maxBytes;

  /** A decoder that keeps samples among these derived files, at most {@code maxBytes} each. */
  public Decoder(Ffmpeg ffmpeg, DerivedFiles derived, long maxBytes) {
    this.ffmpeg = ffmpeg;
    this.derived = derived;
    this.maxBytes = maxBytes;
  }

  /**
   * Decodes a file; afterwards its samples are found by their hash.
   *
   * @param name what the file was called, only to say where its name is wrong
   * @throws IOException if the world failed: the file or the disk could not be read or written
   */
  public DecodeResult decode(Path file, String name) throws IOException {
    try (FileBytes bytes = new FileBytes(file)) {
      Sniffer.Sniffed sniffed = Sniffer.sniff(bytes);
      switch (sniffed.format()) {
        case NOT_AUDIO -> {
          return new Rejected(bytes.size() == 0 ? Reason.EMPTY : Reason.NOT_AUDIO, sniffed.words());
        }
        case OTHER_SOUND -> {
          String words =
              sniffed.words().isEmpty()
                  ? "This kind of sound file is not taken here. Export it as 24-bit WAV."
                  : sniffed.words();
          return new Rejected(Reason.UNSUPPORTED_FORMAT, words);
        }
        default -> {
          List<FileDefect> defects = new ArrayList<>();
          wrongExtension(name, sniffed.format()).ifPresent(defects::add);
          return decode(file, bytes, sniffed, defects);
        }
      }
    } catch (PcmSink.Full full) {
      return full.isDisk()
          ? new Rejected(
              Reason.DISK_FULL,
              "The server's disk is full, so the sound could not be unpacked. The file is kept.")
          : new Rejected(
              Reason.UNSUPPORTED_FORMAT,
              "The file is longer than what is taken here. Is it one song?");
    }
  }

  /**
   * The places marked inside a file, in order of time; none where its kind carries none that are
   * read here.
   */
  public static List<FileMarker> markers(Path file) throws IOException {
    try (FileBytes bytes = new FileBytes(file)) {
      Sniffer.Sniffed sniffed = Sniffer.sniff(bytes);
      return isWalked(sniffed) && walk(bytes, sniffed) instanceof Walk.Found found
          ? found.markers()
          : List.of();
    }
  }

  /** Frames from the beginning of the session to the file's, where the file says. */
  public static OptionalLong sessionFrame(Path file) throws IOException {
    try (FileBytes bytes = new FileBytes(file)) {
      Sniffer.Sniffed sniffed = Sniffer.sniff(bytes);
      return isWalked(sniffed) && walk(bytes, sniffed) instanceof Walk.Found found
          ? found.sessionFrame()
          : OptionalLong.empty();
    }
  }

  private static Walk walk(FileBytes bytes, Sniffer.Sniffed sniffed) throws IOException {
    ByteSource from = bytes.from(sniffed.start());
    return switch (sniffed.format()) {
      case WAV -> WavWalker.walk(from);
      case CAF -> CafWalker.walk(from);
      default -> AiffWalker.walk(from);
    };
  }

  /** Opens the samples of a decoded file. */
  public PcmFile open(DecodedFile file) throws IOException {
    Path pcm = derived.pcm(file.pcmSha256(), file.sampleFormat().wireName());
    return PcmFile.open(pcm, file.sampleFormat(), file.sampleRate(), file.channels());
  }

  private DecodeResult decode(
      Path file, FileBytes bytes, Sniffer.Sniffed sniffed, List<FileDefect> defects)
      throws IOException {
    if (!isWalked(sniffed)) {
      CodedPlan plan = CodedPlan.of(bytes, sniffed);
      return coded(file, bytes, sniffed.format(), sniffed.format().label(), plan, defects);
    }
    if (sniffed.start() > 0) {
      defects.add(
          FileDefect.whole(
              "tag-in-front",
              "Some program wrote a tag in front of this "
                  + sniffed.format().label()
                  + " file, where none belongs. The sound is read behind it; other programs may not"
                  + " open the file.",
              false));
    }
    Walk walk = walk(bytes, sniffed);
    if (walk instanceof Walk.Unusable unusable) {
      Reason reason =
          unusable.code().equals("no-audio-frames")
              ? Reason.NO_AUDIO_FRAMES
              : Reason.UNSUPPORTED_FORMAT;
      return new Rejected(reason, unusable.detail());
    }
    PcmLayout layout = ((Walk.Found) walk).layout();
    defects.addAll(layout.defects());
    if (layout.coding() == SampleCoding.CODED) {
      return codedInside(file, bytes, sniffed, layout, defects);
    }
    return plain(bytes.from(sniffed.start()), layout, defects);
  }

  /** Formats whose plain samples we find ourselves. */
  private static boolean isWalked(Sniffer.Sniffed sniffed) {
    return switch (sniffed.format()) {
      case WAV, AIFF, CAF -> true;
      default -> false;
    };
  }

  private DecodeResult codedInside(
      Path file,
      FileBytes bytes,
      Sniffer.Sniffed sniffed,
      PcmLayout layout,
      List<FileDefect> defects)
      throws IOException {
    if (sniffed.format() == FileFormat.CAF) {
      CodedPlan plan = CodedPlan.of(bytes, sniffed);
      return coded(file, bytes, sniffed.format(), layout.container(), plan, defects);
    }
    defects.add(
        FileDefect.whole(
            "lossy-inside",
            "Inside this "
                + layout.container()
                + " file the sound is stored as "
                + layout.codec()
                + ", which throws something away. Export it again as plain 24-bit WAV.",
            true));
    CodedPlan plan =
        layout.codec().startsWith("MP")
            ? CodedPlan.unsure(sniffed.start())
            : layout.frames() > 0
                ? CodedPlan.blocks(layout.sampleRate(), layout.frames(), sniffed.start())
                : CodedPlan.plain(sniffed.start());
    return coded(file, bytes, sniffed.format(), layout.container(), plan, defects);
  }

  private DecodeResult plain(ByteSource bytes, PcmLayout declared, List<FileDefect> defects)
      throws IOException {
    Optional<String> refusal = Plausible.refusal(declared.sampleRate(), declared.channels());
    if (refusal.isPresent()) {
      return new Rejected(Reason.UNSUPPORTED_FORMAT, refusal.get());
    }
    PcmLayout layout = NumberKind.check(bytes, declared, defects);
    SampleFormat format = PlainPcm.format(layout);
    Path temporary = derived.unfinished("pcm");
    try (PcmSink sink =
        new PcmSink(temporary, format, layout.sampleRate(), layout.channels(), derived, maxBytes)) {
      PlainPcm.copy(bytes, layout, sink);
      Facts facts =
          new Facts(
              layout.container(),
              layout.coding() == SampleCoding.FLOAT ? "float" : "pcm",
              OptionalInt.of(layout.validBits()),
              false,
              PLAIN);
      return keep(temporary, sink, format, layout.channels(), layout.channelMask(), facts, defects);
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  private record Facts(
      String container, String codec, OptionalInt bitDepth, boolean lossy, String decoder) {}

  private DecodeResult coded(
      Path file,
      FileBytes bytes,
      FileFormat format,
      String container,
      CodedPlan plan,
      List<FileDefect> defects)
      throws IOException {
    Path temporary = derived.unfinished("pcm");
    try (CodedSink sink = new CodedSink(temporary, derived, maxBytes, plan)) {
      Child.End end = ffmpeg.decode(file, format.demuxer(), plan, sink);
      if (end.timedOut()) {
        return new Rejected(
            Reason.UNSUPPORTED_FORMAT,
            "Decoding this file took too long and was given up. Export it as 24-bit WAV.");
      }
      if (sink.refusal().isPresent()) {
        return new Rejected(Reason.UNSUPPORTED_FORMAT, sink.refusal().get());
      }
      if (sink.isEmpty()) {
        return new Rejected(Reason.NO_AUDIO_FRAMES, words(format, plan, sink.stream()));
      }
      CodedStream stream = sink.stream();
      long kept = sink.samples().frames();
      boolean complained = !end.said().isEmpty() || end.code() != 0;
      plan.compare(stream, sink.decodedFrames(), kept, complained, defects);
      if (complained && !isExplained(end, bytes, defects)) {
        defects.add(
            FileDefect.whole(
                "damaged",
                "Parts of the file could not be read and may click or be missing. Export or upload"
                    + " it again.",
                true));
      }
      Facts facts =
          new Facts(
              container,
              stream.codec(),
              stream.bitDepth(),
              stream.isLossy() || plan.isLossyByHead(),
              stream.decoder());
      return keep(
          temporary,
          sink.samples(),
          stream.sampleFormat(),
          stream.channels(),
          stream.channelMask(),
          facts,
          defects);
    } finally {
      Files.deleteIfExists(temporary);
    }
  }

  /** A tag behind the sound, or the end that is missing, makes a decoder complain once or twice. */
  private static boolean isExplained(Child.End end, FileBytes bytes, List<FileDefect> defects)
      throws IOException {
    boolean isCut = defects.stream().anyMatch(defect -> defect.code().equals("truncated"));
    boolean hasTag = Sniffer.endsWithTag(bytes);
    return end.code() == 0 && (isCut || hasTag) && end.said().lines().count() <= MOST_COMPLAINTS;
  }

  private DecodeResult keep(
      Path temporary,
      PcmSink sink,
      SampleFormat format,
      int channels,
      long channelMask,
      Facts facts,
      List<FileDefect> defects)
      throws IOException {
    sink.close();
    noteSamples(sink, facts.lossy, defects);
    sink.channelDefect().ifPresent(defects::add);
    if (sink.isSilent()) {
      defects.add(
          FileDefect.whole(
              "silent",
              "There is nothing but silence in this file. If that was not meant, check the settings"
                  + " of the bounce.",
              false));
    }
    if (channels > 2) {
      defects.add(
          FileDefect.whole(
              "more-than-stereo",
              Speakers.sentence(channelMask, channels)
                  + " It can be heard and measured, but not set beside a stereo mix.",
              false));
    }
    DecodedFile decoded =
        new DecodedFile(
            facts.container,
            facts.codec,
            sink.sampleRate(),
            facts.bitDepth,
            facts.lossy ? OptionalInt.empty() : sink.significantBits(),
            channels,
            sink.frames(),
            facts.lossy,
            sink.hash(),
            format,
            facts.decoder,
            defects);
    derived.publish(temporary, derived.pcm(decoded.pcmSha256(), format.wireName()));
    return new Decoded(decoded);
  }

  private static void noteSamples(PcmSink sink, boolean lossy, List<FileDefect> defects) {
    if (sink.nonFinite() > 0) {
      defects.add(
          FileDefect.at(
              "not-a-number",
              (sink.nonFinite() == 1
                      ? "1 sample holds no number at all and is"
                      : sink.nonFinite() + " samples hold no number at all and are")
                  + " heard as silence or a click. A plug-in probably failed; export it again.",
              sink.firstNonFiniteSeconds(),
              sink.lastNonFiniteSeconds()));
    }
    if (sink.highest() > 1) {
      double overDb = 20 * Math.log10(sink.highest());
      String level = String.format(Locale.ROOT, "+%.1f dBFS", overDb);
      defects.add(
          lossy
              ? FileDefect.whole(
                  "decodes-over-full-scale",
                  "This compressed copy decodes to peaks of " + level + ".",
                  false)
              : FileDefect.whole(
                  "over-full-scale",
                  "The peaks reach "
                      + level
                      + ". In this floating-point file nothing is lost; turned"
                      + " into integers they would clip.",
                  false));
    }
  }

  private static String words(FileFormat format, CodedPlan plan, CodedStream stream) {
    if (plan.isWithoutIndex()) {
      return "The recording was never finished writing (its index is missing). Export it again.";
    }
    if (stream != null && stream.codec().equals("alac") && stream.bitDepth().orElse(0) == 32) {
      return "This is 32-bit ALAC in a form that is not read here. Export it as 24-bit WAV.";
    }
    if (format == FileFormat.MP4) {
      return "There is no sound in this file that can be read here. Export the sound as 24-bit WAV.";
    }
    return "This "
        + format.label()
        + " file begins rightly but no sound could be read from it; it is damaged or cut off."
        + " Export or upload it again.";
  }

  private static Optional<FileDefect> wrongExtension(String name, FileFormat format) {
    int dot = name.lastIndexOf('.');
    String extension = dot < 0 ? "" : name.substring(dot + 1).toLowerCase(Locale.ROOT);
    if (!FileFormat.isSoundExtension(extension) || format.usesExtension(extension)) {
      return Optional.empty();
    }
    return Optional.of(
        FileDefect.whole(
            "wrong-extension",
            "The file is named ." + extension + " but really is " + format.label() + ".",
            false));
  }
}

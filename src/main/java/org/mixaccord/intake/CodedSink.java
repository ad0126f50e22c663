package org.mixaccord.intake;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalLong;
import org.mixaccord.storage.DerivedFiles;

/** Takes a coded stream and its samples as the child sends them, and trims them as planned. */
final class CodedSink implements Ffmpeg.Listener, AutoCloseable {
  private static final int BUFFER_FRAMES = 1 << 14;

  private final Path to;
  private final DerivedFiles derived;
  private final long maxBytes;
  private final CodedPlan plan;
  private long decodedFrames;
  private CodedStream stream;
  private PcmSink samples;
  private Optional<String> refusal = Optional.empty();

  CodedSink(Path to, DerivedFiles derived, long maxBytes, CodedPlan plan) {
    this.plan = plan;
    this.to = to;
    this.derived = derived;
    this.maxBytes = maxBytes;
  }

  @Override
  public void hear(CodedStream heard, InputStream in) throws IOException {
    stream = heard;
    refusal = Plausible.refusal(heard.sampleRate(), heard.channels());
    if (refusal.isPresent()) {
      return;
    }
    samples =
        new PcmSink(
            to, heard.sampleFormat(), heard.sampleRate(), heard.channels(), derived, maxBytes);
    int frameBytes = heard.sampleFormat().bytes() * heard.channels();
    long most = Long.MAX_VALUE / frameBytes;
    long skip = Math.min(plan.startFrames(heard.sampleRate()), most) * frameBytes;
    OptionalLong length = plan.lengthFrames(heard.sampleRate());
    long keep = Math.min(length.orElse(most), most) * frameBytes;
    byte[] buffer = new byte[frameBytes * BUFFER_FRAMES];
    int count;
    do {
      count = in.readNBytes(buffer, 0, buffer.length);
      int whole = count - count % frameBytes;
      decodedFrames += whole / frameBytes;
      int from = (int) Math.min(skip, whole);
      int some = (int) Math.min(keep, whole - from);
      skip -= from;
      keep -= some;
      samples.take(buffer, from, some);
    } while (count == buffer.length);
  }

  /** How many frames came, those that were left out among them. */
  long decodedFrames() {
    return decodedFrames;
  }

  /** Why nothing was taken although there is a stream. */
  Optional<String> refusal() {
    return refusal;
  }

  boolean isEmpty() {
    return samples == null || samples.frames() == 0;
  }

  CodedStream stream() {
    return stream;
  }

  PcmSink samples() {
    return samples;
  }

  @Override
  public void close() throws IOException {
    if (samples != null) {
      samples.close();
    }
  }
}

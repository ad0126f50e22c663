package org.mixaccord.intake;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import org.mixaccord.storage.DerivedFiles;

/** Takes a coded stream and its samples as the child sends them. */
final class CodedSink implements Ffmpeg.Listener, AutoCloseable {
  private static final int BUFFER_FRAMES = 1 << 14;

  private final Path to;
  private final DerivedFiles derived;
  private final long maxBytes;
  private CodedStream stream;
  private PcmSink samples;

  CodedSink(Path to, DerivedFiles derived, long maxBytes) {
    this.to = to;
    this.derived = derived;
    this.maxBytes = maxBytes;
  }

  @Override
  public void hear(CodedStream heard, InputStream in) throws IOException {
    stream = heard;
    samples =
        new PcmSink(
            to, heard.sampleFormat(), heard.sampleRate(), heard.channels(), derived, maxBytes);
    int frameBytes = heard.sampleFormat().bytes() * heard.channels();
    byte[] buffer = new byte[frameBytes * BUFFER_FRAMES];
    int count;
    do {
      count = in.readNBytes(buffer, 0, buffer.length);
      samples.take(buffer, count - count % frameBytes);
    } while (count == buffer.length);
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

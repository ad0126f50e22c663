package org.mixaccord.intake.coder;

import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.util.Optional;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.global.avcodec;
import org.bytedeco.ffmpeg.global.avutil;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.SizeTPointer;

/**
 * Encodes ranges of the interleaved, left-justified 32-bit samples on standard input to FLAC (RFC
 * 9639).
 *
 * <p>Each range comes out as blocks of frames, an {@code int} with their length in bytes before
 * each; then an {@code int} 0 and the 34 bytes of STREAMINFO (section 8.2), which are known in full
 * only when the last frame is made.
 */
final class FlacWriter {
  private static final int STREAMINFO_BYTES = 34;
  private static final int SAMPLE_BYTES = 4;

  private final int sampleRate;
  private final int channels;
  private final boolean isNarrow;

  /**
   * @param bits 16 or 24, at most what the samples use
   */
  FlacWriter(int sampleRate, int channels, int bits) {
    this.sampleRate = sampleRate;
    this.channels = channels;
    this.isNarrow = bits <= 16;
  }

  void write(long[][] ranges, OutputStream to) throws IOException {
    DataOutputStream out = new DataOutputStream(to);
    FileChannel raw = StandardInput.FILE;
    for (long[] range : ranges) {
      AVCodecContext encoder = encoder();
      AVFrame frame = frame(encoder);
      byte[] streamInfo = new byte[STREAMINFO_BYTES];
      new BytePointer(encoder.extradata()).get(streamInfo);
      for (long at = range[0]; at < range[1]; at += encoder.frame_size()) {
        int count = (int) Math.min(encoder.frame_size(), range[1] - at);
        fill(frame, raw, at, count);
        frame.pts(at - range[0]);
        FfmpegCall.check(avcodec.avcodec_send_frame(encoder, frame), "frame");
        streamInfo = drain(encoder, out).orElse(streamInfo);
      }
      FfmpegCall.check(avcodec.avcodec_send_frame(encoder, null), "last frame");
      streamInfo = drain(encoder, out).orElse(streamInfo);
      out.writeInt(0);
      out.write(streamInfo);
      out.flush();
      avutil.av_frame_free(frame);
      avcodec.avcodec_free_context(encoder);
    }
  }

  private AVCodecContext encoder() throws IOException {
    AVCodec codec = avcodec.avcodec_find_encoder(avcodec.AV_CODEC_ID_FLAC);
    AVCodecContext encoder = avcodec.avcodec_alloc_context3(codec);
    encoder.sample_rate(sampleRate);
    encoder.sample_fmt(isNarrow ? avutil.AV_SAMPLE_FMT_S16 : avutil.AV_SAMPLE_FMT_S32);
    encoder.bits_per_raw_sample(isNarrow ? 16 : 24);
    avutil.av_channel_layout_default(encoder.ch_layout(), channels);
    encoder.compression_level(3);
    encoder.flags(avcodec.AV_CODEC_FLAG_BITEXACT);
    encoder.thread_count(1);
    FfmpegCall.check(avcodec.avcodec_open2(encoder, codec, (AVDictionary) null), "encoder");
    return encoder;
  }

  private AVFrame frame(AVCodecContext encoder) throws IOException {
    AVFrame frame = avutil.av_frame_alloc();
    frame.nb_samples(encoder.frame_size());
    frame.format(encoder.sample_fmt());
    frame.sample_rate(sampleRate);
    FfmpegCall.check(
        avutil.av_channel_layout_copy(frame.ch_layout(), encoder.ch_layout()), "channels");
    FfmpegCall.check(avutil.av_frame_get_buffer(frame, 0), "memory");
    return frame;
  }

  private void fill(AVFrame frame, FileChannel raw, long at, int count) throws IOException {
    FfmpegCall.check(avutil.av_frame_make_writable(frame), "memory");
    frame.nb_samples(count);
    ByteBuffer wide = ByteBuffer.allocate(count * channels * SAMPLE_BYTES);
    long place = at * channels * SAMPLE_BYTES;
    while (wide.hasRemaining()) {
      if (raw.read(wide, place + wide.position()) < 0) {
        throw new IOException("the samples end before the range does");
      }
    }
    byte[] bytes = isNarrow ? narrowed(wide.array()) : wide.array();
    new BytePointer(frame.data(0)).put(bytes, 0, bytes.length);
  }

  /** The upper half of every sample; the machine is little-endian, as the samples are. */
  private static byte[] narrowed(byte[] wide) {
    ByteBuffer from = ByteBuffer.wrap(wide).order(ByteOrder.LITTLE_ENDIAN);
    ByteBuffer to = ByteBuffer.allocate(wide.length / 2).order(ByteOrder.LITTLE_ENDIAN);
    while (from.hasRemaining()) {
      to.putShort((short) (from.getInt() >> 16));
    }
    return to.array();
  }

  /** Writes what is ready; the final STREAMINFO, if it came along. */
  private static Optional<byte[]> drain(AVCodecContext encoder, DataOutputStream out)
      throws IOException {
    AVPacket packet = avcodec.av_packet_alloc();
    Optional<byte[]> streamInfo = Optional.empty();
    while (avcodec.avcodec_receive_packet(encoder, packet) >= 0) {
      if (packet.size() > 0) {
        byte[] bytes = new byte[packet.size()];
        new BytePointer(packet.data()).get(bytes);
        out.writeInt(bytes.length);
        out.write(bytes);
      }
      SizeTPointer size = new SizeTPointer(1);
      BytePointer last =
          avcodec.av_packet_get_side_data(packet, avcodec.AV_PKT_DATA_NEW_EXTRADATA, size);
      if (last != null && size.get() == STREAMINFO_BYTES) {
        byte[] bytes = new byte[STREAMINFO_BYTES];
        last.get(bytes);
        streamInfo = Optional.of(bytes);
      }
      avcodec.av_packet_unref(packet);
    }
    avcodec.av_packet_free(packet);
    return streamInfo;
  }
}

package org.mixaccord.intake;

import static org.bytedeco.ffmpeg.global.avcodec.*;
import static org.bytedeco.ffmpeg.global.avformat.*;
import static org.bytedeco.ffmpeg.global.avutil.*;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.IntPointer;
import org.bytedeco.javacpp.Pointer;
import org.bytedeco.javacpp.PointerPointer;

/** Coded test files, made from a plain WAV by the encoders of the libraries that come along. */
public final class Encoded {
  static {
    System.setProperty(
        "org.bytedeco.javacpp.cachedir", Path.of("target/programs").toAbsolutePath().toString());
  }

  private final AVFormatContext file = new AVFormatContext(null);
  private final AVCodecContext encoder;
  private final AVStream stream;
  private final AVPacket packet = av_packet_alloc();

  private Encoded(
      Path to, String codecName, String muxer, String flags, int rate, int channels, int bits)
      throws IOException {
    check(avformat_alloc_output_context2(file, null, muxer, to.toString()));
    AVCodec codec = avcodec_find_encoder_by_name(codecName);
    if (codec == null || codec.isNull()) {
      throw new IOException("no encoder " + codecName + " comes along");
    }
    encoder = avcodec_alloc_context3(codec);
    encoder.sample_rate(rate);
    av_channel_layout_default(encoder.ch_layout(), channels);
    encoder.sample_fmt(sampleFormat(codec, bits));
    encoder.bits_per_raw_sample(bits);
    encoder.strict_std_compliance(FF_COMPLIANCE_EXPERIMENTAL);
    encoder.time_base(av_make_q(1, rate));
    if ((file.oformat().flags() & AVFMT_GLOBALHEADER) != 0) {
      encoder.flags(encoder.flags() | AV_CODEC_FLAG_GLOBAL_HEADER);
    }
    check(avcodec_open2(encoder, codec, (AVDictionary) null));
    stream = avformat_new_stream(file, codec);
    stream.time_base(encoder.time_base());
    check(avcodec_parameters_from_context(stream.codecpar(), encoder));
    AVIOContext out = new AVIOContext(null);
    check(avio_open(out, to.toString(), AVIO_FLAG_WRITE));
    file.pb(out);
    AVDictionary options = new AVDictionary(null);
    if (!flags.isEmpty()) {
      check(av_dict_set(options, "movflags", flags, 0));
    }
    check(avformat_write_header(file, options));
    av_dict_free(options);
  }

  /**
   * The bytes of a coded file.
   *
   * @param wav 16 or 24-bit PCM with the plain header of {@link Fixtures#wav}
   */
  public static byte[] by(Path folder, byte[] wav, String codec, String muxer) throws IOException {
    return by(folder, wav, codec, muxer, "");
  }

  /** AAC in an MP4 of fragments, as browsers record it while somebody speaks. */
  public static byte[] fragments(Path folder, byte[] wav) throws IOException {
    return by(folder, wav, "aac", "mp4", "frag_keyframe+empty_moov+default_base_moof");
  }

  private static byte[] by(Path folder, byte[] wav, String codec, String muxer, String flags)
      throws IOException {
    Path out = folder.resolve("encoded." + muxer);
    ByteBuffer in = ByteBuffer.wrap(wav).order(ByteOrder.LITTLE_ENDIAN);
    int channels = in.getShort(22);
    int bits = in.getShort(34);
    new Encoded(out, codec, muxer, flags, in.getInt(24), channels, bits)
        .encode(samples(in, bits), channels);
    return Files.readAllBytes(out);
  }

  /** Left-justified in 32 bits. */
  private static int[] samples(ByteBuffer wav, int bits) {
    int bytes = bits / 8;
    int[] samples = new int[wav.getInt(40) / bytes];
    for (int i = 0; i < samples.length; i++) {
      for (int b = 0; b < bytes; b++) {
        samples[i] |= (wav.get(44 + i * bytes + b) & 0xFF) << (32 - bits + 8 * b);
      }
    }
    return samples;
  }

  private void encode(int[] samples, int channels) throws IOException {
    int all = samples.length / channels;
    int step = encoder.frame_size() > 0 ? encoder.frame_size() : 1024;
    for (int at = 0; at < all; at += step) {
      int count = Math.min(step, all - at);
      AVFrame frame = av_frame_alloc();
      frame.nb_samples(count);
      frame.format(encoder.sample_fmt());
      frame.sample_rate(encoder.sample_rate());
      check(av_channel_layout_copy(frame.ch_layout(), encoder.ch_layout()));
      check(av_frame_get_buffer(frame, 0));
      fill(frame, samples, at, count, channels);
      frame.pts(at);
      check(avcodec_send_frame(encoder, frame));
      drain();
      av_frame_free(frame);
    }
    check(avcodec_send_frame(encoder, null));
    drain();
    check(av_write_trailer(file));
    check(avio_closep(file.pb()));
    avcodec_free_context(encoder);
    avformat_free_context(file);
  }

  private void fill(AVFrame frame, int[] samples, int at, int count, int channels)
      throws IOException {
    boolean planar = av_sample_fmt_is_planar(frame.format()) != 0;
    int packed = av_get_packed_sample_fmt(frame.format());
    int width = av_get_bytes_per_sample(frame.format());
    for (int c = 0; c < channels; c++) {
      BytePointer plane = frame.data(planar ? c : 0);
      plane.capacity((long) count * width * (planar ? 1 : channels));
      ByteBuffer to = plane.asByteBuffer().order(ByteOrder.LITTLE_ENDIAN);
      for (int i = 0; i < count; i++) {
        int sample = samples[(at + i) * channels + c];
        int place = (planar ? i : i * channels + c) * width;
        switch (packed) {
          case AV_SAMPLE_FMT_S16 -> to.putShort(place, (short) (sample >> 16));
          case AV_SAMPLE_FMT_S32 -> to.putInt(place, sample);
          case AV_SAMPLE_FMT_FLT -> to.putFloat(place, (float) (sample / 0x1p31));
          default -> throw new IOException("no such kind of samples here: " + packed);
        }
      }
    }
  }

  private void drain() throws IOException {
    while (avcodec_receive_packet(encoder, packet) >= 0) {
      packet.stream_index(stream.index());
      av_packet_rescale_ts(packet, encoder.time_base(), stream.time_base());
      check(av_interleaved_write_frame(file, packet));
    }
  }

  /** The widest of the encoder's kinds of samples that is no wider than needed. */
  private static int sampleFormat(AVCodec codec, int bits) throws IOException {
    PointerPointer<Pointer> found = new PointerPointer<>(1);
    IntPointer count = new IntPointer(1);
    check(
        avcodec_get_supported_config(null, codec, AV_CODEC_CONFIG_SAMPLE_FORMAT, 0, found, count));
    IntPointer formats = new IntPointer(found.get(0)).capacity(count.get());
    int first = formats.get(0);
    for (int i = 0; i < count.get(); i++) {
      int width = av_get_bytes_per_sample(formats.get(i));
      if (width == (bits <= 16 ? 2 : 4)) {
        return formats.get(i);
      }
    }
    return first;
  }

  private static void check(int answer) throws IOException {
    if (answer < 0) {
      throw new IOException("encoding a test file failed with " + answer);
    }
  }
}

package org.mixaccord.intake.coder;

import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVChannelLayout;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.ffmpeg.global.avcodec;
import org.bytedeco.ffmpeg.global.avformat;
import org.bytedeco.ffmpeg.global.avutil;
import org.bytedeco.ffmpeg.global.swresample;
import org.bytedeco.ffmpeg.swresample.SwrContext;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.FloatPointer;
import org.bytedeco.javacpp.PointerPointer;

/**
 * Encodes the samples on standard input as AAC-LC (ISO/IEC 14496-3) in MP4, with the index in front
 * and an edit list that leaves out the encoder's run-up, so that the first sample heard is the
 * first one there.
 *
 * <p>Writes a {@code double}, the gain in dB that was applied (at most 0), an {@code int}, the
 * length in bytes of all that stands before the coded sound, and the file.
 */
final class LightWriter {
  /** Frames read at a time. */
  private static final int STEP = 4096;

  /** Coding moves peaks: this much room is left under full scale. */
  private static final double HEADROOM_DB = 1;

  /** Bytes of the index for each block, and for everything else in it. */
  private static final int BLOCK_INDEX_BYTES = 4;

  private static final int INDEX_BYTES = 2048;

  private final int sampleRate;
  private final int channels;
  private final String format;
  private final long frames;
  private final int bitsPerSecond;

  private AVCodecContext encoder;
  private AVFormatContext file;
  private AVStream stream;
  private AVFrame block;
  private int filled;
  private long sent;
  private float gain = 1;
  private final AVPacket packet = avcodec.av_packet_alloc();

  /**
   * @param format of the samples: {@code s32}, {@code f32} or {@code f64}
   * @param bitsPerSecond for each channel that is coded, of which there are at most two
   */
  LightWriter(int sampleRate, int channels, String format, long frames, int bitsPerSecond) {
    this.sampleRate = sampleRate;
    this.channels = channels;
    this.format = format;
    this.frames = frames;
    this.bitsPerSecond = bitsPerSecond;
  }

  void write(OutputStream to) throws IOException {
    RawSamples raw = new RawSamples(format, channels);
    openEncoder();
    double peak = peak(raw);
    double most = Math.pow(10, -HEADROOM_DB / 20);
    gain = peak > most ? (float) (most / peak) : 1;
    openFile();
    raw.toBeginning();
    through(raw, this::encode);
    if (filled > 0) {
      sendBlock();
    }
    FfmpegCall.check(avcodec.avcodec_send_frame(encoder, null), "last block");
    drain();
    FfmpegCall.check(avformat.av_write_trailer(file), "index");
    writeFile(new DataOutputStream(to));
  }

  private void openEncoder() throws IOException {
    AVCodec codec = avcodec.avcodec_find_encoder(avcodec.AV_CODEC_ID_AAC);
    if (codec == null || codec.isNull()) {
      throw new IOException("no encoder for the light copy comes along");
    }
    int coded = Math.min(2, channels);
    encoder = avcodec.avcodec_alloc_context3(codec);
    encoder.sample_rate(codedRate(sampleRate));
    encoder.sample_fmt(avutil.AV_SAMPLE_FMT_FLTP);
    avutil.av_channel_layout_default(encoder.ch_layout(), coded);
    encoder.bit_rate((long) bitsPerSecond * coded);
    encoder.time_base(avutil.av_make_q(1, encoder.sample_rate()));
    encoder.flags(avcodec.AV_CODEC_FLAG_GLOBAL_HEADER | avcodec.AV_CODEC_FLAG_BITEXACT);
    encoder.thread_count(1);
    FfmpegCall.check(avcodec.avcodec_open2(encoder, codec, (AVDictionary) null), "encoder");
    block = avutil.av_frame_alloc();
    block.nb_samples(encoder.frame_size());
    block.format(encoder.sample_fmt());
    block.sample_rate(encoder.sample_rate());
    FfmpegCall.check(
        avutil.av_channel_layout_copy(block.ch_layout(), encoder.ch_layout()), "channels");
    FfmpegCall.check(avutil.av_frame_get_buffer(block, 0), "memory");
  }

  /** The rate that is coded: every browser plays these; higher ones would only cost bits. */
  static int codedRate(int sampleRate) {
    return switch (sampleRate) {
      case 48_000, 44_100, 32_000, 24_000, 22_050, 16_000 -> sampleRate;
      default -> sampleRate > 48_000 && sampleRate % 11_025 == 0 ? 44_100 : 48_000;
    };
  }

  private void openFile() throws IOException {
    file = new AVFormatContext(null);
    FfmpegCall.check(
        avformat.avformat_alloc_output_context2(file, null, "ipod", (String) null), "file");
    AVIOContext memory = new AVIOContext(null);
    FfmpegCall.check(avformat.avio_open_dyn_buf(memory), "memory");
    file.pb(memory);
    file.flags(file.flags() | AVFormatContext.AVFMT_FLAG_BITEXACT);
    stream = avformat.avformat_new_stream(file, null);
    stream.time_base(encoder.time_base());
    FfmpegCall.check(
        avcodec.avcodec_parameters_from_context(stream.codecpar(), encoder), "parameters");
    long blocks = frames * encoder.sample_rate() / sampleRate / encoder.frame_size() + 4;
    AVDictionary options =
        FfmpegCall.options(
            "moov_size",
            String.valueOf(blocks * BLOCK_INDEX_BYTES + INDEX_BYTES),
            "movie_timescale",
            String.valueOf(encoder.sample_rate()));
    FfmpegCall.check(avformat.avformat_write_header(file, options), "header");
  }

  /** Takes coded-rate samples, one array a channel. */
  @FunctionalInterface
  interface Taker {
    void take(float[][] samples, int count) throws IOException;
  }

  private double peak(RawSamples raw) throws IOException {
    double[] peak = {0};
    through(
        raw,
        (samples, count) -> {
          for (float[] side : samples) {
            for (int i = 0; i < count; i++) {
              peak[0] = Math.max(peak[0], Math.abs(side[i]));
            }
          }
        });
    return peak[0];
  }

  /** Runs all samples through folding to stereo and to the coded rate. */
  private void through(RawSamples raw, Taker taker) throws IOException {
    SwrContext converter = converter();
    int coded = encoder.ch_layout().nb_channels();
    int room =
        FfmpegCall.check(swresample.swr_get_out_samples(converter, STEP), "converting") + STEP;
    try (FloatPointer in = new FloatPointer((long) STEP * channels);
        PointerPointer<FloatPointer> ins = new PointerPointer<>(1L);
        PointerPointer<FloatPointer> outs = new PointerPointer<>((long) coded)) {
      ins.put(0, in);
      FloatPointer[] sides = new FloatPointer[coded];
      float[][] samples = new float[coded][room];
      for (int c = 0; c < coded; c++) {
        sides[c] = new FloatPointer(room);
        outs.put(c, sides[c]);
      }
      long at = 0;
      int count;
      do {
        int some = (int) Math.min(STEP, frames - at);
        if (some > 0) {
          float[] next = raw.next(some);
          in.position(0).put(next, 0, next.length);
        }
        at += some;
        count =
            FfmpegCall.check(
                swresample.swr_convert(converter, outs, room, some > 0 ? ins : null, some),
                "converting");
        for (int c = 0; c < coded; c++) {
          sides[c].get(samples[c], 0, count);
        }
        taker.take(samples, count);
      } while (at < frames || count > 0);
    } finally {
      swresample.swr_free(converter);
    }
  }

  private SwrContext converter() throws IOException {
    SwrContext made = new SwrContext(null);
    try (AVChannelLayout from = new AVChannelLayout()) {
      avutil.av_channel_layout_default(from, channels);
      FfmpegCall.check(
          swresample.swr_alloc_set_opts2(
              made,
              encoder.ch_layout(),
              avutil.AV_SAMPLE_FMT_FLTP,
              encoder.sample_rate(),
              from,
              avutil.AV_SAMPLE_FMT_FLT,
              sampleRate,
              0,
              null),
          "converter");
    }
    FfmpegCall.check(swresample.swr_init(made), "converter");
    return made;
  }

  private void encode(float[][] samples, int count) throws IOException {
    int done = 0;
    while (done < count) {
      if (filled == 0) {
        FfmpegCall.check(avutil.av_frame_make_writable(block), "memory");
      }
      int some = Math.min(count - done, encoder.frame_size() - filled);
      for (int c = 0; c < samples.length; c++) {
        float[] part = new float[some];
        for (int i = 0; i < some; i++) {
          part[i] = samples[c][done + i] * gain;
        }
        new FloatPointer(block.data(c)).position(filled).put(part, 0, some);
      }
      filled += some;
      done += some;
      if (filled == encoder.frame_size()) {
        sendBlock();
      }
    }
  }

  private void sendBlock() throws IOException {
    block.nb_samples(filled);
    block.pts(sent);
    sent += filled;
    filled = 0;
    FfmpegCall.check(avcodec.avcodec_send_frame(encoder, block), "block");
    drain();
  }

  private void drain() throws IOException {
    AVRational clock = encoder.time_base();
    while (avcodec.avcodec_receive_packet(encoder, packet) >= 0) {
      packet.stream_index(stream.index());
      avcodec.av_packet_rescale_ts(packet, clock, stream.time_base());
      FfmpegCall.check(avformat.av_write_frame(file, packet), "packet");
      avcodec.av_packet_unref(packet);
    }
  }

  private void writeFile(DataOutputStream out) throws IOException {
    BytePointer bytes = new BytePointer((BytePointer) null);
    int length = FfmpegCall.check(avformat.avio_close_dyn_buf(file.pb(), bytes), "file");
    out.writeDouble(20 * Math.log10(gain));
    out.writeInt(soundAt(bytes, length));
    byte[] part = new byte[1 << 16];
    for (int at = 0; at < length; at += part.length) {
      int some = Math.min(part.length, length - at);
      bytes.position(at).get(part, 0, some);
      out.write(part, 0, some);
    }
    out.flush();
  }

  /** Where the box with the coded sound begins; the boxes before it are the index. */
  private static int soundAt(BytePointer bytes, int length) throws IOException {
    int at = 0;
    while (at + 8 <= length) {
      int size = 0;
      StringBuilder type = new StringBuilder();
      for (int i = 0; i < 4; i++) {
        size = size << 8 | bytes.get(at + i) & 0xFF;
        type.append((char) (bytes.get(at + 4L + i) & 0xFF));
      }
      if (type.toString().equals("mdat")) {
        return at;
      }
      if (size < 8) {
        break;
      }
      at += size;
    }
    throw new IOException("the light copy has no sound in it");
  }
}

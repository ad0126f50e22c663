package org.mixaccord.intake.coder;

import java.io.IOException;
import java.io.OutputStream;
import org.bytedeco.ffmpeg.avutil.AVChannelLayout;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.global.avutil;
import org.bytedeco.ffmpeg.global.swresample;
import org.bytedeco.ffmpeg.swresample.SwrContext;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.PointerPointer;

/**
 * Writes decoded frames as interleaved samples of one kind. Rate and channels stay those of the
 * first frame: a file that changes them half-way is converted, so that it stays one recording.
 */
final class SampleWriter {
  private final OutputStream out;
  private final int format;
  private AVFrame first;
  private AVFrame shape;
  private SwrContext converter;
  private byte[] bytes = new byte[1 << 16];
  private BytePointer converted = new BytePointer(bytes.length);
  private final PointerPointer<BytePointer> planes = new PointerPointer<>(1L);

  SampleWriter(int sampleFormat, OutputStream out) {
    this.out = out;
    this.format = rawFormat(sampleFormat);
  }

  /** {@code s32}, {@code f32} or {@code f64}: the narrowest that holds these samples. */
  static String rawName(int sampleFormat) {
    return switch (rawFormat(sampleFormat)) {
      case avutil.AV_SAMPLE_FMT_FLT -> "f32";
      case avutil.AV_SAMPLE_FMT_DBL -> "f64";
      default -> "s32";
    };
  }

  private static int rawFormat(int sampleFormat) {
    return switch (avutil.av_get_packed_sample_fmt(sampleFormat)) {
      case avutil.AV_SAMPLE_FMT_FLT -> avutil.AV_SAMPLE_FMT_FLT;
      case avutil.AV_SAMPLE_FMT_DBL -> avutil.AV_SAMPLE_FMT_DBL;
      default -> avutil.AV_SAMPLE_FMT_S32;
    };
  }

  void take(AVFrame frame) throws IOException {
    if (first == null) {
      first = like(frame);
    }
    if (shape == null || !isSame(shape, frame)) {
      finish();
      shape = like(frame);
      converter = converter(frame);
    }
    convert(frame);
  }

  /** Writes what the converter still holds. */
  void finish() throws IOException {
    if (converter != null) {
      convert(null);
      swresample.swr_free(converter);
      converter = null;
      shape = null;
    }
  }

  private void convert(AVFrame frame) throws IOException {
    int frameBytes = first.ch_layout().nb_channels() * avutil.av_get_bytes_per_sample(format);
    int in = frame == null ? 0 : frame.nb_samples();
    int room = FfmpegCall.check(swresample.swr_get_out_samples(converter, in), "converting");
    if (room == 0) {
      return;
    }
    if (room * frameBytes > bytes.length) {
      converted.deallocate();
      bytes = new byte[room * frameBytes];
      converted = new BytePointer(bytes.length);
    }
    int count =
        FfmpegCall.check(
            swresample.swr_convert(
                converter,
                planes.put(0, converted),
                room,
                frame == null ? null : frame.extended_data(),
                in),
            "converting");
    converted.position(0).get(bytes, 0, count * frameBytes);
    out.write(bytes, 0, count * frameBytes);
  }

  private SwrContext converter(AVFrame frame) throws IOException {
    SwrContext made = new SwrContext(null);
    AVChannelLayout wanted = first.ch_layout();
    FfmpegCall.check(
        swresample.swr_alloc_set_opts2(
            made,
            wanted,
            format,
            first.sample_rate(),
            frame.ch_layout(),
            frame.format(),
            frame.sample_rate(),
            0,
            null),
        "converter");
    FfmpegCall.check(swresample.swr_init(made), "converter");
    return made;
  }

  /** A frame without samples that remembers the shape of this one. */
  private static AVFrame like(AVFrame frame) throws IOException {
    AVFrame like = avutil.av_frame_alloc();
    like.format(frame.format());
    like.sample_rate(frame.sample_rate());
    FfmpegCall.check(
        avutil.av_channel_layout_copy(like.ch_layout(), frame.ch_layout()), "channels");
    return like;
  }

  private static boolean isSame(AVFrame one, AVFrame other) {
    return one.format() == other.format()
        && one.sample_rate() == other.sample_rate()
        && avutil.av_channel_layout_compare(one.ch_layout(), other.ch_layout()) == 0;
  }
}

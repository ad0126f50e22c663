package org.mixaccord.intake.coder;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVInputFormat;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.global.avcodec;
import org.bytedeco.ffmpeg.global.avformat;
import org.bytedeco.ffmpeg.global.avutil;
import org.bytedeco.javacpp.PointerPointer;

/**
 * Decodes the first sound stream of the file on standard input.
 *
 * <p>A packet that cannot be decoded is reported and left out; the rest of the file is still heard.
 */
final class SoundReader {
  /** No protocol has this name: a file that names others gets nothing. */
  private static final String NO_PROTOCOL = "none";

  private final AVFormatContext input;
  private final AVStream stream;
  private final AVCodecContext decoder;

  private SoundReader(AVFormatContext input, AVStream stream, AVCodecContext decoder) {
    this.input = input;
    this.stream = stream;
    this.decoder = decoder;
  }

  /**
   * Writes {@code name=value} lines, an empty line and interleaved little-endian samples.
   *
   * @param demuxer the one that is used, whatever the bytes look like
   * @param codecs decoders the file may call upon, by comma
   * @param firstByte where the file begins that the demuxer sees
   * @param edges {@code trim} leaves out what the file says is run-up or padding; with {@code keep}
   *     every sample comes, for a server that trims by itself
   */
  static void decode(String demuxer, String codecs, long firstByte, String edges, OutputStream out)
      throws IOException {
    AVFormatContext input = open(demuxer, codecs, firstByte, edges.equals("keep"));
    AVStream stream = firstSound(input);
    AVCodec codec = avcodec.avcodec_find_decoder(stream.codecpar().codec_id());
    if (codec == null || codec.isNull()) {
      throw new IOException("the sound is coded in a way that is not known here");
    }
    AVCodecContext decoder = avcodec.avcodec_alloc_context3(codec);
    FfmpegCall.check(
        avcodec.avcodec_parameters_to_context(decoder, stream.codecpar()), "parameters");
    decoder.pkt_timebase(stream.time_base());
    decoder.thread_count(1);
    if (edges.equals("keep")) {
      decoder.flags2(decoder.flags2() | avcodec.AV_CODEC_FLAG2_SKIP_MANUAL);
    }
    AVDictionary options = FfmpegCall.options("codec_whitelist", codecs);
    FfmpegCall.check(avcodec.avcodec_open2(decoder, codec, options), "decoder");
    new SoundReader(input, stream, decoder).decode(out);
  }

  private static AVFormatContext open(
      String demuxer, String codecs, long firstByte, boolean keepsEdges) throws IOException {
    AVInputFormat format = avformat.av_find_input_format(demuxer);
    if (format == null || format.isNull()) {
      throw new IOException("no demuxer " + demuxer);
    }
    AVFormatContext input = avformat.avformat_alloc_context();
    input.pb(new InputFile().context());
    AVDictionary options =
        FfmpegCall.options(
            "protocol_whitelist",
            NO_PROTOCOL,
            "codec_whitelist",
            codecs,
            "skip_initial_bytes",
            String.valueOf(firstByte),
            "ignore_editlist",
            keepsEdges ? "1" : "0");
    FfmpegCall.check(avformat.avformat_open_input(input, "", format, options), "file");
    FfmpegCall.check(
        avformat.avformat_find_stream_info(input, (PointerPointer<?>) null), "streams");
    return input;
  }

  private static AVStream firstSound(AVFormatContext input) throws IOException {
    for (int i = 0; i < input.nb_streams(); i++) {
      if (input.streams(i).codecpar().codec_type() == avutil.AVMEDIA_TYPE_AUDIO) {
        return input.streams(i);
      }
    }
    throw new IOException("no sound stream");
  }

  private void decode(OutputStream out) throws IOException {
    out.write(text(facts()).getBytes(StandardCharsets.UTF_8));
    SampleWriter samples = new SampleWriter(decoder.sample_fmt(), out);
    AVPacket packet = avcodec.av_packet_alloc();
    AVFrame frame = avutil.av_frame_alloc();
    int read = avformat.av_read_frame(input, packet);
    for (; read >= 0; read = avformat.av_read_frame(input, packet)) {
      if (packet.stream_index() == stream.index()) {
        report(avcodec.avcodec_send_packet(decoder, packet), "packet");
        receive(frame, samples);
      }
      avcodec.av_packet_unref(packet);
    }
    if (read != avutil.AVERROR_EOF()) {
      report(read, "reading");
    }
    report(avcodec.avcodec_send_packet(decoder, null), "last packet");
    receive(frame, samples);
    samples.finish();
  }

  private void receive(AVFrame frame, SampleWriter samples) throws IOException {
    int answer = avcodec.avcodec_receive_frame(decoder, frame);
    for (; answer >= 0; answer = avcodec.avcodec_receive_frame(decoder, frame)) {
      samples.take(frame);
      avutil.av_frame_unref(frame);
    }
    if (answer != avutil.AVERROR_EOF() && answer != avutil.AVERROR_EAGAIN()) {
      report(answer, "decoding");
    }
  }

  private static void report(int answer, String doing) {
    if (answer < 0) {
      System.err.println(doing + ": " + FfmpegCall.words(answer));
    }
  }

  private Map<String, Object> facts() throws IOException {
    AVCodecParameters parameters = stream.codecpar();
    Map<String, Object> facts = new LinkedHashMap<>();
    facts.put("decoder", FfmpegCall.version());
    facts.put("codec_name", avcodec.avcodec_get_name(parameters.codec_id()).getString());
    facts.put("sample_fmt", name(decoder.sample_fmt()));
    facts.put("samples", SampleWriter.rawName(decoder.sample_fmt()));
    facts.put("sample_rate", decoder.sample_rate());
    facts.put("channels", decoder.ch_layout().nb_channels());
    if (decoder.ch_layout().order() == avutil.AV_CHANNEL_ORDER_NATIVE) {
      facts.put("channel_mask", decoder.ch_layout().u_mask());
    }
    facts.put("bits_per_raw_sample", parameters.bits_per_raw_sample());
    facts.put("bits_per_sample", avcodec.av_get_bits_per_sample(parameters.codec_id()));
    return facts;
  }

  private static String name(int sampleFormat) throws IOException {
    var name = avutil.av_get_sample_fmt_name(sampleFormat);
    if (name == null) {
      throw new IOException("the kind of samples is not known");
    }
    return name.getString();
  }

  private static String text(Map<String, Object> facts) {
    StringBuilder text = new StringBuilder();
    facts.forEach((name, value) -> text.append(name).append('=').append(value).append('\n'));
    return text.append('\n').toString();
  }
}

package org.mixaccord.intake.coder;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.global.avcodec;
import org.bytedeco.ffmpeg.global.avformat;
import org.bytedeco.ffmpeg.global.avutil;
import org.bytedeco.ffmpeg.global.swresample;
import org.bytedeco.javacpp.Loader;

/** How calls of the libraries are answered: a negative number is a fault. */
final class FfmpegCall {
  private FfmpegCall() {}

  /** Loads every library that is needed later, so that what is missing is missed at once. */
  static void loadAll() {
    for (Class<?> library :
        List.of(avutil.class, swresample.class, avcodec.class, avformat.class)) {
      Loader.load(library);
    }
  }

  static String version() {
    return "FFmpeg " + avutil.av_version_info().getString();
  }

  /** The answer, if it is not a fault. */
  static int check(int answer, String doing) throws IOException {
    if (answer < 0) {
      throw new IOException(doing + ": " + words(answer));
    }
    return answer;
  }

  static String words(int fault) {
    byte[] text = new byte[avutil.AV_ERROR_MAX_STRING_SIZE];
    avutil.av_strerror(fault, text, text.length);
    return new String(text, StandardCharsets.US_ASCII).trim();
  }

  /** Options as the libraries take them; they free what they have used. */
  static AVDictionary options(String... namesAndValues) {
    AVDictionary options = new AVDictionary(null);
    for (int i = 0; i < namesAndValues.length; i += 2) {
      avutil.av_dict_set(options, namesAndValues[i], namesAndValues[i + 1], 0);
    }
    return options;
  }
}

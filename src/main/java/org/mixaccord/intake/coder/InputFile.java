package org.mixaccord.intake.coder;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.Read_packet_Pointer_BytePointer_int;
import org.bytedeco.ffmpeg.avformat.Seek_Pointer_long_int;
import org.bytedeco.ffmpeg.global.avformat;
import org.bytedeco.ffmpeg.global.avutil;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.Pointer;

/**
 * The file on standard input, as the libraries read it. They are not given its descriptor: they
 * would make a second one of it, and nothing can be opened any more.
 */
final class InputFile {
  private static final int BUFFER_BYTES = 1 << 15;

  // Of the C library; see fseek(3).
  private static final int SEEK_SET = 0;
  private static final int SEEK_CUR = 1;
  private static final int SEEK_END = 2;
  private static final int ANY_WAY = ~avformat.AVSEEK_FORCE;

  private final FileChannel file = StandardInput.FILE;
  private final AVIOContext context;
  // Kept here so that they live as long as the libraries may call them.
  private final Read_packet_Pointer_BytePointer_int reader;
  private final Seek_Pointer_long_int seeker;
  private long at;

  InputFile() {
    reader =
        new Read_packet_Pointer_BytePointer_int() {
          @Override
          public int call(Pointer self, BytePointer to, int most) {
            return read(to, most);
          }
        };
    seeker =
        new Seek_Pointer_long_int() {
          @Override
          public long call(Pointer self, long offset, int whence) {
            return seek(offset, whence & ANY_WAY);
          }
        };
    context =
        avformat.avio_alloc_context(
            new BytePointer(avutil.av_malloc(BUFFER_BYTES)),
            BUFFER_BYTES,
            0,
            null,
            reader,
            null,
            seeker);
  }

  AVIOContext context() {
    return context;
  }

  private int read(BytePointer to, int most) {
    ByteBuffer buffer = to.capacity(most).asByteBuffer();
    try {
      int count = file.read(buffer, at);
      if (count <= 0) {
        return avutil.AVERROR_EOF();
      }
      at += count;
      return count;
    } catch (IOException e) {
      return avutil.AVERROR_EIO();
    }
  }

  private long seek(long offset, int whence) {
    try {
      long to;
      switch (whence) {
        case avformat.AVSEEK_SIZE -> {
          return file.size();
        }
        case SEEK_SET -> to = offset;
        case SEEK_CUR -> to = at + offset;
        case SEEK_END -> to = file.size() + offset;
        default -> to = -1;
      }
      if (to < 0) {
        return avutil.AVERROR_EINVAL();
      }
      at = to;
      return at;
    } catch (IOException e) {
      return avutil.AVERROR_EIO();
    }
  }
}

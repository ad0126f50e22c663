package org.mixaccord.intake;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.mixaccord.intake.Fixtures.join;
import static org.mixaccord.intake.Fixtures.number;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** MP4 files written box by box: right ones, and those that contradict themselves. */
final class Mp4Bytes {
  private final byte[] entry;
  private final List<byte[]> packets;
  private final int packetTicks;
  private int timescale;
  private int movieTimescale = 1000;
  private long lastTicks;
  private byte[] edits = {};
  private byte[] tags = {};
  private byte[] before = {};
  private boolean indexFirst;
  private byte[] stream = {};

  private Mp4Bytes(byte[] entry, List<byte[]> packets, int packetTicks, int timescale) {
    this.entry = entry;
    this.packets = packets;
    this.packetTicks = packetTicks;
    this.lastTicks = packetTicks;
    this.timescale = timescale;
  }

  /** AAC taken out of an ADTS stream: the same frames without their headers. */
  static Mp4Bytes ofAdts(byte[] adts, int rate, int channels) {
    List<byte[]> packets = new ArrayList<>();
    for (int at = 0; at + 7 < adts.length; ) {
      int length =
          (adts[at + 3] & 3) << 11 | (adts[at + 4] & 0xff) << 3 | (adts[at + 5] & 0xff) >> 5;
      int header = (adts[at + 1] & 1) == 1 ? 7 : 9;
      packets.add(Arrays.copyOfRange(adts, at + header, at + length));
      at += length;
    }
    int rateIndex = adts[2] >> 2 & 15;
    int config = 2 << 11 | rateIndex << 7 | channels << 3;
    byte[] decoderConfig =
        join(
            new byte[] {0x40, 0x15, 0, 0, 0},
            number(128_000, 4, true),
            number(128_000, 4, true),
            descriptor(5, number(config, 2, true)));
    byte[] stream =
        descriptor(
            3, join(new byte[3], descriptor(4, decoderConfig), descriptor(6, new byte[] {2})));
    byte[] esds = box("esds", join(new byte[4], stream));
    Mp4Bytes file = new Mp4Bytes(soundEntry("mp4a", channels, 16, rate, esds), packets, 1024, rate);
    file.stream = stream;
    return file;
  }

  /**
   * ALAC written without compression (the escape form of the coding): each packet holds the samples
   * as they are.
   *
   * @param samples interleaved, one or two channels
   * @param entryRate what the sample entry says; a 16.16 number there cannot hold high rates
   */
  static Mp4Bytes alac(int[] samples, int channels, int bits, int rate, int entryRate) {
    int frameLength = 4096;
    List<byte[]> packets = new ArrayList<>();
    int frames = samples.length / channels;
    for (int at = 0; at < frames; at += frameLength) {
      int count = Math.min(frameLength, frames - at);
      Bits out = new Bits();
      out.put(channels - 1, 3);
      out.put(0, 16);
      out.put(1, 1);
      // How many low bytes lie apart: none do in this form, but 32 bits must not say 0.
      out.put(bits == 32 ? 2 : 0, 2);
      out.put(1, 1);
      out.put(count, 32);
      for (int i = at * channels; i < (at + count) * channels; i++) {
        out.put(samples[i], bits);
      }
      out.put(7, 3);
      packets.add(out.bytes());
    }
    byte[] cookie =
        join(
            number(frameLength, 4, true),
            new byte[] {0, (byte) bits, 40, 10, 14, (byte) channels},
            number(255, 2, true),
            number(0, 4, true),
            number(0, 4, true),
            number(rate, 4, true));
    Mp4Bytes file =
        new Mp4Bytes(
            soundEntry("alac", channels, 16, entryRate, box("alac", join(new byte[4], cookie))),
            packets,
            frameLength,
            rate);
    file.lastTicks = frames % frameLength == 0 ? frameLength : frames % frameLength;
    return file;
  }

  /** The same packets in a CAF file, which says how many frames of them are sound. */
  byte[] asCaf(int rate, int channels, long valid, int priming) {
    ByteArrayOutputStream sizes = new ByteArrayOutputStream();
    for (byte[] packet : packets) {
      // Seven bits a byte, the highest first; all but the last are marked.
      if (packet.length >= 1 << 7) {
        sizes.write(packet.length >> 7 | 0x80);
      }
      sizes.write(packet.length & 0x7f);
    }
    long remainder = packets.size() * 1024L - valid - priming;
    byte[] table =
        join(
            number(packets.size(), 8, true),
            number(valid, 8, true),
            number(priming, 4, true),
            number(remainder, 4, true),
            sizes.toByteArray());
    return CafBytes.file(
        CafBytes.coded("aac ", rate, channels, 1024),
        CafBytes.chunk("kuki", stream),
        CafBytes.chunk("pakt", table),
        CafBytes.data(join(packets.toArray(new byte[0][]))));
  }

  int packets() {
    return packets.size();
  }

  /** One edit: so many movie ticks from this media tick on; −1 is an empty edit. */
  Mp4Bytes edit(long movieTicks, long mediaTick) {
    int count = edits.length / 12;
    edits =
        join(
            edits.length == 0 ? new byte[0] : edits,
            number(movieTicks, 4, true),
            number(mediaTick, 4, true),
            number(0x10000, 4, true));
    assert edits.length == (count + 1) * 12;
    return this;
  }

  Mp4Bytes movieTimescale(int ticks) {
    movieTimescale = ticks;
    return this;
  }

  Mp4Bytes lastPacketTicks(long ticks) {
    lastTicks = ticks;
    return this;
  }

  /** The index in front of the sound, so that a file that is cut off can still be read. */
  Mp4Bytes indexFirst() {
    indexFirst = true;
    return this;
  }

  /** The gapless tag: delay, padding and length as hexadecimal words. */
  Mp4Bytes gapless(long delay, long padding, long length) {
    String words = String.format(" 00000000 %08X %08X %016X 00000000", delay, padding, length);
    tags =
        box(
            "udta",
            box(
                "meta",
                join(
                    new byte[4],
                    box("hdlr", join(new byte[8], text("mdirappl"), new byte[9])),
                    box(
                        "ilst",
                        box(
                            "----",
                            join(
                                box("mean", join(new byte[4], text("com.apple.iTunes"))),
                                box("name", join(new byte[4], text("iTunSMPB"))),
                                box(
                                    "data",
                                    join(number(1, 4, true), new byte[4], text(words)))))))));
    return this;
  }

  /** A track of pictures in front of the sound, as a cover or a video has it. */
  Mp4Bytes pictureTrackFirst() {
    byte[] jpeg = {(byte) 0xff, (byte) 0xd8, (byte) 0xff, (byte) 0xd9};
    byte[] visual =
        box(
            "jpeg",
            join(
                new byte[6],
                number(1, 2, true),
                new byte[16],
                number(16, 2, true),
                number(16, 2, true),
                new byte[14],
                number(1, 2, true),
                new byte[32],
                number(24, 2, true),
                number(0xffff, 2, true)));
    picture = jpeg;
    before = visual;
    return this;
  }

  private byte[] picture = {};

  byte[] bytes() {
    byte[] ftyp = box("ftyp", join(text("M4A "), new byte[4], text("M4A mp42isom")));
    byte[] sound = join(packets.toArray(new byte[0][]));
    byte[] mdat = box("mdat", join(picture, sound));
    byte[] moov = moov(0);
    long mdatAt = indexFirst ? ftyp.length + moov.length : ftyp.length;
    moov = moov(mdatAt + 8);
    return indexFirst ? join(ftyp, moov, mdat) : join(ftyp, mdat, moov);
  }

  private byte[] moov(long dataAt) {
    long ticks = (packets.size() - 1L) * packetTicks + lastTicks;
    byte[] sizes = new byte[0];
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    packets.forEach(packet -> all.writeBytes(number(packet.length, 4, true)));
    sizes = all.toByteArray();
    byte[] times =
        join(
            number(0, 4, true),
            number(2, 4, true),
            number(packets.size() - 1L, 4, true),
            number(packetTicks, 4, true),
            number(1, 4, true),
            number(lastTicks, 4, true));
    byte[] table =
        box(
            "stbl",
            join(
                box("stsd", join(new byte[4], number(1, 4, true), entry)),
                box("stts", times),
                chunkOf(packets.size()),
                box("stsz", join(new byte[8], number(packets.size(), 4, true), sizes)),
                box("stco", join(new byte[4], number(1, 4, true), at(dataAt + picture.length)))));
    byte[] edts =
        edits.length == 0
            ? edits
            : box(
                "edts", box("elst", join(new byte[4], number(edits.length / 12, 4, true), edits)));
    byte[] track = track(1, edts, "soun", box("smhd", new byte[8]), timescale, ticks, table);
    byte[] pictures = {};
    if (picture.length > 0) {
      byte[] one =
          box(
              "stbl",
              join(
                  box("stsd", join(new byte[4], number(1, 4, true), before)),
                  box("stts", join(new byte[4], number(1, 4, true), number(1, 4, true), at(1000))),
                  chunkOf(1),
                  box("stsz", join(new byte[8], number(1, 4, true), at(picture.length))),
                  box("stco", join(new byte[4], number(1, 4, true), at(dataAt)))));
      pictures = track(2, new byte[0], "vide", box("vmhd", new byte[12]), 1000, 1000, one);
    }
    byte[] mvhd =
        box(
            "mvhd",
            join(
                new byte[12],
                number(movieTimescale, 4, true),
                number(ticks * movieTimescale / timescale, 4, true),
                number(0x10000, 4, true),
                number(0x100, 2, true),
                new byte[10],
                matrix(),
                new byte[24],
                number(3, 4, true)));
    return box("moov", join(mvhd, pictures, track, tags));
  }

  private static byte[] chunkOf(int packets) {
    return box(
        "stsc",
        join(new byte[4], number(1, 4, true), at(1), number(packets, 4, true), number(1, 4, true)));
  }

  private static byte[] at(long value) {
    return number(value, 4, true);
  }

  private static byte[] track(
      int id, byte[] edts, String kind, byte[] head, int timescale, long ticks, byte[] table) {
    byte[] tkhd =
        box(
            "tkhd",
            join(
                number(7, 4, true),
                new byte[8],
                number(id, 4, true),
                new byte[4],
                number(ticks, 4, true),
                new byte[16],
                matrix(),
                new byte[8]));
    byte[] mdhd =
        box(
            "mdhd",
            join(
                new byte[12],
                number(timescale, 4, true),
                number(ticks, 4, true),
                number(0x55c4, 2, true),
                new byte[2]));
    byte[] hdlr = box("hdlr", join(new byte[8], text(kind), new byte[13]));
    byte[] dinf =
        box("dinf", box("dref", join(new byte[4], at(1), box("url ", new byte[] {0, 0, 0, 1}))));
    byte[] mdia = box("mdia", join(mdhd, hdlr, box("minf", join(head, dinf, table))));
    return box("trak", join(tkhd, edts, mdia));
  }

  private static byte[] matrix() {
    return join(at(0x10000), new byte[12], at(0x10000), new byte[12], number(0x40000000L, 4, true));
  }

  private static byte[] soundEntry(String type, int channels, int bits, int rate, byte[] config) {
    return box(
        type,
        join(
            new byte[6],
            number(1, 2, true),
            new byte[8],
            number(channels, 2, true),
            number(bits, 2, true),
            new byte[4],
            number((rate & 0xffffL) << 16, 4, true),
            config));
  }

  private static byte[] descriptor(int tag, byte[] body) {
    byte more = (byte) 0x80; // lengths in four bytes of seven bits, as most writers have them
    return join(new byte[] {(byte) tag, more, more, more, (byte) body.length}, body);
  }

  static byte[] box(String type, byte[] body) {
    return join(number(body.length + 8L, 4, true), text(type), body);
  }

  private static byte[] text(String words) {
    return words.getBytes(ISO_8859_1);
  }

  /** Bits, the highest first. */
  private static final class Bits {
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private int open;
    private int filled;

    void put(int value, int count) {
      for (int bit = count - 1; bit >= 0; bit--) {
        open = open << 1 | (value >> bit & 1);
        if (++filled == 8) {
          out.write(open);
          open = 0;
          filled = 0;
        }
      }
    }

    byte[] bytes() {
      while (filled != 0) {
        put(0, 1);
      }
      return out.toByteArray();
    }
  }
}

package org.mixaccord.measure;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;

/** The stored form of what stands beside the cells of a track. */
final class MarksFormat {
  private static final int MOST = 1_000_000;

  private MarksFormat() {}

  static void write(Marks marks, DataOutputStream out) throws IOException {
    out.writeInt(marks.gaps().size());
    for (Marks.Gap gap : marks.gaps()) {
      out.writeInt(gap.channel());
      out.writeLong(gap.from());
      out.writeLong(gap.to());
      out.writeDouble(gap.value());
    }
    out.writeLong(marks.moreGaps());
    out.writeInt(marks.clicks().size());
    for (Marks.Click click : marks.clicks()) {
      out.writeInt(click.channel());
      out.writeLong(click.frame());
      out.writeDouble(click.height());
    }
    out.writeLong(marks.moreClicks());
    out.writeInt(marks.flatTops().size());
    for (Marks.FlatTop top : marks.flatTops()) {
      out.writeInt(top.channel());
      out.writeBoolean(top.positive());
      out.writeInt(top.tolerance());
      out.writeDouble(top.level());
      out.writeInt(top.stretches().size());
      for (Marks.Stretch s : top.stretches()) {
        out.writeLong(s.from());
        out.writeLong(s.to());
        out.writeInt(s.runs());
      }
    }
    out.writeInt(marks.bits());
    FineSpectrum spectrum = marks.spectrum();
    out.writeDouble(spectrum.lineHz());
    out.writeInt(spectrum.power().length);
    out.writeInt(spectrum.evenness().length);
    TrackFormat.write(out, spectrum.power());
    TrackFormat.write(out, spectrum.evenness());
  }

  static Marks read(DataInputStream in, int channels) throws IOException {
    List<Marks.Gap> gaps = new ArrayList<>();
    for (int i = count(in); i > 0; i--) {
      gaps.add(new Marks.Gap(channel(in, channels), in.readLong(), in.readLong(), in.readDouble()));
    }
    long moreGaps = in.readLong();
    List<Marks.Click> clicks = new ArrayList<>();
    for (int i = count(in); i > 0; i--) {
      clicks.add(new Marks.Click(channel(in, channels), in.readLong(), in.readDouble()));
    }
    long moreClicks = in.readLong();
    List<Marks.FlatTop> tops = new ArrayList<>();
    for (int i = count(in); i > 0; i--) {
      tops.add(
          new Marks.FlatTop(
              channel(in, channels),
              in.readBoolean(),
              in.readInt(),
              in.readDouble(),
              stretches(in)));
    }
    int bits = in.readInt();
    double lineHz = in.readDouble();
    int lines = count(in);
    int groups = count(in);
    FineSpectrum spectrum =
        new FineSpectrum(
            lineHz,
            TrackFormat.read(in, new float[lines]),
            TrackFormat.read(in, new float[groups]));
    return new Marks(gaps, moreGaps, clicks, moreClicks, tops, bits, spectrum);
  }

  private static List<Marks.Stretch> stretches(DataInputStream in) throws IOException {
    List<Marks.Stretch> stretches = new ArrayList<>();
    for (int i = count(in); i > 0; i--) {
      stretches.add(new Marks.Stretch(in.readLong(), in.readLong(), in.readInt()));
    }
    return stretches;
  }

  private static int channel(DataInputStream in, int channels) throws IOException {
    int channel = in.readInt();
    TrackFormat.check(channel >= 0 && channel < channels, "damaged channel");
    return channel;
  }

  private static int count(DataInputStream in) throws IOException {
    int count = in.readInt();
    TrackFormat.check(count >= 0 && count <= MOST, "damaged list");
    return count;
  }
}

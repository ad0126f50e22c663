package org.mixaccord.measure;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.List;

/**
 * The stored form of a track, big-endian: "MXTR", version, rate, channels, frames; then the arrays
 * of the cells, of the bands, and what the pass saw besides. Lengths follow from rate and frames.
 */
final class TrackFormat {
  private static final int MAGIC = 0x4D585452; // "MXTR"
  private static final int MOST_CHANNELS = 256;
  private static final int MOST_CELLS = 100 * 3600 * 48;

  private TrackFormat() {}

  static void write(MeasureTrack track, OutputStream stream) throws IOException {
    DataOutputStream out = new DataOutputStream(new BufferedOutputStream(stream, 1 << 16));
    out.writeInt(MAGIC);
    out.writeInt(MeasureTrack.VERSION);
    out.writeInt(track.sampleRate());
    out.writeInt(track.channels());
    out.writeLong(track.frames());
    Cells cells = track.cells();
    for (double[][] perChannel : List.of(cells.weighted, cells.energy, cells.sum)) {
      for (double[] values : perChannel) {
        write(out, values);
      }
    }
    write(out, cells.product);
    write(out, cells.samplePeak);
    write(out, cells.truePeak);
    write(out, cells.truePeakAt);
    for (int i = 0; i < cells.count(); i++) {
      out.writeInt(cells.samplePeakAt[i]);
      out.writeInt(cells.interSampleOvers[i]);
    }
    for (int[] channel : cells.clippedRuns) {
      for (int runs : channel) {
        out.writeInt(runs);
      }
    }
    write(out, track.bandGrid().total());
    write(out, track.bandGrid().difference());
    write(out, track.bandGrid().product());
    write(out, track.bandGrid().pitch());
    Edges edges = track.edges();
    out.writeDouble(edges.firstSample());
    out.writeLong(edges.nonFinite());
    out.writeLong(edges.firstNonFinite());
    out.writeLong(edges.lastNonFinite());
    MarksFormat.write(track.marks(), out);
    out.writeInt(MAGIC);
    out.flush();
  }

  static MeasureTrack read(InputStream stream) throws IOException {
    DataInputStream in = new DataInputStream(new BufferedInputStream(stream, 1 << 16));
    check(in.readInt() == MAGIC, "not a measure track");
    int version = in.readInt();
    check(version == MeasureTrack.VERSION, "measure track of version " + version);
    int rate = in.readInt();
    int channels = in.readInt();
    long frames = in.readLong();
    check(rate > 0 && channels > 0 && channels <= MOST_CHANNELS && frames >= 0, "damaged header");
    check(frames / rate < MOST_CELLS / Grid.CELLS_PER_SECOND, "longer than two days");
    Grid grid = new Grid(rate, frames);
    Cells cells = new Cells(channels, grid.cells());
    for (double[][] perChannel : List.of(cells.weighted, cells.energy, cells.sum)) {
      for (double[] values : perChannel) {
        read(in, values);
      }
    }
    read(in, cells.product);
    read(in, cells.samplePeak);
    read(in, cells.truePeak);
    read(in, cells.truePeakAt);
    for (int i = 0; i < cells.count(); i++) {
      cells.samplePeakAt[i] = in.readInt();
      cells.interSampleOvers[i] = in.readInt();
    }
    for (int[] channel : cells.clippedRuns) {
      for (int i = 0; i < channel.length; i++) {
        channel[i] = in.readInt();
      }
    }
    int n = BandGrid.cells(rate, frames) * ThirdOctaves.COUNT;
    BandGrid bands =
        new BandGrid(
            rate,
            channels,
            frames,
            read(in, new float[n]),
            read(in, new float[channels == 2 ? n : 0]),
            read(in, new float[channels == 2 ? n : 0]),
            read(in, new float[BandGrid.cells(rate, frames) * PitchClasses.COUNT]));
    double first = in.readDouble();
    long nonFinite = in.readLong();
    long firstNonFinite = in.readLong();
    long lastNonFinite = in.readLong();
    Marks marks = MarksFormat.read(in, channels);
    check(in.readInt() == MAGIC, "damaged end");
    return new MeasureTrack(
        grid,
        channels,
        cells,
        bands,
        new Edges(first, nonFinite, firstNonFinite, lastNonFinite),
        marks);
  }

  static void check(boolean fine, String problem) throws IOException {
    if (!fine) {
      throw new IOException(problem);
    }
  }

  private static void write(DataOutputStream out, double[] values) throws IOException {
    for (double v : values) {
      out.writeDouble(v);
    }
  }

  static void write(DataOutputStream out, float[] values) throws IOException {
    for (float v : values) {
      out.writeFloat(v);
    }
  }

  private static void read(DataInputStream in, double[] values) throws IOException {
    for (int i = 0; i < values.length; i++) {
      values[i] = in.readDouble();
    }
  }

  static float[] read(DataInputStream in, float[] values) throws IOException {
    for (int i = 0; i < values.length; i++) {
      values[i] = in.readFloat();
    }
    return values;
  }
}

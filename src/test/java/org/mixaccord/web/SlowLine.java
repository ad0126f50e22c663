package org.mixaccord.web;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * A slow, lossy line in front of a server on this machine, for a browser to go through.
 *
 * <p>It is a proxy for TCP streams that behaves as TCP does over such a line, since the streams
 * themselves lose nothing here. Both directions have one rate for all connections together and half
 * of the round trip as delay; opening a connection costs one round trip. Data goes in packets of
 * 1460 bytes. A packet is lost with the given chance: then it comes one round trip later, and
 * everything behind it waits, as it does for a fast retransmission. The window begins with 10
 * packets, doubles each round until something is lost, then grows by one a round, and is halved at
 * each loss. Not simulated: a retransmission that is lost again, and names that have to be
 * resolved.
 */
public final class SlowLine implements Closeable {
  private static final int PACKET_BYTES = 1460;
  private static final int FIRST_WINDOW = 10;
  private static final int LEAST_WINDOW = 2;

  private final ServerSocket door;
  private final int serverPort;
  private final long roundTripNanos;
  private final double loss;
  private final SplittableRandom random;
  private final Rate down;
  private final Rate up;
  private final List<Socket> open = new ArrayList<>();
  private int sent;
  private int lost;

  /** A line to a server on the loopback interface; the same seed loses the same packets. */
  public SlowLine(int serverPort, int bitsPerSecond, int roundTripMillis, double loss, long seed)
      throws IOException {
    this.serverPort = serverPort;
    this.roundTripNanos = TimeUnit.MILLISECONDS.toNanos(roundTripMillis);
    this.loss = loss;
    this.random = new SplittableRandom(seed);
    this.down = new Rate(bitsPerSecond);
    this.up = new Rate(bitsPerSecond);
    this.door = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    start("slow-line-door", this::accept);
  }

  /** Where the browser finds the server through this line. */
  public int port() {
    return door.getLocalPort();
  }

  /** Share of the packets that were lost so far. */
  public synchronized double lostShare() {
    return sent == 0 ? 0 : (double) lost / sent;
  }

  @Override
  public void close() throws IOException {
    door.close();
    synchronized (open) {
      open.forEach(SlowLine::end);
    }
  }

  private void accept() throws IOException {
    while (true) {
      Socket browser = door.accept();
      Socket server = new Socket(InetAddress.getLoopbackAddress(), serverPort);
      synchronized (open) {
        open.add(browser);
        open.add(server);
      }
      browser.setTcpNoDelay(true);
      server.setTcpNoDelay(true);
      pipe(browser, server, up, System.nanoTime() + roundTripNanos);
      pipe(server, browser, down, 0);
    }
  }

  /** When a rate that several share lets the next packet leave. */
  private static final class Rate {
    private final double nanosPerByte;
    private long free = System.nanoTime();

    Rate(int bitsPerSecond) {
      nanosPerByte = 8e9 / bitsPerSecond;
    }

    synchronized long leaves(int bytes) {
      free = Math.max(free, System.nanoTime()) + Math.round(bytes * nanosPerByte);
      return free;
    }
  }

  private record Packet(long dueNanos, byte[] bytes) {}

  private static final Packet LAST = new Packet(0, new byte[0]);

  private void pipe(Socket from, Socket to, Rate rate, long notBeforeNanos) {
    LinkedBlockingQueue<Packet> underWay = new LinkedBlockingQueue<>();
    start("slow-line-in", () -> send(from, rate, notBeforeNanos, underWay));
    start("slow-line-out", () -> arrive(underWay, from, to));
  }

  private void send(
      Socket from, Rate rate, long notBeforeNanos, LinkedBlockingQueue<Packet> underWay)
      throws IOException {
    int window = FIRST_WINDOW;
    boolean doubling = true;
    long inOrder = notBeforeNanos;
    try (InputStream in = from.getInputStream()) {
      byte[] round = new byte[1 << 16];
      while (true) {
        int most = Math.min(round.length, window * PACKET_BYTES);
        int count = in.read(round, 0, most);
        if (count < 0) {
          return;
        }
        long begun = System.nanoTime();
        long left = begun;
        boolean whole = true;
        for (int at = 0; at < count; at += PACKET_BYTES) {
          byte[] bytes = Arrays.copyOfRange(round, at, Math.min(count, at + PACKET_BYTES));
          left = rate.leaves(bytes.length);
          boolean isLost = isLost();
          whole &= !isLost;
          long due = left + roundTripNanos / 2 + (isLost ? roundTripNanos : 0);
          inOrder = Math.max(inOrder, due);
          underWay.add(new Packet(inOrder, bytes));
        }
        doubling &= whole;
        window = whole ? (doubling ? 2 * window : window + 1) : Math.max(LEAST_WINDOW, window / 2);
        // What comes next waits for the answers, and for the packets that have not left yet.
        if (count == most) {
          until(Math.max(left, begun + roundTripNanos));
        } else {
          until(left);
        }
      }
    } finally {
      underWay.add(LAST);
    }
  }

  private synchronized boolean isLost() {
    sent++;
    boolean isLost = random.nextDouble() < loss;
    lost += isLost ? 1 : 0;
    return isLost;
  }

  private static void arrive(LinkedBlockingQueue<Packet> underWay, Socket from, Socket to)
      throws IOException {
    try (OutputStream out = to.getOutputStream()) {
      for (Packet next = underWay.take(); next != LAST; next = underWay.take()) {
        until(next.dueNanos());
        out.write(next.bytes());
        out.flush();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      end(from);
      end(to);
    }
  }

  private static void until(long nanos) {
    long left = nanos - System.nanoTime();
    while (left > 0) {
      try {
        TimeUnit.NANOSECONDS.sleep(left);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return;
      }
      left = nanos - System.nanoTime();
    }
  }

  /** Work that ends when one of its sockets does. */
  @FunctionalInterface
  private interface Work {
    void run() throws IOException;
  }

  private static void start(String name, Work work) {
    Thread thread =
        new Thread(
            () -> {
              try {
                work.run();
              } catch (IOException ended) {
                // Browser, server or test has closed its side.
              }
            },
            name);
    thread.setDaemon(true);
    thread.start();
  }

  private static void end(Socket socket) {
    try {
      socket.close();
    } catch (IOException e) {
      // It is gone either way.
    }
  }
}

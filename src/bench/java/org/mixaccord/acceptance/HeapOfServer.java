package org.mixaccord.acceptance;

import java.io.IOException;

/** Looks at a server's heap ten times a second, until it is asked for the largest it saw. */
final class HeapOfServer {
  private static final int EVERY_MILLIS = 100;

  private final Thread looking;
  private volatile boolean over;
  private volatile long largest;

  HeapOfServer(ServerProcess server) {
    looking = new Thread(() -> look(server), "heap-of-server");
    looking.setDaemon(true);
    looking.start();
  }

  private void look(ServerProcess server) {
    try {
      while (!over) {
        largest = Math.max(largest, server.heapBytes());
        Thread.sleep(EVERY_MILLIS);
      }
    } catch (IOException e) {
      throw new IllegalStateException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  long largestBytes() throws InterruptedException {
    over = true;
    looking.join();
    return largest;
  }
}

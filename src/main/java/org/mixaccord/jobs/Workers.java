package org.mixaccord.jobs;

import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;

/** Threads that see the application's classes, whichever thread happened to make them. */
final class Workers {
  private Workers() {}

  static ExecutorService named(String name, int count, ClassLoader loader) {
    AtomicInteger number = new AtomicInteger();
    return Executors.newFixedThreadPool(
        count,
        work -> {
          Thread thread = new Thread(work, name + "-" + number.incrementAndGet());
          thread.setContextClassLoader(loader);
          thread.setDaemon(true);
          return thread;
        });
  }
}

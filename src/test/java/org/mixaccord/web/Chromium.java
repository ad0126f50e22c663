package org.mixaccord.web;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Assumptions;

/** The browser that page tests drive. Its own rule for sound holds: none before a press. */
public final class Chromium {
  private static final List<String> FLAGS =
      List.of(
          ("--no-sandbox --disable-gpu --disable-quic --no-first-run"
                  + " --disable-background-networking --disable-component-update --disable-sync"
                  + " --autoplay-policy=document-user-activation-required"
                  + " --use-fake-device-for-media-stream --use-fake-ui-for-media-stream")
              .split(" "));

  private static final String MISSING =
      "no browser here; install one with: apt-get install -y chromium";

  /** The build's summary counts skipped tests and leaves out why. */
  private static boolean told;

  private Chromium() {}

  /**
   * Skips the test where there is no browser; to be called before each, so that each is counted.
   */
  public static void orSkip() {
    boolean use = toBeUsed();
    if (!use && !told) {
      told = true;
      System.err.println("Browser tests are skipped: " + MISSING);
    }
    Assumptions.assumeTrue(use, MISSING);
  }

  /** Whether there is a browser, or has to be. */
  static boolean toBeUsed() {
    return "required".equals(System.getenv("MIXACCORD_BROWSER")) || Files.isExecutable(program());
  }

  /** Starts it. */
  public static Browser open(Playwright playwright) {
    return playwright
        .chromium()
        .launch(new BrowserType.LaunchOptions().setExecutablePath(program()).setArgs(FLAGS));
  }

  private static Path program() {
    return Path.of(System.getenv().getOrDefault("MIXACCORD_CHROMIUM", "/usr/bin/chromium"));
  }
}

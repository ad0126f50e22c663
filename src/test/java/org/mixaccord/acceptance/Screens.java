package org.mixaccord.acceptance;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.Cookie;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.mixaccord.web.Chromium;

/** People at browsers of their own, all on one server. */
final class Screens implements AutoCloseable {
  private static final double PATIENCE_MS = 20_000;
  private static final Path PICTURES = Path.of("target", "round-in-browser");

  private final String server;
  private final Playwright playwright = Playwright.create();
  private final Browser browser = Chromium.open(playwright);
  private final List<Screen> open = new ArrayList<>();

  Screens(String server) {
    this.server = server;
  }

  Screen desk(String who) {
    return sitDown(who, new Browser.NewContextOptions().setViewportSize(1440, 900));
  }

  Screen phone(String who) {
    return sitDown(
        who,
        new Browser.NewContextOptions()
            .setViewportSize(390, 844)
            .setDeviceScaleFactor(2)
            .setIsMobile(true)
            .setHasTouch(true));
  }

  /** A phone that is signed in already and reaches the server by another address. */
  Screen phoneBehind(String who, String address, String cookie) {
    BrowserContext context =
        browser.newContext(
            new Browser.NewContextOptions()
                .setViewportSize(390, 844)
                .setIsMobile(true)
                .setHasTouch(true)
                .setBaseURL(address));
    context.addCookies(
        List.of(new Cookie("mixaccord_session", cookie).setUrl(address).setHttpOnly(true)));
    return sitDown(who, context);
  }

  /** A desk that is signed in already. */
  Screen deskBehind(String who, String cookie) {
    Screen desk = desk(who);
    desk.page
        .context()
        .addCookies(
            List.of(new Cookie("mixaccord_session", cookie).setUrl(server).setHttpOnly(true)));
    return desk;
  }

  private Screen sitDown(String who, Browser.NewContextOptions options) {
    BrowserContext context = browser.newContext(options.setBaseURL(server));
    // A busy machine is not a slow line.
    context.addInitScript("try { localStorage['mixaccord.copy'] ??= 'full' } catch { }");
    return sitDown(who, context);
  }

  private Screen sitDown(String who, BrowserContext context) {
    Screen screen = new Screen(who, context);
    open.add(screen);
    return screen;
  }

  /** What any page has complained of so far. */
  List<String> complaints() {
    return open.stream().flatMap(s -> s.complaints.stream()).toList();
  }

  /** Keeps what everybody sees, for whoever looks into a failure. */
  void pictures(String moment) {
    open.forEach(s -> s.picture(moment));
  }

  @Override
  public void close() {
    browser.close();
    playwright.close();
  }

  /** One person's browser. */
  static final class Screen {
    Page page;
    private final String who;
    private final List<String> complaints = new ArrayList<>();

    private Screen(String who, BrowserContext context) {
      this.who = who;
      context.setDefaultTimeout(PATIENCE_MS);
      page = watched(context.newPage());
    }

    /** Closes the page, and opens another one in the same browser. */
    void reopen() {
      BrowserContext context = page.context();
      page.close();
      page = watched(context.newPage());
    }

    private Page watched(Page page) {
      page.onConsoleMessage(
          m -> {
            if (m.type().equals("error")) {
              complaints.add(who + ": " + m.text() + " " + m.location());
            }
          });
      page.onPageError(e -> complaints.add(who + ": " + e));
      return page;
    }

    Locator button(String name) {
      return page.getByRole(
          AriaRole.BUTTON, new Page.GetByRoleOptions().setName(name).setExact(true));
    }

    Locator link(String name) {
      return page.getByRole(
          AriaRole.LINK, new Page.GetByRoleOptions().setName(name).setExact(true));
    }

    Locator see(String css, String words) {
      return page.locator(css, new Page.LocatorOptions().setHasText(words)).first();
    }

    /** What the player of the song page says of itself. */
    Probe probe() {
      return new Probe(
          map(page.evaluate("() => document.querySelector('page-song').player.probe()")));
    }

    /** Waits until something holds of the player, its probe and its state. */
    void until(String condition) {
      page.waitForFunction(
          "() => { const player = document.querySelector('page-song')?.player;"
              + " if (!player) return false;"
              + " const probe = player.probe(), state = player.state; return "
              + condition
              + "; }");
    }

    /** The page must never be wider than the screen. */
    int overhang() {
      return ((Number)
              page.evaluate(
                  "() => document.documentElement.scrollWidth -"
                      + " document.documentElement.clientWidth"))
          .intValue();
    }

    String cookie() {
      return page.context().cookies().stream()
          .filter(c -> c.name.equals("mixaccord_session"))
          .findFirst()
          .orElseThrow()
          .value;
    }

    void picture(String moment) {
      // A phone is shown as it is held: its bar stands over whatever is scrolled to.
      boolean whole = page.viewportSize().width > 1000;
      if (whole) {
        page.evaluate("() => window.scrollTo(0, 0)");
      }
      page.screenshot(
          new Page.ScreenshotOptions()
              .setFullPage(whole)
              .setPath(PICTURES.resolve(moment + "-" + who + ".png")));
    }
  }

  /** The player's own account of an instant. */
  record Probe(Map<String, Object> said) {
    double number(String name) {
      return ((Number) said.get(name)).doubleValue();
    }

    /** Own frame of a mix, where it has one. */
    long frameOf(String mix) {
      return ((Number) map(said.get("positionFrame")).get(mix)).longValue();
    }

    /** The last crossing from one mix to another. */
    Probe lastSwitch() {
      return new Probe(map(said.get("lastSwitch")));
    }

    List<?> list(String name) {
      return (List<?>) said.get(name);
    }

    String words(String name) {
      return (String) said.get(name);
    }
  }

  @SuppressWarnings("unchecked")
  static Map<String, Object> map(Object value) {
    return (Map<String, Object>) value;
  }
}

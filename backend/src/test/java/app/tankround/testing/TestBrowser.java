package app.tankround.testing;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Clock;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/**
 * Chromium, driven by Playwright. The one that the system has is used, since none is downloaded. A person without any
 * sees the browser tests skipped, with what to install; where {@code CI} is set they fail instead.
 */
public final class TestBrowser implements AutoCloseable {

    private static final List<String> FLAGS = List.of(
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--disable-dev-shm-usage");

    private static final double PATIENCE_MS = 20_000;

    private final Playwright playwright;
    private final Browser browser;

    private TestBrowser(Playwright playwright, Browser browser) {
        this.playwright = playwright;
        this.browser = browser;
    }

    public static TestBrowser open() {
        return openWith(List.of());
    }

    /** A browser that takes the certificate with this key whoever certified it, and no other (SHA-256 of the key, Base64). */
    public static TestBrowser openTrusting(String key) {
        return openWith(List.of("--ignore-certificate-errors-spki-list=" + key));
    }

    private static TestBrowser openWith(List<String> more) {
        // A machine that does other things beside needs longer; nothing waits once what is awaited is there.
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MS);
        Path executable = executable();
        Playwright playwright = Playwright.create(
                new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
        Browser browser = playwright
                .chromium()
                .launch(new BrowserType.LaunchOptions()
                        .setExecutablePath(executable)
                        .setArgs(Stream.concat(FLAGS.stream(), more.stream()).toList()));
        return new TestBrowser(playwright, browser);
    }

    public Browser browser() {
        return browser;
    }

    /**
     * A person in Ireland at a window of that size, where it is the hour at which tests begin. Pages come from the server
     * each time, so that a test can stand between them.
     */
    public BrowserContext person(int port, int width, int height) {
        return person("http://localhost:" + port, width, height);
    }

    /** The same at another address of the program. */
    public BrowserContext person(String address, int width, int height) {
        return person(address, width, height, ServiceWorkerPolicy.BLOCK);
    }

    /** Somebody whose tablet keeps the program's pages. */
    public BrowserContext keepingPages(String address, int width, int height) {
        return person(address, width, height, ServiceWorkerPolicy.ALLOW);
    }

    private BrowserContext person(String address, int width, int height, ServiceWorkerPolicy workers) {
        BrowserContext context = browser.newContext(new Browser.NewContextOptions()
                .setViewportSize(width, height)
                .setLocale("en-IE")
                .setTimezoneId("Europe/Dublin")
                .setServiceWorkers(workers)
                .setBaseURL(address));
        context.setDefaultTimeout(20_000);
        context.clock().install(new Clock.InstallOptions().setTime(TestClock.START.toString()));
        return context;
    }

    /** A tablet whose store outlives the browser, even one that {@link #kill} ended; at the hour at which tests begin. */
    public BrowserContext tablet(Path store, String address) {
        BrowserContext context = playwright
                .chromium()
                .launchPersistentContext(
                        store,
                        new BrowserType.LaunchPersistentContextOptions()
                                .setExecutablePath(executable())
                                .setArgs(FLAGS)
                                .setViewportSize(820, 1180)
                                .setLocale("en-IE")
                                .setTimezoneId("Europe/Dublin")
                                .setBaseURL(address));
        context.setDefaultTimeout(20_000);
        context.clock().install(new Clock.InstallOptions().setTime(TestClock.START.toString()));
        return context;
    }

    /** Ends the browser that has this store as an empty battery would: at once, with nothing put in order. */
    public static void kill(Path store) {
        List<ProcessHandle> running = ProcessHandle.allProcesses()
                .filter(process -> process.info()
                        .commandLine()
                        .filter(line -> line.contains(store.toString()))
                        .isPresent())
                .toList();
        if (running.isEmpty()) {
            throw new IllegalStateException("no browser runs with " + store);
        }
        running.forEach(ProcessHandle::destroyForcibly);
        running.forEach(process -> process.onExit().join());
    }

    private static Path executable() {
        String named = System.getenv("CHROMIUM");
        Path found = Stream.of(
                        named == null ? "" : named,
                        // The same without a window, which it need not draw: a quarter faster.
                        "/usr/bin/chromium-headless-shell",
                        "/usr/bin/chromium",
                        "/usr/bin/chromium-browser",
                        "/usr/bin/google-chrome",
                        "/Applications/Chromium.app/Contents/MacOS/Chromium")
                .filter(path -> !path.isEmpty())
                .map(Path::of)
                .filter(Files::isExecutable)
                .findFirst()
                .orElse(null);
        if (found == null) {
            String missing =
                    "no Chromium found: install it (Debian: apt install chromium-headless-shell) or name it in CHROMIUM";
            if (System.getenv("CI") != null) {
                throw new IllegalStateException(missing);
            }
            Assumptions.abort(missing);
        }
        return found;
    }

    @Override
    public void close() {
        browser.close();
        playwright.close();
    }
}

package app.tankround.tablet;

import app.tankround.testing.TestBrowser;
import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.net.URI;
import java.util.Arrays;
import java.util.List;

/**
 * How long a tablet takes, without a signal, from opening a visit until somebody can act on it, and how long the server
 * takes to make a day: a main for a running program, such as the demo, whose argument is a sign-in link of a technician
 * who has a round today. Prints milliseconds: least, median, most.
 */
public final class KeptPageBench {

    private static final int TIMES = 20;

    private KeptPageBench() {}

    public static void main(String[] args) {
        URI link = URI.create(args[0]);
        try (TestBrowser browser = TestBrowser.open();
                BrowserContext tablet = browser.browser()
                        .newContext(new Browser.NewContextOptions()
                                .setViewportSize(820, 1180)
                                .setBaseURL(link.resolve("/").toString()))) {
            Page page = tablet.newPage();
            page.navigate(link.toString());
            page.navigate("/day");
            String visit = page.locator(".day-stops a").first().getAttribute("href");
            page.evaluate("() => navigator.serviceWorker.ready.then(() => true)");
            page.waitForFunction("() => navigator.serviceWorker.controller !== null");
            tell("the server makes a day", page.evaluate("""
                    async (times) => {
                      const took = [];
                      for (let time = 0; time < times; time++) {
                        const begun = performance.now();
                        await (await fetch(`/api/bundles/${new Date().toLocaleDateString("sv")}`)).text();
                        took.push(performance.now() - begun);
                      }
                      return took;
                    }
                    """, TIMES));
            tablet.setOffline(true);
            double[] opened = new double[TIMES];
            for (int time = 0; time < TIMES; time++) {
                page.navigate(visit);
                opened[time] = ((Number) page.evaluate("""
                        () => new Promise((resolve) => {
                          const look = () => document.querySelector("#visit button, #visit input")
                            ? resolve(performance.now()) : requestAnimationFrame(look);
                          look();
                        })
                        """)).doubleValue();
            }
            tell(
                    "a visit is open without a signal",
                    Arrays.stream(opened).boxed().toList());
        }
    }

    private static void tell(String what, Object took) {
        double[] sorted = ((List<?>) took)
                .stream()
                        .mapToDouble(each -> ((Number) each).doubleValue())
                        .sorted()
                        .toArray();
        System.out.printf("%s: %.0f, %.0f, %.0f%n", what, sorted[0], sorted[TIMES / 2], sorted[TIMES - 1]);
    }
}

package app.tankround.socks.web;

import app.tankround.socks.SockForecast;
import app.tankround.socks.SockOutlook;
import app.tankround.socks.SockPool;
import app.tankround.socks.SockPools;
import app.tankround.socks.SockWashingSettings;
import app.tankround.web.FormReader;
import app.tankround.web.NotFound;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.DayOfWeek;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** How long the clean socks last, and how they are washed. */
@Controller
class SockController {

    /** The ways out of more sizes are on their own pages. */
    private static final int MOST_TOLD = 6;

    private static final String WASHING = "socks/washing";

    private final SockOutlook outlook;
    private final SockWashingSettings settings;
    private final SockPools pools;
    private final SockWords words;

    /**
     * Where the socks of one item are.
     *
     * @param page the code of the size that they are forecast with: of several the one that can take no other
     */
    record Places(String name, String page, SockPool pool, List<SockWords.At> places, List<SockWords.Age> ages) {}

    SockController(SockOutlook outlook, SockWashingSettings settings, SockPools pools, SockWords words) {
        this.outlook = outlook;
        this.settings = settings;
        this.pools = pools;
        this.words = words;
    }

    @GetMapping("/socks")
    String sizes(Model model, Locale locale) {
        List<SockForecast> forecasts = outlook.fourWeeks();
        int missing = missing(forecasts);
        List<SockWords.Size> sizes = forecasts.stream()
                .map(size -> words.size(size, missing - size.missing(), locale))
                .toList();
        model.addAttribute("sizes", sizes);
        model.addAttribute(
                "told",
                sizes.stream()
                        .filter(size -> size.shortOn().isPresent())
                        .limit(MOST_TOLD)
                        .toList());
        model.addAttribute("pools", places(forecasts, locale));
        model.addAttribute("mostWashes", settings.current().mostWashes());
        return "socks/outlook";
    }

    @GetMapping("/socks/{code}")
    String size(@PathVariable String code, Model model, Locale locale) {
        List<SockForecast> forecasts = outlook.fourWeeks();
        SockForecast forecast = forecasts.stream()
                .filter(each -> each.size().code().equals(code))
                .findFirst()
                .orElseThrow(() -> new NotFound("sock-size", code));
        model.addAttribute("size", words.size(forecast, missing(forecasts) - forecast.missing(), locale));
        model.addAttribute("dates", words.dates(forecast, locale));
        model.addAttribute(
                "pools",
                places(forecasts, locale).stream()
                        .filter(each -> each.pool().item().serves(forecast.size()))
                        .toList());
        model.addAttribute("mostWashes", settings.current().mostWashes());
        return "socks/size";
    }

    private List<Places> places(List<SockForecast> forecasts, Locale locale) {
        int most = settings.current().mostWashes();
        return pools.all().stream()
                .map(pool -> new Places(
                        pool.item().title(),
                        page(pool, forecasts),
                        pool,
                        words.at(pool, locale),
                        words.ages(pool, most, locale)))
                .toList();
    }

    private static String page(SockPool pool, List<SockForecast> forecasts) {
        return forecasts.stream()
                .map(SockForecast::size)
                .filter(pool.item()::serves)
                .min(Comparator.naturalOrder())
                .orElseThrow()
                .code();
    }

    private static int missing(List<SockForecast> forecasts) {
        return forecasts.stream().mapToInt(SockForecast::missing).sum();
    }

    @GetMapping("/socks/washing/edit")
    String washing(Model model) {
        model.addAttribute("form", WashingForm.of(settings.current()));
        model.addAttribute("weekdays", DayOfWeek.values());
        return WASHING;
    }

    @PostMapping("/socks/washing/edit")
    String change(
            @ModelAttribute("form") WashingForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        model.addAttribute("weekdays", DayOfWeek.values());
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        form.toCommand(new FormReader(result, locale)),
                        settings::change,
                        () -> WashingForm.of(settings.current()))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/socks";
        }
        return WASHING;
    }
}

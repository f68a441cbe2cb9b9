package app.tankround.loads.web;

import app.tankround.loads.LoadPages;
import app.tankround.loads.LoadSheet;
import app.tankround.loads.LoadSheets;
import app.tankround.loads.LoadTicks;
import app.tankround.purification.DrawnWater;
import app.tankround.rounds.RoundChecks;
import app.tankround.rounds.RoundId;
import app.tankround.web.FieldRefusal;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.Objects;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What goes into the van, and the ticks while it is loaded. */
@Controller
class LoadController {

    private static final Pattern AMOUNT = Pattern.compile("\\d{1,9}(\\.\\d{1,6})?");
    private static final Pattern VERSION = Pattern.compile("\\d{1,9}");

    private final LoadSheets sheets;
    private final LoadPages pages;
    private final LoadTicks ticks;
    private final RoundChecks checks;
    private final DrawnWater drawnWater;

    LoadController(LoadSheets sheets, LoadPages pages, LoadTicks ticks, RoundChecks checks, DrawnWater drawnWater) {
        this.sheets = sheets;
        this.pages = pages;
        this.ticks = ticks;
        this.checks = checks;
        this.drawnWater = drawnWater;
    }

    @GetMapping("/rounds/{id}/load")
    String sheet(@PathVariable RoundId id, Model model, Locale locale) {
        model.addAttribute("changed", false);
        show(id, model, locale);
        return "loads/sheet";
    }

    /** Without the box, the tick is taken back. */
    @PostMapping("/rounds/{id}/load/ticks")
    String tick(
            @PathVariable RoundId id,
            @RequestParam(required = false) @Nullable String line,
            @RequestParam(required = false) @Nullable String amount,
            @RequestParam(required = false) @Nullable String version,
            @RequestParam(defaultValue = "false") boolean ticked,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        if (line == null) {
            throw new FieldRefusal("line", "loads.tick-malformed");
        }
        if (!matches(AMOUNT, amount)) {
            throw new FieldRefusal("amount", "loads.tick-malformed");
        }
        if (!matches(VERSION, version)) {
            throw new FieldRefusal("version", "loads.tick-malformed");
        }
        return switch (ticks.tick(
                id,
                Integer.parseInt(Objects.requireNonNull(version)),
                line,
                new BigDecimal(Objects.requireNonNull(amount)),
                ticked)) {
            case KEPT -> {
                redirect.addFlashAttribute("flash", ticked ? "loads.ticked" : "loads.unticked");
                yield "redirect:/rounds/" + id + "/load";
            }
            case SHEET_CHANGED -> {
                response.setStatus(HttpStatus.CONFLICT.value());
                model.addAttribute("changed", true);
                show(id, model, locale);
                yield "loads/sheet";
            }
            case UNKNOWN_LINE -> throw new FieldRefusal("line", "loads.line-unknown", line);
        };
    }

    private static boolean matches(Pattern pattern, @Nullable String text) {
        return text != null && pattern.matcher(text).matches();
    }

    private void show(RoundId id, Model model, Locale locale) {
        LoadSheet load = sheets.loadSheet(id);
        model.addAttribute("sheet", pages.of(load, locale));
        model.addAttribute("day", load.round().date());
        model.addAttribute("checks", checks.of(load.round()));
        model.addAttribute("drawnWater", drawnWater.at(load.round().van().depotId(), locale));
    }
}

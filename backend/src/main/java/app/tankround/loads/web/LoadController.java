package app.tankround.loads.web;

import app.tankround.loads.LoadClosings;
import app.tankround.loads.LoadPages;
import app.tankround.loads.LoadSheet;
import app.tankround.loads.LoadSheets;
import app.tankround.loads.LoadTicks;
import app.tankround.purification.DrawnWater;
import app.tankround.rounds.RoundChecks;
import app.tankround.rounds.RoundId;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NumberInput;
import app.tankround.web.NumberRefusal;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.SequencedMap;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.util.MultiValueMap;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What goes into the van, and the ticks while it is loaded. */
@Controller
class LoadController {

    private static final Pattern AMOUNT = Pattern.compile("\\d{1,9}(\\.\\d{1,6})?");
    private static final int MISSING_DECIMALS = 6;
    private static final Pattern VERSION = Pattern.compile("\\d{1,9}");

    private final LoadSheets sheets;
    private final LoadPages pages;
    private final LoadTicks ticks;
    private final LoadClosings closings;
    private final RoundChecks checks;
    private final DrawnWater drawnWater;
    private final UnmeasuredBatches unmeasured;
    private final MessageSource messages;

    LoadController(
            LoadSheets sheets,
            LoadPages pages,
            LoadTicks ticks,
            LoadClosings closings,
            RoundChecks checks,
            DrawnWater drawnWater,
            UnmeasuredBatches unmeasured,
            MessageSource messages) {
        this.sheets = sheets;
        this.pages = pages;
        this.ticks = ticks;
        this.closings = closings;
        this.checks = checks;
        this.drawnWater = drawnWater;
        this.unmeasured = unmeasured;
        this.messages = messages;
    }

    @GetMapping("/rounds/{id}/load")
    String sheet(@PathVariable RoundId id, Model model, Locale locale) {
        model.addAttribute("changed", false);
        show(id, model, locale);
        return "loads/sheet";
    }

    /** Without the box, the tick is taken back; a row of several lines names each with its amount. */
    @PostMapping("/rounds/{id}/load/ticks")
    String tick(
            @PathVariable RoundId id,
            @RequestParam MultiValueMap<String, String> sent,
            @RequestParam(required = false) @Nullable String version,
            @RequestParam(defaultValue = "false") boolean ticked,
            @RequestParam(required = false) @Nullable String missing,
            @RequestParam(defaultValue = "1") String factor,
            @RequestParam(required = false) @Nullable String instead,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        SequencedMap<String, BigDecimal> lines = lines(sent);
        if (!matches(VERSION, version)) {
            throw new FieldRefusal("version", "loads.tick-malformed");
        }
        LoadTicks.Outcome outcome;
        try {
            outcome = ticks.tick(
                    id,
                    Integer.parseInt(Objects.requireNonNull(version)),
                    lines,
                    ticked,
                    missing(missing, factor, locale),
                    Objects.requireNonNullElse(instead, ""));
        } catch (FieldRefusal refusal) {
            return refused(refusal, id, model, locale, response);
        }
        return switch (outcome) {
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
            case UNKNOWN_LINE ->
                throw new FieldRefusal("line", "loads.line-unknown", String.join(", ", lines.keySet()));
        };
    }

    /** Each line with its amount, as they were sent. */
    private static SequencedMap<String, BigDecimal> lines(MultiValueMap<String, String> sent) {
        List<String> keys = sent.getOrDefault("line", List.of());
        List<String> amounts = sent.getOrDefault("amount", List.of());
        if (keys.isEmpty()) {
            throw new FieldRefusal("line", "loads.tick-malformed");
        }
        if (amounts.size() != keys.size() || !amounts.stream().allMatch(amount -> matches(AMOUNT, amount))) {
            throw new FieldRefusal("amount", "loads.tick-malformed");
        }
        SequencedMap<String, BigDecimal> lines = new LinkedHashMap<>();
        for (int k = 0; k < keys.size(); k++) {
            lines.put(keys.get(k), new BigDecimal(amounts.get(k)));
        }
        return lines;
    }

    private String refused(FieldRefusal refusal, RoundId id, Model model, Locale locale, HttpServletResponse response) {
        response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
        model.addAttribute("changed", false);
        model.addAttribute(
                "refusal", messages.getMessage(refusal.code(), refusal.args().toArray(), locale));
        show(id, model, locale);
        return "loads/sheet";
    }

    /** Nothing typed is nothing said of what is missing. */
    private static Optional<BigDecimal> missing(@Nullable String typed, String factor, Locale locale) {
        if (typed == null || typed.isBlank()) {
            return Optional.empty();
        }
        if (!matches(AMOUNT, factor)) {
            throw new FieldRefusal("missing", "loads.tick-malformed");
        }
        try {
            return Optional.of(NumberInput.parse(typed, locale)
                    .multiply(new BigDecimal(factor))
                    .setScale(MISSING_DECIMALS, RoundingMode.HALF_EVEN));
        } catch (NumberRefusal refusal) {
            throw new FieldRefusal("missing", "web." + refusal.code(), refusal.typed());
        }
    }

    /** States who loaded what; what is left without a reason though something could die of it keeps the sheet open. */
    @PostMapping("/rounds/{id}/load/close")
    String close(
            @PathVariable RoundId id,
            @RequestParam int version,
            @RequestParam MultiValueMap<String, String> sent,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        Map<String, String> reasons = new HashMap<>();
        List<String> lines = sent.getOrDefault("line", List.of());
        List<String> said = sent.getOrDefault("reason", List.of());
        for (int k = 0; k < Math.min(lines.size(), said.size()); k++) {
            reasons.put(lines.get(k), said.get(k));
        }
        try {
            closings.close(id, version, reasons);
        } catch (FieldRefusal refusal) {
            model.addAttribute("reasons", reasons);
            return refused(refusal, id, model, locale, response);
        }
        redirect.addFlashAttribute("flash", "loads.close.done");
        return "redirect:/rounds/" + id + "/load";
    }

    private static boolean matches(Pattern pattern, @Nullable String text) {
        return text != null && pattern.matcher(text).matches();
    }

    private void show(RoundId id, Model model, Locale locale) {
        LoadSheet load = sheets.loadSheet(id);
        model.addAttribute("sheet", pages.of(load, locale));
        model.addAttribute("day", load.round().date());
        model.addAttribute("checks", checks.of(load.round()));
        model.addAttribute("unmeasured", unmeasured.openAt(load.round().van().depotId()));
        model.addAttribute("drawnWater", drawnWater.at(load.round().van().depotId(), locale));
    }
}

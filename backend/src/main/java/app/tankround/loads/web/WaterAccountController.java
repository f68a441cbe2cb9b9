package app.tankround.loads.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.DepotView;
import app.tankround.accounts.Fleet;
import app.tankround.loads.WaterAccount;
import app.tankround.loads.WaterAccounts;
import app.tankround.persistence.Uuids;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.VolumeText;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Where the water of a depot went on a day, or in the seven days up to it. */
@Controller
@RequestMapping("/water-plan/account")
class WaterAccountController {

    private static final int WEEK = 7;

    /** A figure in words; a detail is a part of the figure before it. */
    record Row(String words, String litres, boolean detail, List<Part> parts) {}

    /** What a figure is made of. */
    record Part(String words, String litres, String page) {}

    /**
     * One kind of water.
     *
     * @param difference empty where everything is accounted for
     * @param causes where the difference comes from
     * @param asked whether somebody has to say why
     * @param said what somebody said; empty where nobody did, or of another difference
     */
    record Kind(
            boolean salted,
            String title,
            List<Row> rows,
            String difference,
            List<Row> causes,
            boolean asked,
            String said) {}

    /** @param salted of which kind of water it is said */
    record SaidForm(
            @Nullable String id,
            @Nullable Boolean salted,
            @Nullable String reason) {}

    private final WaterAccounts accounts;
    private final Fleet fleet;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    WaterAccountController(
            WaterAccounts accounts,
            Fleet fleet,
            BusinessProfile business,
            Days days,
            MessageSource messages,
            Clock clock) {
        this.accounts = accounts;
        this.fleet = fleet;
        this.business = business;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping
    String account(
            @RequestParam(required = false) @Nullable DepotId depot,
            @RequestParam(required = false) @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) @Nullable LocalDate day,
            @RequestParam(defaultValue = "1") int days,
            @ModelAttribute("form") SaidForm form,
            Model model,
            Locale locale) {
        show(depot, day, days, model, locale);
        return "loads/water-account";
    }

    @PostMapping
    String say(
            @RequestParam DepotId depot,
            @RequestParam @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) LocalDate day,
            @RequestParam int days,
            @ModelAttribute("form") SaidForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        try {
            accounts.say(
                    FormReader.madeWith("water-difference", form.id()),
                    depot,
                    first(day, days),
                    day.plusDays(1),
                    Boolean.TRUE.equals(form.salted()),
                    form.reason());
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/water-plan/account?depot=" + depot + "&day=" + day + "&days=" + days;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
        show(depot, day, days, model, locale);
        return "loads/water-account";
    }

    private static LocalDate first(LocalDate last, int days) {
        return last.minusDays(days > 1 ? WEEK - 1 : 0);
    }

    private void show(@Nullable DepotId depot, @Nullable LocalDate day, int days, Model model, Locale locale) {
        List<DepotView> depots = fleet.depots();
        LocalDate last = day == null ? this.days.of(clock.instant()) : day;
        boolean week = days > 1;
        model.addAttribute("depots", depots);
        model.addAttribute("day", last);
        model.addAttribute("week", week);
        model.addAttribute("step", week ? WEEK : 1);
        model.addAttribute("newId", Uuids.next(clock.instant()).toString());
        Optional<DepotId> shown =
                Optional.ofNullable(depot).or(() -> depots.stream().findFirst().map(DepotView::id));
        shown.ifPresent(id -> {
            WaterAccount account = accounts.of(id, first(last, days), last.plusDays(1));
            Words words = new Words(locale);
            model.addAttribute("depotId", id);
            model.addAttribute("depotName", account.depot().name());
            model.addAttribute(
                    "when",
                    week
                            ? messages.getMessage(
                                    "loads.account.week",
                                    new Object[] {Days.day(account.from(), locale), Days.day(last, locale)},
                                    locale)
                            : Days.day(last, locale));
            model.addAttribute(
                    "kinds", account.kinds().stream().map(words::kind).toList());
            model.addAttribute("unclosed", account.unclosed());
        });
    }

    /** An account in words. */
    private final class Words {

        private final Locale locale;
        private final VolumeText volumes;

        Words(Locale locale) {
            this.locale = locale;
            volumes = new VolumeText(locale, business.current().unitSystem());
        }

        private static final List<WaterAccount.Figure> BEFORE = List.of(
                WaterAccount.Figure.VATS_BEFORE,
                WaterAccount.Figure.DRUMS_BEFORE,
                WaterAccount.Figure.KEPT_BEFORE,
                WaterAccount.Figure.OUT_BEFORE);

        private static final List<WaterAccount.Figure> BETWEEN = List.of(
                WaterAccount.Figure.MADE,
                WaterAccount.Figure.TAKEN,
                WaterAccount.Figure.MIXED,
                WaterAccount.Figure.FILLED,
                WaterAccount.Figure.LOADED,
                WaterAccount.Figure.USED,
                WaterAccount.Figure.BACK,
                WaterAccount.Figure.AWAY);

        private static final List<WaterAccount.Figure> AFTER = List.of(
                WaterAccount.Figure.VATS_AFTER,
                WaterAccount.Figure.DRUMS_AFTER,
                WaterAccount.Figure.KEPT_AFTER,
                WaterAccount.Figure.OUT_AFTER);

        private static final List<WaterAccount.Figure> CAUSES =
                List.of(WaterAccount.Figure.UNSEEN, WaterAccount.Figure.UNFILLED, WaterAccount.Figure.UNTOLD);

        Kind kind(WaterAccount.OfKind kind) {
            List<Row> rows = new ArrayList<>();
            rows.add(sum("loads.account.before", kind, BEFORE));
            rows.addAll(rows(kind, BEFORE));
            rows.addAll(rows(kind, BETWEEN));
            rows.add(sum("loads.account.after", kind, AFTER));
            rows.addAll(rows(kind, AFTER));
            double difference = kind.difference();
            boolean asked = WaterAccounts.asks(kind);
            boolean any = Math.abs(difference) >= SHOWN_L;
            return new Kind(
                    kind.salted(),
                    word(kind.salted() ? "loads.mix.volume" : "loads.plant.purified"),
                    rows,
                    any
                            ? word(
                                    difference > 0 ? "loads.account.missing" : "loads.account.more",
                                    litres(Math.abs(difference)))
                            : "",
                    rows(kind, CAUSES),
                    asked,
                    asked
                            ? ""
                            : kind.said()
                                    .filter(said -> any)
                                    .map(said -> word("loads.account.said", said.person(), said.reason()))
                                    .orElse(""));
        }

        /** Less than that is not shown. */
        private static final double SHOWN_L = 0.05;

        private Row sum(String code, WaterAccount.OfKind kind, List<WaterAccount.Figure> figures) {
            return new Row(
                    word(code), litres(figures.stream().mapToDouble(kind::of).sum()), false, List.of());
        }

        private List<Row> rows(WaterAccount.OfKind kind, List<WaterAccount.Figure> figures) {
            return figures.stream()
                    .flatMap(figure -> kind.lines().stream()
                            .filter(line -> line.figure() == figure)
                            .map(line -> new Row(
                                    word("loads.account." + figure),
                                    litres(line.litres()),
                                    BEFORE.contains(figure) || AFTER.contains(figure),
                                    line.sources().stream()
                                            .map(source -> new Part(
                                                    words(figure, source), litres(source.litres()), source.page()))
                                            .toList())))
                    .toList();
        }

        /** Where a source is known by its day alone, that is said in the reader's words. */
        private String words(WaterAccount.Figure figure, WaterAccount.Source source) {
            return switch (figure) {
                case KEPT_BEFORE, KEPT_AFTER -> word("loads.account.kept", days.day(source.at(), locale));
                case DRUMS_BEFORE, DRUMS_AFTER -> word("loads.account.drums");
                case UNFILLED -> days.day(source.at(), locale);
                case VATS_BEFORE, VATS_AFTER -> source.words();
                default -> source.words() + ", " + days.moment(source.at(), locale);
            };
        }

        private String litres(double litres) {
            return volumes.of(Volume.ofLitres(litres));
        }

        private String word(String code, Object... args) {
            return messages.getMessage(code, args, locale);
        }
    }
}

package app.tankround.instruments.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Temperatures;
import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.Graduation;
import app.tankround.chemistry.TemperatureCompensation;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.CalibrationView;
import app.tankround.instruments.InstrumentChoices;
import app.tankround.instruments.InstrumentEvidence;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentPanel;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentStandings;
import app.tankround.instruments.InstrumentState;
import app.tankround.instruments.InstrumentSteps;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.MadeUpStandards;
import app.tankround.instruments.NewInstrument;
import app.tankround.instruments.RecordedCheck;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import app.tankround.instruments.Standing;
import app.tankround.instruments.SuspicionView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The register of instruments, one instrument with its checks, and the form for a check. */
@Controller
class InstrumentController {

    /** What is kept once somebody says that this is what was seen. */
    private static final Set<String> ASKED_BACK =
            Set.of("instruments.as-found-far-off", "instruments.readings-contradict");

    /** States in which the next thing is a check, so that a standard for it must be to hand. */
    private static final Set<String> CHECKED_NEXT =
            Set.of("SUSPECT", "OVERDUE", "NEVER_CHECKED", "NO_CHECK_COUNTS", "ZERO_CHECKED_ONLY", "REPEAT");

    /** States in which the check is what is to be done now. */
    private static final Set<String> CHECK_DUE =
            Stream.concat(CHECKED_NEXT.stream(), Stream.of("CONDEMNED")).collect(Collectors.toUnmodifiableSet());

    /** States in which nobody uses it any more, whatever happens to it. */
    private static final Set<String> OUT_OF_HAND = Set.of("EXPIRED", "RETIRED");

    /** A line of the list. */
    record Line(
            InstrumentView instrument,
            InstrumentState state,
            String scale,
            String lastCheck,
            String nextDue,
            String holder) {}

    /** A line of the table of checks. */
    record CheckLine(
            String when,
            String standard,
            String lot,
            String expected,
            String expectedAt,
            String asFound,
            String foundRepeats,
            String asLeft,
            String leftRepeats,
            String adjusted,
            String error,
            String outcome,
            String note,
            String person) {}

    /** A line of the times that it was not trusted. */
    record SuspicionLine(String since, String because, String note, String by, String ended) {}

    /** A section of another module. */
    record Panel(String fragment, Map<String, Object> model) {

        public String template() {
            return fragment.substring(0, fragment.indexOf("::")).strip();
        }

        public String name() {
            return fragment.substring(fragment.indexOf("::") + 2).strip();
        }
    }

    private final InstrumentRegister register;
    private final StandardRegister standards;
    private final CalibrationService calibrations;
    private final MadeUpStandards made;
    private final InstrumentStandings standings;
    private final InstrumentChoices choices;
    private final InstrumentAccount account;
    private final Temperatures temperatures;
    private final People people;
    private final CurrentPerson currentPerson;
    private final ObjectProvider<InstrumentPanel> panels;
    private final ObjectProvider<InstrumentSteps> otherSteps;
    private final ObjectProvider<InstrumentEvidence> evidence;
    private final MessageSource messages;
    private final Days days;
    private final Clock clock;

    InstrumentController(
            InstrumentRegister register,
            StandardRegister standards,
            CalibrationService calibrations,
            MadeUpStandards made,
            InstrumentStandings standings,
            InstrumentChoices choices,
            InstrumentAccount account,
            Temperatures temperatures,
            People people,
            CurrentPerson currentPerson,
            ObjectProvider<InstrumentPanel> panels,
            ObjectProvider<InstrumentSteps> otherSteps,
            ObjectProvider<InstrumentEvidence> evidence,
            MessageSource messages,
            Days days,
            Clock clock) {
        this.register = register;
        this.standards = standards;
        this.calibrations = calibrations;
        this.made = made;
        this.standings = standings;
        this.choices = choices;
        this.account = account;
        this.temperatures = temperatures;
        this.people = people;
        this.currentPerson = currentPerson;
        this.panels = panels;
        this.otherSteps = otherSteps;
        this.evidence = evidence;
        this.messages = messages;
        this.days = days;
        this.clock = clock;
    }

    @GetMapping("/instruments")
    String list(Model model, Locale locale) {
        Instant now = clock.instant();
        List<StandardView> registered = standards.all();
        model.addAttribute(
                "lines",
                calibrations.histories().values().stream()
                        .map(history -> line(history, registered, now, locale))
                        .sorted(Comparator.comparing(
                                        (Line line) -> !line.state().isNeeded())
                                .thenComparing(line -> line.state().code().equals("RETIRED"))
                                .thenComparing(line -> line.instrument().code()))
                        .toList());
        return "instruments/instruments";
    }

    private Line line(CalibrationHistory history, List<StandardView> registered, Instant now, Locale locale) {
        InstrumentState state = InstrumentState.of(history, now, days.of(now));
        InstrumentView instrument = history.instrument();
        return new Line(
                instrument,
                state,
                scale(instrument),
                lastCheck(history, state, locale),
                state.nextDue()
                        .map(at -> days.day(at, locale))
                        .or(() -> instrument
                                .expiresOn()
                                .filter(day -> state.code().equals("KIT"))
                                .map(day -> text("instruments.last-day.on", locale, Days.day(day, locale))))
                        .orElse(
                                state.code().equals("EXPIRED")
                                                || !(state.isNeeded()
                                                        || state.code().equals("REPEAT"))
                                        ? ""
                                        : text(dueNow(history, state, registered), locale)),
                instrument.holder().flatMap(people::find).map(PersonView::name).orElse(""));
    }

    /** A check that no standard on the list can make is not due before there is one. */
    private String dueNow(CalibrationHistory history, InstrumentState state, List<StandardView> registered) {
        return account.chosen(history, registered)
                .shortage()
                .filter(shortage -> CHECKED_NEXT.contains(state.code()))
                .map(shortage -> "instruments.due-after." + shortage)
                .orElse("instruments.due-now");
    }

    private String lastCheck(CalibrationHistory history, InstrumentState state, Locale locale) {
        if (state.lastCheck().isEmpty()) {
            return text(state.code().equals("KIT") ? "instruments.needs-none" : "instruments.never", locale);
        }
        String day = days.day(state.lastCheck().get(), locale);
        boolean passed = CalibrationCheck.passes(
                history.checks().getLast().worst().errorAsFound(),
                history.facts().permittedError());
        return passed ? day : text("instruments.last-check.failed", locale, day);
    }

    @GetMapping("/instruments/{id}")
    String instrument(@PathVariable InstrumentId id, Model model, Locale locale) {
        CalibrationHistory history = calibrations.history(id);
        InstrumentView instrument = history.instrument();
        List<StandardView> registered = standards.all();
        Line line = line(history, registered, clock.instant(), locale);
        model.addAttribute("line", line);
        model.addAttribute("instrument", instrument);
        boolean mayComeBack = standings.mayComeBack(id);
        boolean office = Boolean.TRUE.equals(model.getAttribute("office"));
        List<CalibrationView> rows = calibrations.of(id);
        model.addAttribute("say", account.say(history, line.state(), rows, registered, mayComeBack, locale));
        model.addAttribute("steps", steps(history, line.state(), rows, registered, mayComeBack, office, locale));
        model.addAttribute(
                "checkPage",
                InstrumentAccount.checkPage(instrument, account.chosen(history, registered).standards().stream()));
        boolean shortage = account.chosen(history, registered).shortage().isPresent();
        model.addAttribute(
                "shortage", shortage && CHECKED_NEXT.contains(line.state().code()));
        boolean unsettled = shortage && line.state().code().equals("SUSPECT");
        model.addAttribute(
                "checkable", !unsettled && registered.stream().anyMatch(standard -> fits(standard, instrument)));
        model.addAttribute("settles", account.settles(history, rows, locale));
        model.addAttribute("checkDue", CHECK_DUE.contains(line.state().code()));
        model.addAttribute(
                "getWhere",
                shortage
                        ? text(
                                instrument.quantity() == Quantity.SALINITY
                                        ? "instruments.get.where.made-up"
                                        : "instruments.get.where",
                                locale)
                        : "");
        model.addAttribute(
                "showsLeft",
                instrument.kind().isAdjustable()
                        || rows.stream().anyMatch(row -> !row.asLeft().isEmpty()));
        List<String> why = new ArrayList<>(account.why(history, line.state(), locale));
        why.addAll(account.misled(
                instrument,
                rows,
                registered.stream().collect(Collectors.toMap(StandardView::id, Function.identity())),
                locale));
        model.addAttribute("why", why);
        List<InstrumentEvidence.Said> shaky = new ArrayList<>(account.shaky(history, rows, locale));
        evidence.stream().flatMap(known -> known.of(instrument).stream()).forEach(shaky::add);
        model.addAttribute("shaky", shaky);
        model.addAttribute("budget", account.budget(history, line.state(), locale));
        model.addAttribute("electrode", account.electrode(history, locale));
        model.addAttribute("electrodeLimits", account.electrodeLimits(locale));
        model.addAttribute("due", account.due(history, line.state(), registered, mayComeBack, locale));
        model.addAttribute("intervalDays", account.intervalDays(history));
        model.addAttribute("uncheckedKit", InstrumentAccount.isUncheckedKit(history));
        model.addAttribute(
                "lastDay",
                instrument.expiresOn().map(day -> Days.day(day, locale)).orElse(""));
        model.addAttribute(
                "lastGood",
                line.state().lastGood().map(at -> days.day(at, locale)).orElse(text("instruments.never", locale)));
        model.addAttribute(
                "scaleWords",
                Optional.ofNullable(
                                messages.getMessage("instruments.scale.words." + instrument.unit(), null, null, locale))
                        .orElse(""));
        String permitted = ErrorChart.limit(instrument.permittedError());
        model.addAttribute("permitted", permitted);
        model.addAttribute("permittedWithUnit", InstrumentAccount.withUnit(instrument, permitted));
        model.addAttribute(
                "chart",
                ErrorChart.of(history, days, error -> account.offBy(instrument, error, locale), locale)
                        .orElse(null));
        model.addAttribute(
                "checks",
                rows.reversed().stream()
                        .map(row -> checkLine(instrument, row, locale))
                        .toList());
        model.addAttribute("mayComeBack", mayComeBack);
        model.addAttribute(
                "mayBeSuspected",
                history.standingAt(clock.instant()) == Standing.IN_USE
                        && !OUT_OF_HAND.contains(line.state().code()));
        model.addAttribute(
                "suspicions",
                history.suspicions().reversed().stream()
                        .map(suspicion -> suspicionLine(suspicion, locale))
                        .toList());
        model.addAttribute(
                "panels",
                panels.stream()
                        .sorted(Comparator.comparingInt(InstrumentPanel::order))
                        .map(panel -> new Panel(panel.fragment(), panel.model(instrument)))
                        .toList());
        return "instruments/instrument";
    }

    /** What is done now, in this order: another one is taken, what it told is looked after, it is put right. */
    private List<InstrumentSteps.Step> steps(
            CalibrationHistory history,
            InstrumentState state,
            List<CalibrationView> rows,
            List<StandardView> registered,
            boolean mayComeBack,
            boolean office,
            Locale locale) {
        InstrumentView instrument = history.instrument();
        List<InstrumentSteps.Step> own = account.steps(history, state, rows, registered, mayComeBack, office, locale);
        if (own.isEmpty()) {
            return own;
        }
        List<InstrumentSteps.Step> steps = new ArrayList<>();
        if (state.isNeeded()) {
            // What is past its date is thrown away: no check brings it back.
            steps.add(aside(instrument, state.code().equals("EXPIRED") ? ".EXPIRED" : "", locale));
        }
        otherSteps.stream().flatMap(asked -> asked.of(instrument).stream()).forEach(steps::add);
        steps.addAll(own);
        return steps;
    }

    private InstrumentSteps.Step aside(InstrumentView instrument, String variant, Locale locale) {
        return choices.insteadOf(instrument, account.really(instrument))
                .map(instead -> new InstrumentSteps.Step(
                        "instruments.do.instead" + variant,
                        List.of(
                                instrument.code(),
                                instead.instrument().code(),
                                spelled(instead.instrument(), locale),
                                instead.instrument().holder().isPresent() ? 1 : 0,
                                instead.instrument()
                                        .holder()
                                        .flatMap(people::find)
                                        .map(PersonView::name)
                                        .orElse(""),
                                instead.covers() ? "" : account.beyond(instrument, instead, locale)),
                        Optional.of("/instruments/" + instead.instrument().id())))
                .orElseGet(() -> new InstrumentSteps.Step(
                        "instruments.do.no-other" + variant, List.of(instrument.code()), Optional.of("/instruments")));
    }

    private SuspicionLine suspicionLine(SuspicionView suspicion, Locale locale) {
        String ended = suspicion
                .closing()
                .map(closing -> {
                    String check = days.day(closing.checkAt(), locale);
                    return closing.putBack()
                            .map(back -> text(
                                    "instruments.suspicion.put-back",
                                    locale,
                                    check,
                                    days.day(back.at(), locale),
                                    back.reason().orElse(text("instruments.suspicion.put-back.restored", locale))))
                            .orElseGet(() -> text("instruments.suspicion." + closing.outcome(), locale, check));
                })
                .orElse(text("instruments.suspicion.open", locale));
        return new SuspicionLine(
                days.moment(suspicion.since(), locale),
                text("instruments.suspicion.cause." + suspicion.cause(), locale),
                suspicion.note().orElse(""),
                suspicion.openedBy().flatMap(people::find).map(PersonView::name).orElse(""),
                ended);
    }

    private CheckLine checkLine(InstrumentView instrument, CalibrationView row, Locale locale) {
        // One more than can be read: a mean knows no more, whatever it was divided by.
        int decimals = Math.max(0, instrument.resolution().stripTrailingZeros().scale() + 1);
        BigDecimal expected = BigDecimal.valueOf(CalibrationService.expected(instrument, row));
        BigDecimal error = row.meanAsFound().subtract(expected);
        return new CheckLine(
                days.moment(row.performedAt(), locale),
                row.standardCode(),
                row.standardLot().orElse(""),
                NumberText.plain(rounded(expected, decimals), locale),
                account.warm(instrument, row)
                        .map(celsius -> text("instruments.expected.at", locale, temperatures.of(celsius, locale)))
                        .orElse(""),
                NumberText.plain(mean(row.asFound(), row.meanAsFound(), decimals), locale),
                repeats(row.asFound(), locale),
                row.asLeft().isEmpty()
                        ? text("instruments.not-adjusted", locale)
                        : NumberText.plain(mean(row.asLeft(), row.meanAsLeft(), decimals), locale),
                repeats(row.asLeft(), locale),
                row.adjusted().filter(what -> !row.asLeft().isEmpty()).orElse(""),
                account.offBy(instrument, error.doubleValue(), locale),
                outcome(instrument, row, locale),
                row.note().orElse(""),
                row.person().flatMap(people::find).map(PersonView::name).orElse(""));
    }

    /** Empty where it passed. */
    private String outcome(InstrumentView instrument, CalibrationView row, Locale locale) {
        if (CalibrationService.contradicts(instrument, row)) {
            return text("instruments.chart.contradicts", locale);
        }
        return InstrumentAccount.passes(instrument, row, row.asFound()) ? "" : text("instruments.chart.failed", locale);
    }

    /** A single reading stays as it was written down. */
    private static BigDecimal mean(List<BigDecimal> readings, BigDecimal mean, int decimals) {
        return readings.size() == 1 ? readings.getFirst() : rounded(mean, decimals);
    }

    private static BigDecimal rounded(BigDecimal value, int decimals) {
        return value.setScale(decimals, RoundingMode.HALF_EVEN);
    }

    /** Empty for a single reading. */
    private String repeats(List<BigDecimal> readings, Locale locale) {
        return readings.size() < 2
                ? ""
                : text(
                        "instruments.mean-of",
                        locale,
                        readings.stream()
                                .map(reading -> NumberText.plain(reading, locale))
                                .collect(Collectors.joining("; ")));
    }

    @GetMapping("/instruments/new")
    String newInstrument(Model model, Locale locale) {
        choices(model, locale);
        model.addAttribute("form", InstrumentForm.empty());
        return "instruments/instrument-form";
    }

    @PostMapping("/instruments/new")
    String add(
            @ModelAttribute("form") InstrumentForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        choices(model, locale);
        Optional<NewInstrument> read = read(form, result, locale);
        if (new SentForm(result, model, response).saved(form, read, register::add, InstrumentForm::empty)) {
            redirect.addFlashAttribute("flash", "instruments.saved");
            return "redirect:/instruments/"
                    + read.flatMap(stated -> register.findByCode(stated.code()))
                            .orElseThrow()
                            .id();
        }
        return "instruments/instrument-form";
    }

    @GetMapping("/instruments/{id}/edit")
    String edit(@PathVariable InstrumentId id, Model model, Locale locale) {
        InstrumentView stored = register.require(id);
        choices(model, locale);
        model.addAttribute("stored", stored);
        model.addAttribute("form", InstrumentForm.of(stored));
        return "instruments/instrument-form";
    }

    @PostMapping("/instruments/{id}/edit")
    String change(
            @PathVariable InstrumentId id,
            @ModelAttribute("form") InstrumentForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        choices(model, locale);
        model.addAttribute("stored", register.require(id));
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        read(form, result, locale),
                        stated -> register.change(id, form.version(), stated),
                        () -> InstrumentForm.of(register.require(id)))) {
            redirect.addFlashAttribute("flash", "instruments.saved");
            return "redirect:/instruments/" + id;
        }
        return "instruments/instrument-form";
    }

    private static Optional<NewInstrument> read(InstrumentForm form, BindingResult result, Locale locale) {
        return result.hasErrors() ? Optional.empty() : new FormReader(result, locale).read(form::toCommand);
    }

    /** @param standard chosen already, such as those that the round's load names */
    @GetMapping("/instruments/{id}/checks/new")
    String newCheck(
            @PathVariable InstrumentId id,
            @RequestParam(required = false) @Nullable List<StandardId> standard,
            Model model,
            Locale locale) {
        LocalDateTime now =
                LocalDateTime.ofInstant(clock.instant(), days.zone()).truncatedTo(ChronoUnit.MINUTES);
        model.addAttribute(
                "form",
                CheckForm.of(Optional.ofNullable(standard).orElse(List.of()), now.toLocalDate(), now.toLocalTime()));
        checkModel(id, model, locale);
        return "instruments/check-form";
    }

    @PostMapping("/instruments/{id}/checks/new")
    String record(
            @PathVariable InstrumentId id,
            @ModelAttribute("form") CheckForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                RecordedCheck done =
                        calibrations.record(form.toCommand(id, currentPerson.id(), days.zone(), temperatures));
                if (done.alreadyRecorded()) {
                    redirect.addFlashAttribute("flash", "instruments.check.same");
                } else if (done.contradicts()) {
                    redirect.addFlashAttribute("flash", "instruments.check.recorded-contradiction");
                } else if (done.expiredStandards().isEmpty()) {
                    redirect.addFlashAttribute("flash", "instruments.check.recorded");
                } else {
                    redirect.addFlashAttribute("flash", "instruments.check.recorded-expired");
                    redirect.addFlashAttribute("flashArguments", List.of(String.join(", ", done.expiredStandards())));
                }
                return "redirect:/instruments/" + id;
            } catch (FieldRefusal refusal) {
                atForm(temperatures.shown(refusal)).into(result);
                model.addAttribute(
                        "askAgain", ASKED_BACK.contains(refusal.code()) || Boolean.TRUE.equals(form.farOffConfirmed()));
            }
        }
        checkModel(id, model, locale);
        return "instruments/check-form";
    }

    /** The form has day and time where the service has an instant, and a field in each reading. */
    private static FieldRefusal atForm(FieldRefusal refusal) {
        String field = refusal.field().equals("performedAt")
                ? "on"
                : refusal.field().replaceFirst("(as(?:Found|Left)\\[\\d+])$", "$1.value");
        return new FieldRefusal(field, refusal.code(), refusal.args().toArray());
    }

    private void checkModel(InstrumentId id, Model model, Locale locale) {
        CalibrationHistory history = calibrations.history(id);
        InstrumentView instrument = history.instrument();
        List<CalibrationView> rows = calibrations.of(id);
        model.addAttribute("instrument", instrument);
        model.addAttribute("scale", scale(instrument));
        model.addAttribute("failedIn", account.failedIn(history, rows, locale).orElse(""));
        model.addAttribute(
                "contradictsIn", account.contradictsIn(history, rows, locale).orElse(""));
        model.addAttribute("prompts", account.prompts(instrument, locale));
        for (String words : List.of("lead", "first", "second", "both")) {
            model.addAttribute(words, text(account.ofKind("instruments.check." + words, instrument, locale), locale));
        }
        LocalDate today = days.of(clock.instant());
        Set<StandardId> weighedInDoubt = made.doubtedBalances().keySet();
        List<CalibrationView> failed = InstrumentAccount.failedRows(history, rows);
        List<StandardView> registered = standards.all();
        Set<StandardId> settling = account.chosen(history, registered).standards().stream()
                .map(StandardView::id)
                .collect(Collectors.toSet());
        List<StandardView> fitting = registered.stream()
                .filter(standard -> fits(standard, instrument))
                .sorted(Comparator.comparing((StandardView standard) -> !settling.contains(standard.id()))
                        .thenComparing(standard -> failedIn(standard, failed))
                        .thenComparing(StandardView::code))
                .toList();
        model.addAttribute(
                "standards",
                fitting.stream()
                        .map(standard -> standard(instrument, standard, failed, weighedInDoubt, today, locale))
                        .toList());
        model.addAttribute("get", account.toGet(instrument, locale));
        model.addAttribute(
                "passes",
                text(
                        "instruments.check.passes",
                        locale,
                        InstrumentAccount.withUnit(instrument, ErrorChart.limit(instrument.permittedError()))));
        model.addAttribute(
                "helps",
                fitting.stream()
                        .map(StandardView::kind)
                        .distinct()
                        .sorted()
                        .map(kind -> text("instruments.standard.help." + kind, locale))
                        .toList());
        model.addAttribute("degrees", temperatures.unit().symbol());
    }

    private static boolean fits(StandardView standard, InstrumentView instrument) {
        return standard.quantity() == instrument.quantity() && standard.kind().checks(instrument.kind());
    }

    private static boolean failedIn(StandardView standard, List<CalibrationView> failed) {
        return failed.stream()
                .anyMatch(row -> row.standardId().equals(standard.id())
                        && row.standardLot().equals(standard.lot()));
    }

    private Choice standard(
            InstrumentView instrument,
            StandardView standard,
            List<CalibrationView> failed,
            Set<StandardId> weighedInDoubt,
            LocalDate today,
            Locale locale) {
        String name = standard.code() + ", " + standard.name()
                + standard.lot()
                        .map(lot -> ", " + text("instruments.choice.lot", locale, lot))
                        .orElse("")
                + standard.lastDay()
                        .map(day -> ", " + text("instruments.choice.until", locale, Days.day(day, locale)))
                        .orElse("");
        String text = wrongWith(standard, weighedInDoubt, today)
                .map(state ->
                        text("instruments.choice.state", locale, name, text("instruments.standard." + state, locale)))
                .or(() -> Optional.of(text("instruments.choice.failed-in", locale, name, instrument.code()))
                        .filter(said -> failedIn(standard, failed)))
                .or(() -> Optional.of(text("instruments.choice.elsewhere", locale, name, instrument.code()))
                        .filter(said -> standard.isZero()
                                && !failed.isEmpty()
                                && failed.stream()
                                        .noneMatch(row -> row.standardValue().signum() == 0)))
                .orElse(name);
        return new Choice(standard.id().toString(), text);
    }

    /** What speaks against taking a standard: the last part of a message code. */
    static Optional<String> wrongWith(StandardView standard, Set<StandardId> weighedInDoubt, LocalDate today) {
        if (weighedInDoubt.contains(standard.id())) {
            return Optional.of("weighed-in-doubt");
        }
        if (standard.suspiciousOn(today)) {
            return Optional.of("suspicious");
        }
        return standard.expiredOn(today) ? Optional.of("expired") : Optional.empty();
    }

    private void choices(Model model, Locale locale) {
        model.addAttribute("kinds", choices(InstrumentKind.values(), "instruments.kind.", locale));
        model.addAttribute("quantities", choices(Quantity.values(), "quantity.", locale));
        model.addAttribute("graduations", choices(Graduation.values(), "instruments.graduation.", locale));
        model.addAttribute(
                "compensations", choices(TemperatureCompensation.values(), "instruments.compensation.", locale));
        model.addAttribute("units", units());
        model.addAttribute(
                "holders",
                people.all().stream()
                        .filter(PersonView::active)
                        .map(person -> new Choice(person.id().toString(), person.name()))
                        .toList());
    }

    private List<Choice> choices(Enum<?>[] values, String prefix, Locale locale) {
        return Arrays.stream(values)
                .map(value -> new Choice(value.name(), text(prefix + value.name(), locale)))
                .toList();
    }

    static List<Choice> units() {
        return Arrays.stream(MeasurementUnit.values())
                .map(unit -> new Choice(unit.name(), unit.symbol()))
                .toList();
    }

    /** The same with what stands behind a sign that not everybody knows. */
    private String spelled(InstrumentView instrument, Locale locale) {
        String code = "instruments.scale.spelled." + instrument.unit();
        String scale = InstrumentAccount.unbroken(instrument);
        return messages.getMessage(code, null, null, locale) == null ? scale : text(code, locale, scale);
    }

    static String scale(InstrumentView instrument) {
        return instrument
                .gravityReference()
                .map(reference -> instrument.unit().symbol() + " " + reference)
                .orElse(instrument.unit().symbol());
    }

    private String text(String code, Locale locale, Object... args) {
        return Optional.ofNullable(messages.getMessage(code, args, code, locale))
                .orElse(code);
    }
}

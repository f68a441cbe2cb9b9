package app.tankround.readings.web;

import app.tankround.instruments.InstrumentEvidence;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.Answer;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.DoubtLineView;
import app.tankround.readings.DoubtListId;
import app.tankround.readings.DoubtListView;
import app.tankround.readings.DoubtLists;
import app.tankround.readings.DoubtOutcome;
import app.tankround.readings.DoubtRisk;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.SuspectInstrument;
import app.tankround.readings.UnmeasuredWater;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What suspect and condemned instruments brought into doubt, and how a person ends it. */
@Controller
class DoubtController {

    private static final int PAGE = 100;
    private static final int MOST_CHOICES = 30;

    /** A list in the overview. */
    record Row(DoubtListView list, InstrumentView instrument, String interval) {}

    /** A suspect instrument with what to measure again. */
    record Suspect(
            SuspectInstrument suspect,
            String since,
            ReadingService.Disbelieved inDoubt,
            List<ReadingLines.Line> today,
            List<String> where,
            List<InstrumentEvidence.Said> witnesses) {}

    /** Water that went out unmeasured, and what it went into. */
    record Unmeasured(UnmeasuredWater.Line line, List<Use> uses) {}

    /** What such water went into. */
    record Use(String page, String words, String when) {}

    /** Lines of a page that put the same at risk; {@code risk} is null for those that are ended. */
    record Group(@Nullable DoubtRisk risk, List<DoubtLines.Line> lines) {}

    /**
     * How a line is ended.
     *
     * @param outcome MEASURED_AGAIN, CLIENT_TOLD or HARMLESS
     * @param again the new reading, where it was measured again
     * @param alike whether every line like it ends too
     */
    record EndForm(
            @Nullable DoubtOutcome outcome,
            @Nullable ReadingId again,
            @Nullable String note,
            @Nullable Boolean alike) {}

    /** @param evidence the two readings, as {@link DoubtLines.Evidence#value} gives them */
    record BeginForm(@Nullable String evidence, @Nullable String reason) {}

    private final DoubtLists lists;
    private final DoubtLines words;
    private final DoubtWitnessWords witnesses;
    private final ReadingLines readingLines;
    private final ReadingService readings;
    private final InstrumentRegister instruments;
    private final DecisionRegister decisions;
    private final ObjectProvider<UnmeasuredWater> unmeasured;
    private final MessageSource messages;
    private final Clock clock;

    DoubtController(
            DoubtLists lists,
            DoubtLines words,
            DoubtWitnessWords witnesses,
            ReadingLines readingLines,
            ReadingService readings,
            InstrumentRegister instruments,
            DecisionRegister decisions,
            ObjectProvider<UnmeasuredWater> unmeasured,
            MessageSource messages,
            Clock clock) {
        this.lists = lists;
        this.words = words;
        this.witnesses = witnesses;
        this.readingLines = readingLines;
        this.readings = readings;
        this.instruments = instruments;
        this.decisions = decisions;
        this.unmeasured = unmeasured;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/doubts")
    String all(Model model, Locale locale) {
        ReadingLines.Page page = readingLines.page(locale);
        model.addAttribute(
                "suspects",
                lists.suspects().stream()
                        .map(suspect -> suspect(suspect, page, locale))
                        .toList());
        model.addAttribute(
                "rows",
                lists.all().stream().map(list -> row(list, page, locale)).toList());
        model.addAttribute(
                "unmeasured",
                unmeasured
                        .orderedStream()
                        .flatMap(source -> source.open(locale).stream())
                        .map(line -> unmeasured(line, page, locale))
                        .toList());
        return "readings/doubts";
    }

    private Unmeasured unmeasured(UnmeasuredWater.Line line, ReadingLines.Page page, Locale locale) {
        return new Unmeasured(
                line,
                decisions.restingOn(line.decision()).stream()
                        .map(use -> new Use(
                                use.page(),
                                messages.getMessage(
                                        use.summaryCode(), use.args().toArray(), locale),
                                page.when(use.decidedAt())))
                        .toList());
    }

    private Suspect suspect(SuspectInstrument suspect, ReadingLines.Page page, Locale locale) {
        return new Suspect(
                suspect,
                page.when(suspect.suspicion().since()),
                readings.countDisbelieved(suspect.instrument().id()),
                suspect.measureToday().stream().map(page::of).toList(),
                suspect.measureToday().stream()
                        .map(reading -> page.where(reading.systemId()))
                        .toList(),
                witnesses.of(suspect.instrument().id(), locale));
    }

    private Row row(DoubtListView list, ReadingLines.Page page, Locale locale) {
        return new Row(list, instruments.require(list.instrumentId()), interval(list, page, locale));
    }

    private String interval(DoubtListView list, ReadingLines.Page page, Locale locale) {
        String until = page.when(list.until());
        return list.from()
                .map(from -> messages.getMessage("doubts.interval", new Object[] {page.when(from), until}, locale))
                .orElseGet(() -> messages.getMessage("doubts.interval.ever", new Object[] {until}, locale));
    }

    @GetMapping("/doubts/{id}")
    String list(
            @PathVariable DoubtListId id,
            @RequestParam(defaultValue = "0") int page,
            @ModelAttribute("form") BeginForm form,
            Model model,
            Locale locale) {
        return list(id, Math.max(0, page), model, locale);
    }

    private String list(DoubtListId id, int page, Model model, Locale locale) {
        DoubtLines.Page said = words.page(locale);
        DoubtListView list = lists.require(id);
        int pages = Math.max(1, (list.lines() + PAGE - 1) / PAGE);
        int shown = Math.min(page, pages - 1);
        model.addAttribute("row", row(list, said.readings(), locale));
        model.addAttribute("groups", groups(said.of(lists.lines(id, shown * PAGE, PAGE))));
        model.addAttribute("page", shown);
        model.addAttribute("pages", pages);
        List<DoubtLines.Evidence> evidence =
                lists.evidence(id).stream().map(said::of).toList();
        model.addAttribute("evidence", evidence);
        model.addAttribute("witnesses", witnesses.of(list.instrumentId(), locale));
        model.addAttribute(
                "agreeing", evidence.stream().anyMatch(each -> each.pair().agrees()));
        model.addAttribute(
                "believedUntil",
                list.start()
                        .map(start -> said.readings().when(start.believedUntil()))
                        .orElse(""));
        return "readings/doubt-list";
    }

    private static List<Group> groups(List<DoubtLines.Line> lines) {
        List<Group> groups = new ArrayList<>();
        for (DoubtLines.Line line : lines) {
            @Nullable DoubtRisk risk =
                    line.line().ending().isPresent() ? null : line.line().risk();
            if (groups.isEmpty() || groups.getLast().risk() != risk) {
                groups.add(new Group(risk, new ArrayList<>()));
            }
            groups.getLast().lines().add(line);
        }
        return groups;
    }

    @PostMapping("/doubts/{id}/begin")
    String begin(
            @PathVariable DoubtListId id,
            @ModelAttribute("form") BeginForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                List<ReadingId> pair = pair(form.evidence());
                lists.beginAfter(id, pair.getFirst(), pair.getLast(), form.reason());
                redirect.addFlashAttribute("flash", "doubts.begun");
                return "redirect:/doubts/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return list(id, 0, model, locale);
    }

    private static List<ReadingId> pair(@Nullable String evidence) {
        String[] ids = evidence == null ? new String[0] : evidence.split("_", -1);
        try {
            if (ids.length == 2) {
                return List.of(ReadingId.parse(ids[0]), ReadingId.parse(ids[1]));
            }
        } catch (IllegalArgumentException malformed) {
            throw new FieldRefusal("evidence", "readings.doubt.no-evidence");
        }
        throw new FieldRefusal("evidence", "readings.doubt.no-evidence");
    }

    @GetMapping("/doubts/{id}/lines/{line}")
    String line(
            @PathVariable DoubtListId id,
            @PathVariable long line,
            @ModelAttribute("form") EndForm form,
            Model model,
            Locale locale) {
        return line(id, line, model, locale);
    }

    private String line(DoubtListId id, long number, Model model, Locale locale) {
        DoubtLines.Page said = words.page(locale);
        DoubtLineView line = lists.line(id, number);
        Optional<WaterSystemId> system = system(line);
        model.addAttribute("row", row(lists.require(id), said.readings(), locale));
        model.addAttribute("line", said.of(List.of(line)).getFirst());
        List<DoubtLines.Line> alike = said.of(lists.alike(id, number));
        model.addAttribute("alike", alike.size());
        model.addAttribute(
                "alikeNamed",
                alike.stream()
                        .map(each -> Stream.of(each.when(), each.asWritten(), each.change())
                                .filter(text -> !text.isEmpty())
                                .collect(Collectors.joining(", ")))
                        .collect(Collectors.joining("; ")));
        model.addAttribute("system", system.orElse(null));
        model.addAttribute("outcomes", outcomes(locale));
        model.addAttribute(
                "again",
                system.map(water -> later(line, water)).orElse(List.of()).stream()
                        .map(reading -> new Choice(reading.id().toString(), said.choice(reading)))
                        .toList());
        model.addAttribute(
                "details",
                line.reading()
                        .map(doubted -> said.readings().of(doubted.reading().assessedAs(doubted.after())))
                        .orElse(null));
        return "readings/doubt-line";
    }

    private List<Choice> outcomes(Locale locale) {
        return List.of(DoubtOutcome.MEASURED_AGAIN, DoubtOutcome.CLIENT_TOLD, DoubtOutcome.HARMLESS).stream()
                .map(outcome ->
                        new Choice(outcome.name(), messages.getMessage("doubts.outcome." + outcome, null, locale)))
                .toList();
    }

    private static Optional<WaterSystemId> system(DoubtLineView line) {
        return line.reading()
                .map(doubted -> doubted.reading().systemId())
                .or(() -> line.decision()
                        .filter(decision -> decision.subjectKind().equals("water-system"))
                        .map(decision -> WaterSystemId.of(decision.subjectId())));
    }

    /** Trusted readings of the same water since then, newest first. */
    private List<ReadingView> later(DoubtLineView line, WaterSystemId system) {
        Instant now = clock.instant().plusSeconds(1);
        List<ReadingView> since = line.reading()
                .map(doubted -> readings.series(
                        system, doubted.reading().quantity(), line.happenedAt().plusMillis(1), now))
                .orElseGet(() -> readings.between(system, line.happenedAt().plusMillis(1), now));
        return since.reversed().stream()
                .filter(reading -> reading.assessment().trusted() && reading.answer() != Answer.NOT_MEASURED)
                .limit(MOST_CHOICES)
                .toList();
    }

    @PostMapping("/doubts/{id}/lines/{line}")
    String end(
            @PathVariable DoubtListId id,
            @PathVariable long line,
            @ModelAttribute("form") EndForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                end(id, line, form);
                redirect.addFlashAttribute("flash", "doubts.ended");
                return "redirect:/doubts/" + id;
            } catch (FieldRefusal refusal) {
                if (refusal.code().equals(DoubtLists.ENDED)) {
                    response.setStatus(HttpStatus.CONFLICT.value());
                    model.addAttribute("unkept", Objects.requireNonNullElse(form.note(), ""));
                }
                refusal.into(result);
            }
        }
        return line(id, line, model, locale);
    }

    private void end(DoubtListId id, long line, EndForm form) {
        boolean alike = Boolean.TRUE.equals(form.alike());
        switch (form.outcome()) {
            case MEASURED_AGAIN -> lists.measuredAgain(id, line, form.again(), alike, form.note());
            case CLIENT_TOLD -> lists.clientTold(id, line, alike, form.note());
            case HARMLESS -> lists.harmless(id, line, alike, form.note());
            case EVIDENCE, CORRECTED -> throw new FieldRefusal("outcome", "readings.choice-missing");
            case null -> throw new FieldRefusal("outcome", "readings.choice-missing");
        }
    }
}

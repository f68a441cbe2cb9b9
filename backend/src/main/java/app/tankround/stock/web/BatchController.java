package app.tankround.stock.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.accounts.Temperatures;
import app.tankround.chemistry.BatchCorrection;
import app.tankround.persistence.Uuids;
import app.tankround.readings.DecisionRegister;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.reports.PdfDocument.Particular;
import app.tankround.reports.drumlabel.DrumLabels;
import app.tankround.reports.drumlabel.DrumLabelsPdf;
import app.tankround.stock.BatchCorrections;
import app.tankround.stock.BatchStep;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.units.Mass;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.UnitSystem;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.NumberFormat;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;

/** Batches of water: the list, a new one, and its release. */
@Controller
class BatchController {

    private static final int MOST_LINES = 200;

    /** Salt that corrects a batch is weighed to the gram. */
    private static final int GRAM_DIGITS = 3;

    /** What happened to it before it was let out. */
    record Step(String what, String when) {}

    /** What the batch went into. */
    record Use(String page, String words, String when) {}

    /** @param why it is let out although nobody has measured it */
    record UnmeasuredForm(int version, @Nullable String why) {}

    /** @param answer what became of a batch that was let out unmeasured */
    record AnswerForm(@Nullable String answer) {}

    private final WaterBatches batches;
    private final BatchCorrections corrections;
    private final DecisionRegister decisions;
    private final ReadingService readings;
    private final UnmeasuredBatches unmeasured;
    private final BatchWords batchWords;
    private final BusinessProfile business;
    private final Days days;
    private final Temperatures temperatures;
    private final MessageSource messages;
    private final Clock clock;

    BatchController(
            WaterBatches batches,
            BatchCorrections corrections,
            DecisionRegister decisions,
            ReadingService readings,
            UnmeasuredBatches unmeasured,
            BatchWords batchWords,
            BusinessProfile business,
            Days days,
            Temperatures temperatures,
            MessageSource messages,
            Clock clock) {
        this.batches = batches;
        this.corrections = corrections;
        this.decisions = decisions;
        this.readings = readings;
        this.unmeasured = unmeasured;
        this.batchWords = batchWords;
        this.business = business;
        this.days = days;
        this.temperatures = temperatures;
        this.messages = messages;
        this.clock = clock;
    }

    @ModelAttribute("customary")
    boolean customary() {
        return business.current().unitSystem() == UnitSystem.US_CUSTOMARY;
    }

    @GetMapping("/stock/batches")
    String list(Model model, Locale locale) {
        model.addAttribute(
                "lines",
                batches.all(MOST_LINES).stream()
                        .map(batch -> batchWords.line(batch, locale))
                        .toList());
        return "stock/batches";
    }

    @GetMapping("/stock/batches/new")
    String blank(Model model) {
        model.addAttribute("form", BatchForm.blank(WaterBatchId.of(Uuids.next(clock.instant()))));
        model.addAttribute("supplies", supplies());
        return "stock/batch-form";
    }

    @PostMapping("/stock/batches/new")
    String make(
            @ModelAttribute("form") BatchForm form, BindingResult result, Model model, RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                WaterBatchView made =
                        batches.make(form.toCommand(business.current().unitSystem()));
                redirect.addFlashAttribute("flash", "stock.batch.made");
                return "redirect:/stock/batches/" + made.id();
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        model.addAttribute("supplies", supplies());
        return "stock/batch-form";
    }

    @GetMapping("/stock/batches/{id}")
    String batch(@PathVariable WaterBatchId id, Model model, Locale locale) {
        WaterBatchView batch = batches.require(id);
        model.addAttribute("form", blank(batch));
        return page(batch, model, locale);
    }

    @PostMapping("/stock/batches/{id}/unmeasured")
    String releaseUnmeasured(
            @PathVariable WaterBatchId id,
            @ModelAttribute("unmeasured") UnmeasuredForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                unmeasured.release(id, form.version(), form.why());
                redirect.addFlashAttribute("flash", "stock.batch.released-unmeasured");
                return "redirect:/stock/batches/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        WaterBatchView batch = batches.require(id);
        model.addAttribute("form", blank(batch));
        return page(batch, model, locale);
    }

    @PostMapping("/stock/batches/{id}/measured-later")
    String measureLater(
            @PathVariable WaterBatchId id,
            @ModelAttribute("form") ReleaseForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                WaterBatchView measured = unmeasured.measure(id, form.version(), form.toCommand(temperatures));
                redirect.addFlashAttribute(
                        "flash",
                        unmeasured.off(measured).isPresent() ? "stock.batch.off-later" : "stock.batch.as-meant");
                return "redirect:/stock/batches/" + id;
            } catch (FieldRefusal refusal) {
                temperatures.shown(refusal).into(result);
            }
        }
        return page(batches.require(id), model, locale);
    }

    @PostMapping("/stock/batches/{id}/answered")
    String answer(
            @PathVariable WaterBatchId id,
            @ModelAttribute("answered") AnswerForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                unmeasured.answer(id, form.answer());
                redirect.addFlashAttribute("flash", "stock.batch.answered");
                return "redirect:/stock/batches/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        WaterBatchView batch = batches.require(id);
        model.addAttribute("form", blank(batch));
        return page(batch, model, locale);
    }

    private ReleaseForm blank(WaterBatchView batch) {
        return ReleaseForm.blank(new ReadingId(Uuids.next(clock.instant())), batch.version());
    }

    @PostMapping("/stock/batches/{id}")
    String release(
            @PathVariable WaterBatchId id,
            @ModelAttribute("form") ReleaseForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                WaterBatchView batch = batches.release(
                        id, form.version(), form.toCommand(temperatures), Optional.ofNullable(form.reason()));
                redirect.addFlashAttribute(
                        "flash", batch.release().isPresent() ? "stock.batch.released" : "stock.batch.not-let-out");
                return "redirect:/stock/batches/" + id;
            } catch (FieldRefusal refusal) {
                temperatures.shown(refusal).into(result);
            }
        }
        return page(batches.require(id), model, locale);
    }

    @PostMapping("/stock/batches/{id}/measured")
    String measure(
            @PathVariable WaterBatchId id,
            @ModelAttribute("form") ReleaseForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                corrections.measure(id, form.version(), form.toCommand(temperatures));
                redirect.addFlashAttribute("flash", "stock.batch.measured-only");
                return "redirect:/stock/batches/" + id;
            } catch (FieldRefusal refusal) {
                temperatures.shown(refusal).into(result);
            }
        }
        return page(batches.require(id), model, locale);
    }

    @PostMapping("/stock/batches/{id}/corrected")
    String correct(
            @PathVariable WaterBatchId id,
            @ModelAttribute("correction") CorrectionForm correction,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                corrections.correct(
                        id,
                        correction.version(),
                        correction.toCommand(business.current().unitSystem()));
                redirect.addFlashAttribute("flash", "stock.batch.corrected");
                return "redirect:/stock/batches/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        WaterBatchView batch = batches.require(id);
        model.addAttribute("form", blank(batch));
        return page(batch, model, locale);
    }

    @GetMapping("/stock/batches/{id}/label")
    ResponseEntity<byte[]> label(@PathVariable WaterBatchId id, Locale locale) {
        return labels(List.of(batches.require(id)), locale);
    }

    /** Of all batches of the last day, several on a page. */
    @GetMapping("/stock/batches/labels")
    ResponseEntity<byte[]> labels(Locale locale) {
        Instant since = clock.instant().minus(Duration.ofDays(1));
        return labels(
                batches.all(MOST_LINES).stream()
                        .filter(batch -> batch.madeAt().isAfter(since))
                        .toList(),
                locale);
    }

    private ResponseEntity<byte[]> labels(List<WaterBatchView> wanted, Locale locale) {
        String base = ServletUriComponentsBuilder.fromCurrentContextPath().toUriString();
        byte[] pdf = DrumLabelsPdf.write(new DrumLabels(
                word("stock.label.title", locale),
                locale,
                business.current().name(),
                clock.instant(),
                (page, pages) -> messages.getMessage("stock.label.page", new Object[] {page, pages}, locale),
                wanted.stream().map(batch -> label(batch, base, locale)).toList()));
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(HttpHeaders.CONTENT_DISPOSITION, "inline; filename=\"drum-labels.pdf\"")
                .body(pdf);
    }

    private DrumLabels.Label label(WaterBatchView batch, String base, Locale locale) {
        BatchWords.Line line = batchWords.line(batch, locale);
        String number = Integer.toString(batch.number());
        List<Particular> facts = new ArrayList<>();
        facts.add(new Particular(
                word("stock.batch.measured", locale),
                line.measured() == null ? word("stock.batch.not-released", locale) : line.measured()));
        facts.add(new Particular(word("stock.batch.column.made", locale), line.made()));
        facts.add(new Particular(
                word("stock.batch.column.state", locale),
                line.released() == null ? word("stock.batch.not-released.facts", locale) : line.releasedAndWhy()));
        batch.saltLot().ifPresent(lot -> facts.add(new Particular(word("stock.batch.lot", locale), lot)));
        facts.add(new Particular(
                word("stock.label.use-by", locale),
                Days.day(days.of(batch.madeAt().plus(WaterBatches.KEEPS)), locale)));
        return new DrumLabels.Label(
                messages.getMessage("stock.batch", new Object[] {number}, locale),
                List.of(
                        word(batch.salt().isPresent() ? "stock.label.salt" : "stock.label.purified", locale) + ", "
                                + line.target(),
                        line.volume() + ", " + batch.container()),
                facts,
                base + "/stock/batches/" + batch.id(),
                messages.getMessage("stock.label.scan", new Object[] {number}, locale));
    }

    private String page(WaterBatchView batch, Model model, Locale locale) {
        model.addAttribute("line", batchWords.line(batch, locale));
        model.addAttribute(
                "steps",
                corrections.steps(batch.id()).stream()
                        .map(step ->
                                new Step(step(step, locale), days.moment(step.at(), locale) + batchWords.by(step.by())))
                        .toList());
        corrections.wanted(batch).ifPresent(wanted -> {
            model.addAttribute("wanted", words(wanted, locale));
            if (!model.containsAttribute("correction")) {
                model.addAttribute("correction", blank(batch, wanted));
            }
        });
        corrections
                .tooMuchDissolved(batch)
                .ifPresent(against -> model.addAttribute(
                        "tooMuch",
                        messages.getMessage(against.code(), against.args().toArray(), locale)));
        if (!model.containsAttribute("unmeasured")) {
            model.addAttribute("unmeasured", new UnmeasuredForm(batch.version(), null));
        }
        if (!model.containsAttribute("answered")) {
            model.addAttribute("answered", new AnswerForm(null));
        }
        model.addAttribute(
                "inDoubt",
                batch.release()
                        .filter(release ->
                                release.unmeasured() && release.answered().isEmpty())
                        .isPresent());
        unmeasured.answer(batch).ifPresent(said -> model.addAttribute("said", said));
        model.addAttribute("degrees", temperatures.unit().symbol());
        model.addAttribute(
                "uses",
                batch.release().stream()
                        .flatMap(release -> decisions.restingOn(release.decision()).stream())
                        .map(use -> new Use(
                                use.page(),
                                messages.getMessage(
                                        use.summaryCode(), use.args().toArray(), locale),
                                days.moment(use.decidedAt(), locale)))
                        .toList());
        model.addAttribute("unmeasuredAllowed", unmeasured.mayBeReleased(batch));
        List<Choice> doubtful = batches.doubtful(batch).stream()
                .map(each -> new Choice(
                        each.id().toString(),
                        messages.getMessage(
                                "stock.batch.instrument.doubtful",
                                new Object[] {each.code(), each.name(), scale(each.unit(), each.gravityReference())},
                                locale)))
                .toList();
        model.addAttribute("doubtful", doubtful);
        List<Choice> trusted = batches.instruments(batch).stream()
                .map(each -> new Choice(
                        each.id().toString(),
                        each.code() + ", " + each.name() + ", " + scale(each.unit(), each.gravityReference())))
                .toList();
        model.addAttribute("trusted", trusted);
        model.addAttribute(
                "instruments",
                Stream.concat(trusted.stream(), doubtful.stream()).toList());
        return "stock/batch";
    }

    private CorrectionForm blank(WaterBatchView batch, BatchCorrection wanted) {
        return new CorrectionForm(
                Uuids.next(clock.instant()),
                batch.version(),
                shown(
                        customary()
                                ? wanted.takenOut().inUsGallons()
                                : wanted.takenOut().litres(),
                        1),
                shown(
                        customary()
                                ? wanted.product().inPounds()
                                : wanted.product().kilograms(),
                        GRAM_DIGITS),
                shown(
                        customary()
                                ? wanted.water().inUsGallons()
                                : wanted.water().litres(),
                        1));
    }

    private static @Nullable BigDecimal shown(double amount, int decimals) {
        return amount > 0 ? BigDecimal.valueOf(amount).setScale(decimals, RoundingMode.HALF_EVEN) : null;
    }

    private String words(BatchCorrection wanted, Locale locale) {
        String taken = wanted.takenOut().litres() > 0
                ? messages.getMessage(
                                "stock.batch.wanted.taken",
                                new Object[] {batchWords.volume(wanted.takenOut(), locale)},
                                locale)
                        + " "
                : "";
        boolean salt = wanted.product().kilograms() > 0;
        return taken
                + messages.getMessage(
                        salt ? "stock.batch.wanted.salt" : "stock.batch.wanted.water",
                        new Object[] {
                            salt ? mass(wanted.product(), locale) : batchWords.volume(wanted.water(), locale),
                            batchWords.volume(wanted.after(), locale)
                        },
                        locale);
    }

    private String mass(Mass mass, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(GRAM_DIGITS);
        return customary() ? format.format(mass.inPounds()) + " lb" : format.format(mass.kilograms()) + " kg";
    }

    private String step(BatchStep step, Locale locale) {
        return switch (step) {
            case BatchStep.Measured measured ->
                readings.find(measured.reading())
                        .map(reading -> batchWords.measured(reading, locale))
                        .orElse("");
            case BatchStep.Corrected corrected ->
                words(
                        new BatchCorrection(
                                corrected.takenOut(), corrected.salt(), corrected.water(), corrected.after()),
                        locale);
        };
    }

    private static String scale(MeasurementUnit unit, Optional<String> reference) {
        return reference.map(at -> unit.symbol() + " " + at).orElse(unit.symbol());
    }

    private List<Choice> supplies() {
        return batches.supplies().stream()
                .map(system -> new Choice(system.id().toString(), system.code() + ", " + system.name()))
                .toList();
    }

    private String word(String key, Locale locale) {
        return messages.getMessage(key, null, locale);
    }
}

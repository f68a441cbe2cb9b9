package app.tankround.loads.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.DepotView;
import app.tankround.accounts.Fleet;
import app.tankround.loads.WaterPlans;
import app.tankround.loads.WaterPlantSettings;
import app.tankround.persistence.Uuids;
import app.tankround.stock.KeptWaterEnd;
import app.tankround.stock.VatRole;
import app.tankround.stock.VatView;
import app.tankround.stock.WaterBack;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.stock.WaterVats;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.UnitSystem;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.NotFound;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
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

/** The water plan of a depot, what it keeps to, and what is in its tanks and vats. */
@Controller
@RequestMapping("/water-plan")
class WaterPlanController {

    private static final String TERMS = "loads/water-terms";
    private static final String VATS = "loads/water-vats";
    private static final String LEVEL = "loads/water-level";
    private static final String MOVE = "loads/water-move";
    private static final int BATCHES_OFFERED = 20;

    private final WaterPlans plans;
    private final WaterPlantSettings settings;
    private final WaterVats vats;
    private final WaterBatches batches;
    private final WaterBack back;
    private final KeptWaterRows keptWater;
    private final Fleet fleet;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final Clock clock;

    WaterPlanController(
            WaterPlans plans,
            WaterPlantSettings settings,
            WaterVats vats,
            WaterBatches batches,
            WaterBack back,
            KeptWaterRows keptWater,
            Fleet fleet,
            BusinessProfile business,
            MessageSource messages,
            Clock clock) {
        this.plans = plans;
        this.settings = settings;
        this.vats = vats;
        this.batches = batches;
        this.back = back;
        this.keptWater = keptWater;
        this.fleet = fleet;
        this.business = business;
        this.messages = messages;
        this.clock = clock;
    }

    @ModelAttribute("customary")
    boolean customary() {
        return business.current().unitSystem() == UnitSystem.US_CUSTOMARY;
    }

    @GetMapping
    String plan(@RequestParam(required = false) @Nullable DepotId depot, Model model, Locale locale) {
        List<DepotView> depots = fleet.depots();
        model.addAttribute("depots", depots);
        Optional<DepotId> shown =
                Optional.ofNullable(depot).or(() -> depots.stream().findFirst().map(DepotView::id));
        shown.ifPresent(id -> model.addAttribute(
                "plan",
                WaterPlanPage.of(
                        plans.of(id), messages, locale, business.current().unitSystem(), business.zone())));
        shown.ifPresent(id -> model.addAttribute("depotId", id));
        shown.ifPresent(id -> model.addAttribute("kept", keptWater.at(id, locale)));
        return "loads/water-plan";
    }

    /** All that is left of water that waits in its drums. */
    @PostMapping("/kept")
    String end(
            @RequestParam UUID id,
            @RequestParam UUID kept,
            @RequestParam KeptWaterEnd what,
            @RequestParam BigDecimal litres,
            @RequestParam(required = false) @Nullable WaterSystemId to,
            @RequestParam(required = false) @Nullable DepotId depot,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        try {
            back.end(id, kept, what, litres, Optional.ofNullable(to));
        } catch (FieldRefusal refusal) {
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            model.addAttribute(
                    "refusal",
                    messages.getMessage(refusal.code(), refusal.args().toArray(), locale));
            return plan(depot, model, locale);
        }
        redirect.addFlashAttribute("flash", "web.saved");
        return depot == null ? "redirect:/water-plan" : "redirect:/water-plan?depot=" + depot;
    }

    // What it keeps to

    @GetMapping("/terms")
    String terms(Model model, Locale locale) {
        model.addAttribute("form", WaterTermsForm.of(settings.current(), locale, customary()));
        return TERMS;
    }

    @PostMapping("/terms")
    String change(
            @ModelAttribute("form") WaterTermsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        form.toCommand(new FormReader(result, locale), customary()),
                        settings::change,
                        () -> WaterTermsForm.of(settings.current(), locale, customary()))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/water-plan";
        }
        return TERMS;
    }

    // Tanks and vats

    @GetMapping("/vats")
    String vats(Model model) {
        model.addAttribute(
                "vats",
                fleet.depots().stream()
                        .flatMap(depot -> vats.at(depot.id()).stream())
                        .toList());
        return VATS;
    }

    /** Without a role, it takes no part. */
    @PostMapping("/vats")
    String assign(
            @RequestParam WaterSystemId vat,
            @RequestParam int version,
            @RequestParam(required = false) @Nullable VatRole role,
            RedirectAttributes redirect) {
        vats.assign(vat, version, Optional.ofNullable(role));
        redirect.addFlashAttribute("flash", "web.saved");
        return "redirect:/water-plan/vats";
    }

    @GetMapping("/level")
    String level(@RequestParam WaterSystemId vat, Model model) {
        VatView read = vats.require(vat);
        model.addAttribute(
                "form",
                new VatLevelForm(
                        Uuids.next(clock.instant()).toString(),
                        vat.toString(),
                        null,
                        read.content()
                                .flatMap(VatView.Content::batch)
                                .map(Object::toString)
                                .orElse(null)));
        return level(read, model);
    }

    private String level(VatView vat, Model model) {
        model.addAttribute("vat", vat);
        model.addAttribute(
                "batches",
                vat.role().filter(VatRole.MIXING::equals).isEmpty()
                        ? List.of()
                        : batches.all(BATCHES_OFFERED).stream()
                                .filter(batch -> batch.madeIn().equals(vat.id()))
                                .map(this::choice)
                                .toList());
        return LEVEL;
    }

    private Choice choice(WaterBatchView batch) {
        return new Choice(batch.id().toString(), Integer.toString(batch.number()));
    }

    @PostMapping("/level")
    String read(
            @ModelAttribute("form") VatLevelForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        WaterSystemId vat = WaterSystemId.of(FormReader.madeWith("water-vat", form.vat()));
        boolean kept = kept(form.toCommand(new FormReader(result, locale), customary()), vats::read, result);
        if (kept) {
            redirect.addFlashAttribute("flash", "loads.plant.level.kept");
            return "redirect:/water-plan";
        }
        return level(vats.require(vat), model);
    }

    @GetMapping("/move")
    String move(Model model, Locale locale) {
        model.addAttribute("form", new WaterMoveForm(Uuids.next(clock.instant()).toString(), null, null, null));
        return moving(model, locale);
    }

    private String moving(Model model, Locale locale) {
        List<Choice> chosen = fleet.depots().stream()
                .flatMap(depot -> vats.at(depot.id()).stream())
                .filter(vat -> vat.role().isPresent())
                .map(vat -> new Choice(vat.id().toString(), vat.name()))
                .toList();
        model.addAttribute("choices", chosen);
        model.addAttribute(
                "goals",
                Stream.concat(
                                chosen.stream(),
                                Stream.of(new Choice(
                                        WaterMoveForm.AWAY,
                                        messages.getMessage("loads.plant.move.away", null, locale))))
                        .toList());
        return MOVE;
    }

    @PostMapping("/move")
    String moved(
            @ModelAttribute("form") WaterMoveForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (kept(form.toCommand(new FormReader(result, locale), customary()), vats::move, result)) {
            redirect.addFlashAttribute("flash", "loads.plant.move.kept");
            return "redirect:/water-plan";
        }
        return moving(model, locale);
    }

    private static <C> boolean kept(Optional<C> command, Consumer<C> save, BindingResult result) {
        if (command.isEmpty()) {
            return false;
        }
        try {
            save.accept(command.get());
            return true;
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        } catch (NotFound gone) {
            result.reject("web.choice-needed", new Object[] {""}, null);
        }
        return false;
    }
}

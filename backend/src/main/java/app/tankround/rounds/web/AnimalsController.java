package app.tankround.rounds.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.AnimalDeliveries;
import app.tankround.rounds.AnimalDelivery;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Animals that go along to a visit. */
@Controller
class AnimalsController {

    private static final BigDecimal MINUTES_PER_HOUR = BigDecimal.valueOf(60);
    private static final int WEEKS_AROUND = 53;

    /** @param id made when the form is shown, so that sending it twice adds once */
    record AnimalsForm(
            String id,
            @Nullable String what,
            @Nullable String packedOn,
            @Nullable String packedAt,
            @Nullable String bagHours,
            @Nullable String acclimationMinutes) {}

    private final AnimalDeliveries deliveries;
    private final DueVisits dueVisits;
    private final RoundService rounds;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final Clock clock;

    AnimalsController(
            AnimalDeliveries deliveries,
            DueVisits dueVisits,
            RoundService rounds,
            WaterSystems systems,
            BusinessProfile business,
            Clock clock) {
        this.deliveries = deliveries;
        this.dueVisits = dueVisits;
        this.rounds = rounds;
        this.systems = systems;
        this.business = business;
        this.clock = clock;
    }

    @GetMapping("/planned-visits/{id}/animals/new")
    String blank(@PathVariable PlannedVisitId id, Model model) {
        model.addAttribute(
                "form",
                new AnimalsForm(
                        Uuids.next(clock.instant()).toString(),
                        null,
                        day(id).toString(),
                        null,
                        null,
                        String.valueOf(AnimalDelivery.USUAL_ACCLIMATION_MINUTES)));
        return page(id, model);
    }

    @PostMapping("/planned-visits/{id}/animals/new")
    String add(
            @PathVariable PlannedVisitId id,
            @ModelAttribute("form") AnimalsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        try {
            Optional<AnimalDelivery> asked = read(id, form, new FormReader(result, locale));
            if (asked.isPresent()) {
                deliveries.add(asked.get(), day(id));
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:" + back(id);
            }
        } catch (FieldRefusal refusal) {
            refusal.into(result);
        }
        return page(id, model);
    }

    @PostMapping("/planned-visits/{id}/animals/{delivery}/remove")
    String remove(@PathVariable PlannedVisitId id, @PathVariable UUID delivery, RedirectAttributes redirect) {
        deliveries.remove(id, delivery);
        redirect.addFlashAttribute("flash", "web.saved");
        return "redirect:" + back(id);
    }

    private Optional<AnimalDelivery> read(PlannedVisitId visit, AnimalsForm form, FormReader reader) {
        ZoneId zone = business.current().zone();
        LocalDate today = dueVisits.today();
        Optional<LocalDate> day = reader.requiredDate(
                "packedOn", form.packedOn(), today.minusWeeks(WEEKS_AROUND), today.plusWeeks(WEEKS_AROUND));
        Optional<LocalTime> time = reader.time("packedAt", form.packedAt());
        if (reader.accepted() && time.isEmpty()) {
            reader.refuse("packedAt", "rounds.animals.packed-missing");
        }
        Optional<BigDecimal> hours =
                reader.requiredNumber("bagHours", form.bagHours(), new BigDecimal("0.5"), BigDecimal.valueOf(72));
        Optional<Integer> acclimation = reader.requiredWhole(
                "acclimationMinutes", form.acclimationMinutes(), 0, AnimalDelivery.MOST_ACCLIMATION_MINUTES);
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new AnimalDelivery(
                FormReader.madeWith("animal-delivery", form.id()),
                visit,
                Objects.requireNonNullElse(form.what(), ""),
                day.orElseThrow().atTime(time.orElseThrow()).atZone(zone).toInstant(),
                hours.orElseThrow()
                        .multiply(MINUTES_PER_HOUR)
                        .setScale(0, RoundingMode.HALF_EVEN)
                        .intValueExact(),
                acclimation.orElseThrow()));
    }

    private LocalDate day(PlannedVisitId id) {
        return rounds.holding(id)
                .map(RoundView::date)
                .orElseGet(() -> dueVisits.require(id).dueOn());
    }

    private String back(PlannedVisitId id) {
        return rounds.holding(id).map(round -> "/rounds/" + round.id()).orElse("/rounds");
    }

    private String page(PlannedVisitId id, Model model) {
        PlannedVisitView visit = dueVisits.require(id);
        model.addAttribute("visit", visit);
        model.addAttribute("system", systems.require(visit.waterSystemId()));
        model.addAttribute("day", day(id));
        model.addAttribute("back", back(id));
        return "rounds/animals";
    }
}

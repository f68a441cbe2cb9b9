package app.tankround.plans.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.AmmoniaOnRise;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.Emergency;
import app.tankround.plans.PlanWords;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** What to do first when something kills; with the numbers of a system where one is named. */
@Controller
class EmergencyController {

    /** Un-ionised ammonia at a pH. */
    record AmmoniaLine(double ph, double milligramsPerLitre, boolean harms) {}

    private static final double STEP = 0.5;
    private static final int LINES = 4;

    private final CorrectivePlans plans;
    private final WaterSystems systems;
    private final BusinessProfile business;

    EmergencyController(CorrectivePlans plans, WaterSystems systems, BusinessProfile business) {
        this.plans = plans;
        this.systems = systems;
        this.business = business;
    }

    @GetMapping("/emergencies")
    String emergencies(@RequestParam Optional<WaterSystemId> system, Model model, Locale locale) {
        Optional<WaterSystemView> found = system.map(systems::require);
        model.addAttribute("system", found.orElse(null));
        model.addAttribute("words", new PlanWords(business.current().unitSystem(), locale));
        model.addAttribute(
                "emergencies",
                Arrays.stream(Emergency.values())
                        .filter(each -> found.map(each::concerns).orElse(true))
                        .toList());
        Map<Quantity, Double> known = system.map(plans::known).orElse(Map.of());
        model.addAttribute("known", known);
        model.addAttribute("ammonia", system.flatMap(id -> ammonia(id, known)).orElse(List.of()));
        model.addAttribute("total", system.flatMap(plans::ammonia).orElse(null));
        return "plans/emergencies";
    }

    /** What the ammonia that is there would be worth if pH rose; empty where it is not known. */
    private Optional<List<AmmoniaLine>> ammonia(WaterSystemId system, Map<Quantity, Double> known) {
        Optional<Double> total = plans.ammonia(system);
        Optional<Double> now = Optional.ofNullable(known.get(Quantity.PH));
        Optional<Double> warmth = Optional.ofNullable(known.get(Quantity.TEMPERATURE));
        if (total.isEmpty() || now.isEmpty() || warmth.isEmpty()) {
            return Optional.empty();
        }
        double ph = now.get();
        List<AmmoniaLine> lines = new ArrayList<>();
        try {
            for (int line = 0; line < LINES; line++) {
                double risen = ph + line * STEP;
                AmmoniaOnRise rise = AmmoniaOnRise.of(
                        MassConcentration.ofMilligramsPerLitre(total.get()),
                        ph,
                        risen,
                        Temperature.ofCelsius(warmth.get()),
                        Salinity.ofPractical(known.getOrDefault(Quantity.SALINITY, 0.0)));
                double after = rise.after().milligramsPerLitre();
                lines.add(new AmmoniaLine(risen, after, after >= AmmoniaOnRise.HARMS_FROM));
            }
        } catch (OutOfRangeException beyond) {
            return lines.isEmpty() ? Optional.empty() : Optional.of(lines);
        }
        return Optional.of(lines);
    }
}

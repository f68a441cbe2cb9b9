package app.tankround.plans.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.Emergency;
import app.tankround.plans.EmergencyFacts;
import app.tankround.plans.PlanWords;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
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

    private final CorrectivePlans plans;
    private final EmergencyFacts facts;
    private final WaterSystems systems;
    private final BusinessProfile business;

    EmergencyController(CorrectivePlans plans, EmergencyFacts facts, WaterSystems systems, BusinessProfile business) {
        this.plans = plans;
        this.facts = facts;
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
        model.addAttribute("forPeople", EmergencyFacts.FOR_PEOPLE);
        model.addAttribute("ammonia", system.map(id -> facts.ammonia(id, known)).orElse(List.of()));
        model.addAttribute("total", system.flatMap(plans::ammonia).orElse(null));
        return "plans/emergencies";
    }
}

package app.tankround.purification.web;

import app.tankround.purification.PlantReview;
import app.tankround.purification.Plants;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** What the plant of a supply system needs, on the system's page. */
@Component
class SupplyPanel implements SystemPanel {

    private final Plants plants;
    private final PlantReview review;
    private final PlantPage page;

    SupplyPanel(Plants plants, PlantReview review, PlantPage page) {
        this.plants = plants;
        this.review = review;
        this.page = page;
    }

    @Override
    public int order() {
        return 5;
    }

    @Override
    public String fragment() {
        return "purification/panels :: supply";
    }

    @Override
    public Map<String, Object> model(WaterSystemView system) {
        if (system.kind() != SystemKind.SUPPLY) {
            return Map.of("supply", false);
        }
        Optional<WaterSystemId> filledBy = plants.plantOf(system.id());
        WaterSystemId plant = filledBy.orElse(system.id());
        boolean described = filledBy.isPresent() || !plants.stages(plant).isEmpty();
        Locale locale = LocaleContextHolder.getLocale();
        List<String> needs = described ? page.needs(review.of(plant), locale) : List.of();
        return Map.of("supply", true, "plant", plant, "described", described, "needs", needs);
    }
}

package app.tankround.visits;

import app.tankround.tanks.QuarantineService;
import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Map;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** The clock of a quarantine with the way to its page, and what keeps a display without fish, on the system's page. */
@Component
class QuarantinePanel implements SystemPanel {

    private final AnimalRecords records;
    private final QuarantineService quarantine;
    private final WaterSystems systems;

    QuarantinePanel(AnimalRecords records, QuarantineService quarantine, WaterSystems systems) {
        this.records = records;
        this.quarantine = quarantine;
        this.systems = systems;
    }

    @Override
    public int order() {
        return 5;
    }

    @Override
    public String fragment() {
        return "visits/panels :: quarantine";
    }

    @Override
    public Map<String, Object> model(WaterSystemView system) {
        LocalDate today = systems.today();
        Locale locale = LocaleContextHolder.getLocale();
        return Map.of(
                "system",
                system,
                "apart",
                quarantine.of(system, today).isPresent(),
                "told",
                records.told(system, today, locale),
                "fed",
                records.fed(system, locale));
    }
}

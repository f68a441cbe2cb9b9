package app.tankround.visits;

import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** What is expected of a young system, on its page. */
@Component
class YoungPanel implements SystemPanel {

    private final YoungSystems young;
    private final WaterSystems systems;

    YoungPanel(YoungSystems young, WaterSystems systems) {
        this.young = young;
        this.systems = systems;
    }

    @Override
    public int order() {
        return 15;
    }

    @Override
    public String fragment() {
        return "visits/panels :: young";
    }

    @Override
    public Map<String, Object> model(WaterSystemView system) {
        LocalDate today = systems.today();
        Locale locale = LocaleContextHolder.getLocale();
        Map<String, Object> told = new LinkedHashMap<>(young.told(system, today, locale));
        young.sourceWords(system.id(), today, locale).ifPresent(words -> told.put("source", words));
        return told;
    }
}

package app.tankround.schedule.web;

import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.WaterSystemView;
import java.util.List;
import java.util.Map;
import org.springframework.stereotype.Component;

/** What is agreed for a system and when its next visit is due, on the system's own page. */
@Component
class AgreementPanel implements SystemPanel {

    private static final int VISITS_SHOWN = 4;

    private final Agreements agreements;
    private final DueVisits dueVisits;

    AgreementPanel(Agreements agreements, DueVisits dueVisits) {
        this.agreements = agreements;
        this.dueVisits = dueVisits;
    }

    @Override
    public int order() {
        return 40;
    }

    @Override
    public String fragment() {
        return "schedule/panels :: system";
    }

    @Override
    public Map<String, Object> model(WaterSystemView system) {
        return Map.of(
                "system", system,
                "agreements", agreements.bySystem(system.id()),
                "visits",
                        dueVisits.dueFor(system.id()).stream()
                                .limit(VISITS_SHOWN)
                                .toList(),
                "lastDone",
                        dueVisits
                                .lastDoneBefore(system.id(), dueVisits.today().plusDays(1))
                                .map(List::of)
                                .orElse(List.of()),
                "today", dueVisits.today());
    }
}

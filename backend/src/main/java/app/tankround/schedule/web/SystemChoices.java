package app.tankround.schedule.web;

import app.tankround.clients.SiteService;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.Choice;
import java.util.List;
import org.springframework.stereotype.Component;

/** The systems that are looked after, to choose from by site and name. */
@Component
class SystemChoices {

    private final WaterSystems systems;
    private final SiteService sites;

    SystemChoices(WaterSystems systems, SiteService sites) {
        this.systems = systems;
        this.sites = sites;
    }

    List<Choice> all() {
        return systems.all().stream()
                .filter(WaterSystemView::active)
                .map(system -> new Choice(
                        system.id().toString(), sites.require(system.siteId()).name() + ": " + system.name()))
                .sorted((a, b) -> a.text().compareToIgnoreCase(b.text()))
                .toList();
    }
}

package app.tankround.clients.web;

import app.tankround.clients.SitePanel;
import app.tankround.clients.SiteView;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;

/** Puts the sections that other modules add beside their site. */
@Component
class SiteSections {

    /** A site with its sections, ready to be shown. */
    record Section(SiteView site, List<Panel> panels) {}

    record Panel(String fragment, Map<String, Object> model) {}

    private final ObjectProvider<SitePanel> panels;

    SiteSections(ObjectProvider<SitePanel> panels) {
        this.panels = panels;
    }

    List<Section> of(List<SiteView> sites) {
        return sites.stream().map(this::of).toList();
    }

    Section of(SiteView site) {
        return new Section(
                site,
                panels.stream()
                        .sorted(Comparator.comparingInt(SitePanel::order))
                        .map(panel -> new Panel(panel.fragment(), panel.model(site)))
                        .toList());
    }
}

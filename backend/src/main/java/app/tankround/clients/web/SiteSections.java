package app.tankround.clients.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.clients.SitePanel;
import app.tankround.clients.SiteView;
import app.tankround.web.VolumeText;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** Puts the sections that other modules add beside their site. */
@Component
class SiteSections {

    /**
     * A site with its sections, ready to be shown.
     *
     * @param refill what the van may take along there; empty where it may take nothing
     */
    record Section(SiteView site, String refill, List<Panel> panels) {}

    record Panel(String fragment, Map<String, Object> model) {}

    private final ObjectProvider<SitePanel> panels;
    private final BusinessProfile business;

    SiteSections(ObjectProvider<SitePanel> panels, BusinessProfile business) {
        this.panels = panels;
        this.business = business;
    }

    List<Section> of(List<SiteView> sites) {
        return sites.stream().map(this::of).toList();
    }

    Section of(SiteView site) {
        return new Section(
                site,
                site.refill()
                        .map(new VolumeText(
                                LocaleContextHolder.getLocale(),
                                business.current().unitSystem())::of)
                        .orElse(""),
                panels.stream()
                        .sorted(Comparator.comparingInt(SitePanel::order))
                        .map(panel -> new Panel(panel.fragment(), panel.model(site)))
                        .toList());
    }
}

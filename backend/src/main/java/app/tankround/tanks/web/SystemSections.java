package app.tankround.tanks.web;

import app.tankround.clients.SitePanel;
import app.tankround.clients.SiteView;
import app.tankround.tanks.EquipmentView;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.Quarantine;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.SystemPanel;
import app.tankround.tanks.TankView;
import app.tankround.tanks.TargetView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** Puts together all that a page shows of a system, and shows the systems of a site on the site's and client's pages. */
@Component
class SystemSections implements SitePanel {

    /** A system with all that belongs to it. */
    record Section(
            WaterSystemView system,
            List<TankView> tanks,
            List<EquipmentView> equipment,
            List<LivestockView> livestock,
            List<TargetView> targets,
            List<SamplePointView> samplePoints,
            ClassState state,
            List<Panel> panels) {}

    record Panel(String fragment, Map<String, Object> model) {}

    /**
     * How a system stands in its infection class.
     *
     * @param day 1 on the day on which the class began
     * @param quarantineDays how many a quarantine lasts; 0 for another class
     * @param overOn the first day on which the quarantine may end
     */
    record ClassState(InfectionClass infectionClass, String since, long day, int quarantineDays, String overOn) {

        public boolean isQuarantine() {
            return quarantineDays > 0;
        }

        public boolean isOver() {
            return isQuarantine() && day > quarantineDays;
        }
    }

    private final WaterSystems systems;
    private final Quarantine quarantine;
    private final Words words;
    private final ObjectProvider<SystemPanel> panels;

    SystemSections(WaterSystems systems, Quarantine quarantine, Words words, ObjectProvider<SystemPanel> panels) {
        this.systems = systems;
        this.quarantine = quarantine;
        this.words = words;
        this.panels = panels;
    }

    /** Everything about one system, with the sections of other modules for its own page. */
    Section whole(WaterSystemView system, Figures figures) {
        return section(system, figures, sorted(system, panel -> Optional.of(panel.fragment())));
    }

    private Section summary(WaterSystemView system, Figures figures) {
        return section(system, figures, sorted(system, SystemPanel::summaryFragment));
    }

    private Section section(WaterSystemView system, Figures figures, List<Panel> sections) {
        return new Section(
                system,
                systems.tanks(system.id()),
                systems.equipment(system.id()),
                systems.livestock(system.id()),
                systems.targets(system.id()),
                systems.samplePoints(system.id()),
                state(system.id(), system.infectionClass(), system.classSince(), figures),
                sections);
    }

    private List<Panel> sorted(WaterSystemView system, Function<SystemPanel, Optional<String>> fragmentOf) {
        return panels.stream()
                .sorted(Comparator.comparingInt(SystemPanel::order))
                .flatMap(panel ->
                        fragmentOf.apply(panel).map(fragment -> new Panel(fragment, panel.model(system))).stream())
                .toList();
    }

    ClassState state(WaterSystemId id, InfectionClass infectionClass, LocalDate since, Figures figures) {
        int lasts = infectionClass == InfectionClass.QUARANTINE ? quarantine.days(id) : 0;
        return new ClassState(
                infectionClass,
                figures.day(since),
                since.until(systems.today(), ChronoUnit.DAYS) + 1,
                lasts,
                figures.day(Quarantine.over(since, lasts)));
    }

    @Override
    public int order() {
        return 10;
    }

    @Override
    public String fragment() {
        return "tanks/panels :: site";
    }

    @Override
    public Map<String, Object> model(SiteView site) {
        Locale locale = LocaleContextHolder.getLocale();
        Figures figures = words.figures(locale);
        return Map.of(
                "siteId",
                site.id(),
                "figures",
                figures,
                "sections",
                systems.bySite(site.id()).stream()
                        .map(system -> summary(system, figures))
                        .toList());
    }
}

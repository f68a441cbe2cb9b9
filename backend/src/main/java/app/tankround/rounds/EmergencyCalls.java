package app.tankround.rounds;

import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.DayRepairs.Happening;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.schedule.OneOffVisits;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.springframework.stereotype.Component;

/** Calls to a site that has nothing due: agreed for one day, so that they are written down, done and billed as visits are. */
@Component
class EmergencyCalls {

    private final OneOffVisits oneOffs;
    private final WaterSystems systems;
    private final SiteNeedsService needs;
    private final RoundService rounds;

    EmergencyCalls(OneOffVisits oneOffs, WaterSystems systems, SiteNeedsService needs, RoundService rounds) {
        this.oneOffs = oneOffs;
        this.systems = systems;
        this.needs = needs;
        this.rounds = rounds;
    }

    /**
     * What is to be done at a stop for which nothing is due.
     *
     * @throws FieldRefusal if no system there is looked after, or nobody said what it costs and nothing there tells
     */
    RoundTiming.Work work(StoredStop stop, SiteView site, Happening happening) {
        WaterSystemView system = called(site);
        oneOffs.price(system, Optional.ofNullable(happening.price()));
        InfectionClass called = system.infectionClass();
        int arrival = needs.arrivalMinutes(Set.of(site.id())).getOrDefault(site.id(), 0);
        return new RoundTiming.Work(stop, site, null, arrival + happening.minutes(), called, called);
    }

    /** The sickest of the site's systems, since that is what a call is most likely for. */
    private WaterSystemView called(SiteView site) {
        return systems.bySite(site.id()).stream()
                .filter(WaterSystemView::active)
                .max(Comparator.comparing(WaterSystemView::infectionClass)
                        .thenComparing(WaterSystemView::code, Comparator.reverseOrder()))
                .orElseThrow(() -> new FieldRefusal("site", "rounds.repair.no-system", site.name()));
    }

    /** The same with the visits that stand for it, where there were none. */
    RoundTiming.Work agreed(RoundTiming.Work work, Happening happening) {
        if (!work.stop().visits().isEmpty()) {
            return work;
        }
        PlannedVisitView visit = oneOffs.agree(
                OneOffVisits.Occasion.CALL,
                called(work.site()),
                happening.date(),
                happening.minutes(),
                Optional.ofNullable(happening.price()));
        return rounds.work(happening.date(), List.of(work.stop().withVisits(List.of(new HeldVisit(visit.id(), true)))))
                .getFirst();
    }
}

package app.tankround.rounds;

import app.tankround.clients.SiteView;
import app.tankround.persistence.Uuids;
import app.tankround.rounds.DayRepairs.Happening;
import app.tankround.rounds.StoredRound.HeldVisit;
import app.tankround.rounds.StoredRound.StoredStop;
import app.tankround.schedule.AgreementId;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.VisitRhythm;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.springframework.stereotype.Component;

/** Calls to a site that has nothing due: agreed for one day, so that they are written down, done and billed as visits are. */
@Component
class EmergencyCalls {

    /** Where the last twelve digits of an id begin. */
    private static final int LAST_DIGITS = 24;

    private final Agreements agreements;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final RoundService rounds;
    private final Clock clock;

    EmergencyCalls(Agreements agreements, DueVisits dueVisits, WaterSystems systems, RoundService rounds, Clock clock) {
        this.agreements = agreements;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.rounds = rounds;
        this.clock = clock;
    }

    /**
     * What is to be done at a stop for which nothing is due.
     *
     * @throws FieldRefusal if no system there is looked after
     */
    RoundTiming.Work work(StoredStop stop, SiteView site, int minutes) {
        InfectionClass called = called(site).infectionClass();
        return new RoundTiming.Work(stop, site, null, minutes, called, called);
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
        AgreementId id = new AgreementId(Uuids.next(clock.instant()));
        WaterSystemView system = called(work.site());
        agreements.add(
                id,
                new NewAgreement(
                        "CALL-" + happening.date() + "-" + id.toString().substring(LAST_DIGITS),
                        system.id(),
                        VisitRhythm.once(happening.date()),
                        happening.minutes(),
                        BigDecimal.ZERO,
                        List.of(),
                        Optional.of(happening.date())));
        List<HeldVisit> visits = dueVisits.dueFor(system.id()).stream()
                .filter(visit -> visit.agreementId().equals(id))
                .map(visit -> new HeldVisit(visit.id(), true))
                .toList();
        return rounds.work(happening.date(), List.of(work.stop().withVisits(visits)))
                .getFirst();
    }
}

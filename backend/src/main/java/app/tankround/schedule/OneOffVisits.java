package app.tankround.schedule;

import app.tankround.accounts.BusinessProfile;
import app.tankround.clients.SiteService;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.joda.money.Money;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Single visits that somebody agrees on beside the rhythms: calls, and work for which nobody comes in time. */
@Service
public class OneOffVisits {

    /** Why a single visit is agreed; its code begins with it. */
    public enum Occasion {
        CALL,
        WORK
    }

    /** Where the last twelve digits of an id begin. */
    private static final int LAST_DIGITS = 24;

    private final Agreements agreements;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final SiteService sites;
    private final BusinessProfile business;
    private final Clock clock;

    OneOffVisits(
            Agreements agreements,
            DueVisits dueVisits,
            WaterSystems systems,
            SiteService sites,
            BusinessProfile business,
            Clock clock) {
        this.agreements = agreements;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.sites = sites;
        this.business = business;
        this.clock = clock;
    }

    /**
     * Agrees on a visit of its own.
     *
     * @param price in the business's currency; empty for what a visit there costs
     * @throws FieldRefusal at {@code price}, {@code minutes} or {@code day} for what no agreement may have, or if no price is
     *     given and none follows from what is agreed
     */
    @Transactional
    public PlannedVisitView agree(
            Occasion occasion, WaterSystemView system, LocalDate day, int minutes, Optional<BigDecimal> price) {
        LocalDate today = dueVisits.today();
        LocalDate last = today.plusWeeks(DueVisits.MOST_WEEKS_AHEAD);
        if (day.isBefore(today) || day.isAfter(last)) {
            throw new FieldRefusal("day", "schedule.out-of-range", day, today, last);
        }
        AgreementId id = new AgreementId(Uuids.next(clock.instant()));
        agreements.add(
                id,
                new NewAgreement(
                        occasion + "-" + day + "-" + id.toString().substring(LAST_DIGITS),
                        system.id(),
                        VisitRhythm.once(day),
                        minutes,
                        price(system, price),
                        List.of(),
                        Optional.of(day)));
        dueVisits.planUntil(day);
        return dueVisits.dueFor(system.id()).stream()
                .filter(visit -> visit.agreementId().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** @throws FieldRefusal at {@code price} if none is given and none follows from what is agreed */
    @Transactional(readOnly = true)
    public BigDecimal price(WaterSystemView system, Optional<BigDecimal> given) {
        return given.or(() -> usualPrice(system).map(Money::getAmount))
                .orElseThrow(() -> new FieldRefusal("price", "schedule.one-off.price", system.name()));
    }

    /**
     * What a visit costs there by what is agreed: the dearest agreement with a rhythm that is in force for the system, else for
     * another system of its site; nothing at the business's own depot, where nobody pays for it.
     */
    @Transactional(readOnly = true)
    public Optional<Money> usualPrice(WaterSystemView system) {
        Optional<Money> there = dearest(Stream.of(system));
        return there.or(() -> dearest(systems.bySite(system.siteId()).stream()))
                .or(() -> Optional.of(system.siteId())
                        .filter(site -> sites.require(site).isOwnDepot())
                        .map(own -> Money.zero(business.current().currency())));
    }

    private Optional<Money> dearest(Stream<WaterSystemView> of) {
        LocalDate today = dueVisits.today();
        return of.flatMap(system -> agreements.bySystem(system.id()).stream())
                .filter(agreement ->
                        agreement.validOn(today) && agreement.everyDays().isPresent())
                .map(AgreementView::price)
                .max(Comparator.naturalOrder());
    }
}

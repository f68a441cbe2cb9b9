package app.tankround.schedule;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.RecordLock;
import app.tankround.persistence.Uuids;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.springframework.dao.OptimisticLockingFailureException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The agreements, and with each change the due visits that follow from it. */
@Service
public class Agreements {

    private final AgreementRepository agreements;
    private final DueVisits dueVisits;
    private final KeptGaps keptGaps;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final ChangeLog changes;
    private final RecordLock lock;
    private final Clock clock;

    Agreements(
            AgreementRepository agreements,
            DueVisits dueVisits,
            KeptGaps keptGaps,
            WaterSystems systems,
            BusinessProfile business,
            ChangeLog changes,
            RecordLock lock,
            Clock clock) {
        this.agreements = agreements;
        this.dueVisits = dueVisits;
        this.keptGaps = keptGaps;
        this.systems = systems;
        this.business = business;
        this.changes = changes;
        this.lock = lock;
        this.clock = clock;
    }

    /** Enters an agreement under a new id; see {@link #add(AgreementId, NewAgreement)}. */
    @Transactional
    public AgreementId add(NewAgreement asked) {
        return add(new AgreementId(Uuids.next(clock.instant())), asked);
    }

    /** Enters an agreement whose gaps nobody has said anything about; see {@link #add(AgreementId, NewAgreement, boolean)}. */
    @Transactional
    public AgreementId add(AgreementId id, NewAgreement asked) {
        return add(id, asked, false);
    }

    /**
     * Enters an agreement and makes its due visits. Sending the same again adds nothing.
     *
     * @param leaveGaps whether somebody decided that tasks which are due oftener than the visits come stay so
     * @throws FieldRefusal for a value outside its range, a code that is taken or a system that does not exist
     * @throws StaleVersion if there is an agreement of that id that says something else
     */
    @Transactional
    public AgreementId add(AgreementId id, NewAgreement asked, boolean leaveGaps) {
        NewAgreement terms = accepted(asked);
        lock.hold("agreement " + id);
        lock.hold("agreement code " + terms.code());
        Optional<Agreement> stored = agreements.findById(id);
        if (stored.isPresent()) {
            if (!stored.get().says(terms)) {
                throw stale(stored.get(), asked);
            }
            return id;
        }
        requireFreeCode(id, terms);
        LocalDate today = dueVisits.today();
        LocalDate from = terms.planFrom().orElseGet(() -> terms.rhythm().startOfPeriod(today));
        Agreement agreement = agreements.save(Agreement.of(id, terms, from));
        dueVisits.agreeAgain(agreement, from);
        changes.record("agreement", id, "added", Map.of("code", terms.code()));
        if (leaveGaps) {
            keptGaps.keep(id, terms.tasksOftenerThanVisits());
        }
        return id;
    }

    private void requireFreeCode(AgreementId id, NewAgreement terms) {
        agreements
                .findByCode(terms.code())
                .filter(other -> !other.id().equals(id))
                .ifPresent(other -> {
                    throw new FieldRefusal("code", "schedule.code-taken", terms.code());
                });
    }

    /** The same where nobody said anything about gaps; see {@link #change(AgreementId, int, NewAgreement, boolean)}. */
    @Transactional
    public void change(AgreementId id, int version, NewAgreement asked) {
        change(id, version, asked, false);
    }

    /**
     * Changes an agreement. The new terms hold for visits that are due from the day on that they name, else from today, and
     * not yet done; visits before that day, and what was done, dropped or is overdue, stay as they were agreed.
     *
     * @param version the version that the person saw
     * @param leaveGaps whether somebody decided that tasks which are due oftener than the visits come stay so
     * @throws StaleVersion if somebody changed the agreement since
     * @throws FieldRefusal as {@link #add}, and if it names another system, or a day that is past or more than a year ahead
     */
    @Transactional
    public void change(AgreementId id, int version, NewAgreement asked, boolean leaveGaps) {
        Agreement stored = agreements.findById(id).orElseThrow(() -> new NotFound("agreement", id));
        if (!stored.waterSystemId().equals(asked.waterSystemId())) {
            throw new FieldRefusal("waterSystem", "schedule.system-fixed");
        }
        NewAgreement terms = accepted(asked);
        if (leaveGaps) {
            keptGaps.keep(id, terms.tasksOftenerThanVisits());
        }
        if (stored.says(terms)) {
            return;
        }
        if (stored.version() != version) {
            throw stale(stored, asked);
        }
        lock.hold("agreement code " + terms.code());
        requireFreeCode(id, terms);
        LocalDate today = dueVisits.today();
        LocalDate from = terms.planFrom().orElse(today);
        LocalDate furthest = today.plusWeeks(DueVisits.MOST_WEEKS_AHEAD);
        if (from.isBefore(today) || from.isAfter(furthest)) {
            throw new FieldRefusal("planFrom", "schedule.out-of-range", from, today, furthest);
        }
        dueVisits.planBefore(stored, from);
        Agreement changed;
        try {
            changed = agreements.save(stored.on(terms, from));
        } catch (OptimisticLockingFailureException changedMeanwhile) {
            throw stale(stored, asked);
        }
        dueVisits.agreeAgain(changed, from);
        changes.record("agreement", id, "changed", Map.of("code", terms.code()));
    }

    private StaleVersion stale(Agreement stored, NewAgreement asked) {
        return new StaleVersion("/agreements/" + stored.id(), stored.view(currency()), asked);
    }

    private NewAgreement accepted(NewAgreement asked) {
        WaterSystemView system = systems.find(asked.waterSystemId())
                .orElseThrow(() -> new FieldRefusal("waterSystem", "schedule.no-such-system"));
        return AgreementRules.accepted(asked, currency(), system.netVolume());
    }

    /** The agreements of a system, by code. */
    @Transactional(readOnly = true)
    public List<AgreementView> bySystem(WaterSystemId system) {
        return agreements.findByWaterSystemIdOrderByCode(system).stream()
                .map(agreement -> agreement.view(currency()))
                .toList();
    }

    /** All agreements, by code. */
    @Transactional(readOnly = true)
    public List<AgreementView> all() {
        CurrencyUnit currency = currency();
        return agreements.findAllByOrderByCode().stream()
                .map(agreement -> agreement.view(currency))
                .toList();
    }

    @Transactional(readOnly = true)
    public Optional<AgreementView> find(AgreementId id) {
        return agreements.findById(id).map(agreement -> agreement.view(currency()));
    }

    /** @throws NotFound if there is no such agreement */
    @Transactional(readOnly = true)
    public AgreementView require(AgreementId id) {
        return find(id).orElseThrow(() -> new NotFound("agreement", id));
    }

    @Transactional(readOnly = true)
    public Optional<AgreementView> byCode(String code) {
        return agreements.findByCode(code).map(agreement -> agreement.view(currency()));
    }

    private CurrencyUnit currency() {
        return business.current().currency();
    }
}

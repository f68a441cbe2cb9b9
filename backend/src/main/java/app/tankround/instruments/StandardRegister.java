package app.tankround.instruments;

import app.tankround.accounts.ChangeLog;
import app.tankround.persistence.Uuids;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.PlausibleRanges;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The standards that instruments are checked against. */
@Service
@Transactional
public class StandardRegister {

    private static final BigDecimal COLDEST = new BigDecimal("-5");
    private static final BigDecimal WARMEST = new BigDecimal("60");
    private static final int LONGEST_OPEN = 3660;

    private final Standards standards;
    private final BusinessDay businessDay;
    private final ChangeLog changes;
    private final Clock clock;

    StandardRegister(Standards standards, BusinessDay businessDay, ChangeLog changes, Clock clock) {
        this.standards = standards;
        this.businessDay = businessDay;
        this.changes = changes;
        this.clock = clock;
    }

    @Transactional(readOnly = true)
    public Optional<StandardView> find(StandardId id) {
        return standards.findById(id).map(Standard::view);
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public StandardView require(StandardId id) {
        return find(id).orElseThrow(() -> new NotFound("standard", id));
    }

    @Transactional(readOnly = true)
    public Optional<StandardView> findByCode(String code) {
        return standards.findByCode(code).map(Standard::view);
    }

    @Transactional(readOnly = true)
    public List<StandardView> all() {
        return standards.findAllByOrderByCode().stream().map(Standard::view).toList();
    }

    /** @throws FieldRefusal if something stated cannot be */
    public StandardId add(NewStandard stated) {
        refuseIfWrong(stated, Optional.empty());
        var id = new StandardId(Uuids.next(clock.instant()));
        standards.save(Standard.of(id, stated, 0));
        changes.record("standard", id, "added", Map.of("code", stated.code()));
        return id;
    }

    /**
     * Changes what is stated; checks already recorded keep the value that the standard had then.
     *
     * @throws FieldRefusal if something stated cannot be
     * @throws StaleVersion if somebody else changed it since {@code version}
     */
    public void change(StandardId id, int version, NewStandard stated) {
        StandardView stored = require(id);
        if (stored.version() != version) {
            throw new StaleVersion("/standards/" + id, stored, stated);
        }
        refuseIfWrong(stated, Optional.of(stored));
        standards.save(Standard.of(id, stated, version));
        changes.record("standard", id, "changed", Map.of("code", stated.code()));
    }

    private void refuseIfWrong(NewStandard stated, Optional<StandardView> stored) {
        LocalDate today = businessDay.today();
        boolean taken = standards
                .findByCode(stated.code())
                .filter(other ->
                        stored.filter(same -> same.id().equals(other.id())).isEmpty())
                .isPresent();
        Checked.named(stated.code(), stated.name(), taken, stated.quantity(), stated.unit());
        if (stated.unit() == MeasurementUnit.SPECIFIC_GRAVITY) {
            throw new FieldRefusal("unit", "instruments.standard-as-salinity");
        }
        PlausibleRanges.check(stated.quantity(), stated.unit(), stated.value()).ifPresent(refused -> {
            throw new FieldRefusal("value", refused.code(), refused.args());
        });
        BigDecimal widest = PlausibleRanges.of(stated.quantity(), stated.unit()).farOff();
        Checked.number("uncertainty", stated.uncertainty(), BigDecimal.ZERO, true, widest);
        stated.valueTemperature()
                .ifPresent(celsius -> Checked.number("valueTemperature", celsius, COLDEST, true, WARMEST));
        Checked.past("openedOn", stated.openedOn(), today);
        Checked.ahead("expiresOn", stated.expiresOn(), today);
        stated.openDays().filter(days -> days < 1 || days > LONGEST_OPEN).ifPresent(days -> {
            throw new FieldRefusal("openDays", "instruments.number-outside", days, 1, LONGEST_OPEN);
        });
        Checked.past("suspiciousSince", stated.suspiciousSince(), today);
        stated.suspiciousBecause().ifPresent(text -> Checked.text("suspiciousBecause", text));
        if (stated.suspiciousSince().isPresent() != stated.suspiciousBecause().isPresent()) {
            throw new FieldRefusal(
                    stated.suspiciousSince().isPresent() ? "suspiciousBecause" : "suspiciousSince",
                    "instruments.suspicious-both");
        }
    }
}

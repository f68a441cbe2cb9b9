package app.tankround.instruments;

import app.tankround.accounts.ChangeLog;
import app.tankround.chemistry.PhBuffer;
import app.tankround.persistence.Uuids;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.units.Temperature;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.math.RoundingMode;
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
    static final BigDecimal COLDEST_BUFFER = BigDecimal.valueOf(PhBuffer.LOWEST_CELSIUS);
    static final BigDecimal WARMEST_BUFFER = BigDecimal.valueOf(PhBuffer.HIGHEST_CELSIUS);
    private static final BigDecimal MAKERS_VARY = new BigDecimal("0.10");
    private static final int BUFFER_DECIMALS = 2;

    private final Standards standards;
    private final Calibrations calibrations;
    private final StandardRecipes recipes;
    private final StandardBelief belief;
    private final BusinessDay businessDay;
    private final ChangeLog changes;
    private final Clock clock;

    StandardRegister(
            Standards standards,
            Calibrations calibrations,
            StandardRecipes recipes,
            StandardBelief belief,
            BusinessDay businessDay,
            ChangeLog changes,
            Clock clock) {
        this.standards = standards;
        this.calibrations = calibrations;
        this.recipes = recipes;
        this.belief = belief;
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
     * Changes what is stated; stating again what is stored changes nothing. Checks already recorded keep the value that the standard had then. Since when it is believed
     * counts for them too: {@link CheckReconsidered} says so of each instrument.
     *
     * @throws FieldRefusal if something stated cannot be
     * @throws StaleVersion if somebody else changed it since {@code version}
     */
    public void change(StandardId id, int version, NewStandard stated) {
        StandardView stored = require(id);
        if (Standard.of(id, stated, stored.version()).view().equals(stored)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/standards/" + id, stored, stated);
        }
        refuseIfWrong(stated, Optional.of(stored));
        recipes.find(id).ifPresent(recipe -> refuseUnlessOfRecipe(stored, stated));
        standards.save(Standard.of(id, stated, version));
        changes.record("standard", id, "changed", Map.of("code", stated.code()));
        belief.changed(stored, stated);
    }

    /**
     * Says that a bottle was opened today; its days open count from then.
     *
     * @return whether it was closed until now; the day on which one was opened before stays
     * @throws NotFound if there is none
     */
    public boolean opened(StandardId id) {
        StandardView stored = require(id);
        if (stored.openedOn().isPresent()) {
            return false;
        }
        standards.save(Standard.of(id, stored.stated().openedOn(businessDay.today()), stored.version()));
        changes.record("standard", id, "opened", Map.of("code", stored.code()));
        return true;
    }

    /**
     * Removes one that no check refers to.
     *
     * @throws FieldRefusal at {@code code} if a check refers to it
     * @throws NotFound if there is none
     * @throws StaleVersion if somebody else changed it since {@code version}
     */
    public void remove(StandardId id, int version) {
        StandardView stored = require(id);
        if (stored.version() != version) {
            throw new StaleVersion("/standards/" + id, stored, null);
        }
        int checks = calibrations.countWith(id);
        if (checks > 0) {
            throw new FieldRefusal("code", "instruments.standard-used", stored.code(), checks);
        }
        standards.deleteById(id);
        changes.record("standard", id, "removed", Map.of("code", stored.code()));
    }

    /** What was weighed decides what a made-up standard is worth. */
    private static void refuseUnlessOfRecipe(StandardView stored, NewStandard stated) {
        boolean same = stored.value().compareTo(stated.value()) == 0
                && stored.uncertainty().compareTo(stated.uncertainty()) == 0
                && stored.kind() == stated.kind()
                && stored.unit() == stated.unit();
        if (!same) {
            throw new FieldRefusal(
                    "value",
                    "instruments.value-of-recipe",
                    stored.value().toPlainString(),
                    stored.uncertainty().toPlainString());
        }
    }

    /** A bottle may be off its table by what makers vary, not by the step to another buffer. */
    private static void refuseIfBufferWrong(NewStandard stated, PhBuffer buffer) {
        if (stated.kind() != StandardKind.PH_BUFFER) {
            throw new FieldRefusal("buffer", "instruments.buffer-not-for-kind");
        }
        BigDecimal celsius = stated.valueTemperature().orElse(BigDecimal.valueOf(PhBuffer.USUAL.celsius()));
        Checked.number("valueTemperature", celsius, COLDEST_BUFFER, true, WARMEST_BUFFER);
        BigDecimal table = BigDecimal.valueOf(buffer.at(Temperature.ofCelsius(celsius.doubleValue())))
                .setScale(BUFFER_DECIMALS, RoundingMode.HALF_EVEN);
        if (stated.value().subtract(table).abs().compareTo(MAKERS_VARY) > 0) {
            throw new FieldRefusal(
                    "value",
                    "instruments.buffer-value",
                    stated.value().toPlainString(),
                    table.subtract(MAKERS_VARY).toPlainString(),
                    table.add(MAKERS_VARY).toPlainString(),
                    celsius.stripTrailingZeros().toPlainString() + " " + MeasurementUnit.DEGREE_CELSIUS.symbol());
        }
    }

    /** Pure water has nothing in it, and of nothing no mass, buffer or salt water is made. */
    private static void refuseIfValueNotOfKind(NewStandard stated) {
        if (stated.kind().isZero()) {
            Checked.number("value", stated.value(), BigDecimal.ZERO, true, BigDecimal.ZERO);
        }
        if (stated.kind().isAboveZero() || stated.quantity() == Quantity.MASS) {
            BigDecimal highest =
                    PlausibleRanges.of(stated.quantity(), stated.unit()).high();
            Checked.number("value", stated.value(), BigDecimal.ZERO, false, highest);
        }
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
        if (!stated.kind().isOf(stated.quantity())) {
            throw new FieldRefusal("quantity", "instruments.standard-is." + stated.kind());
        }
        PlausibleRanges.check(stated.quantity(), stated.unit(), stated.value()).ifPresent(refused -> {
            throw new FieldRefusal("value", refused.code(), refused.args());
        });
        refuseIfValueNotOfKind(stated);
        BigDecimal widest = PlausibleRanges.of(stated.quantity(), stated.unit()).farOff();
        Checked.number("uncertainty", stated.uncertainty(), BigDecimal.ZERO, true, widest);
        stated.valueTemperature()
                .ifPresent(celsius -> Checked.number("valueTemperature", celsius, COLDEST, true, WARMEST));
        stated.buffer().ifPresent(buffer -> refuseIfBufferWrong(stated, buffer));
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

package app.tankround.instruments;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.People;
import app.tankround.persistence.Uuids;
import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.PlausibleRange;
import app.tankround.units.PlausibleRanges;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import app.tankround.web.StaleVersion;
import java.math.BigDecimal;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The register of instruments and test kits. */
@Service
@Transactional
public class InstrumentRegister {

    private static final int LONGEST_INTERVAL = 3660;
    private static final BigDecimal QUARTER = new BigDecimal("0.25");

    private final Instruments instruments;
    private final People people;
    private final BusinessDay businessDay;
    private final ChangeLog changes;
    private final Clock clock;

    InstrumentRegister(
            Instruments instruments, People people, BusinessDay businessDay, ChangeLog changes, Clock clock) {
        this.instruments = instruments;
        this.people = people;
        this.businessDay = businessDay;
        this.changes = changes;
        this.clock = clock;
    }

    @Transactional(readOnly = true)
    public Optional<InstrumentView> find(InstrumentId id) {
        return instruments.findById(id).map(Instrument::view);
    }

    /** @throws NotFound if there is none */
    @Transactional(readOnly = true)
    public InstrumentView require(InstrumentId id) {
        return find(id).orElseThrow(() -> new NotFound("instrument", id));
    }

    @Transactional(readOnly = true)
    public Optional<InstrumentView> findByCode(String code) {
        return instruments.findByCode(code).map(Instrument::view);
    }

    /** Those with these ids, in no order. */
    @Transactional(readOnly = true)
    public List<InstrumentView> find(Collection<InstrumentId> ids) {
        return instruments.findAllById(ids).stream().map(Instrument::view).toList();
    }

    /** All of them, retired ones too, by code. */
    @Transactional(readOnly = true)
    public List<InstrumentView> all() {
        return instruments.findAllByOrderByCode().stream().map(Instrument::view).toList();
    }

    /** @throws FieldRefusal if something stated cannot be */
    public InstrumentId add(NewInstrument stated) {
        refuseIfWrong(stated, Optional.empty());
        var id = new InstrumentId(Uuids.next(clock.instant()));
        instruments.save(Instrument.of(id, stated, 0));
        changes.record("instrument", id, "added", Map.of("code", stated.code()));
        return id;
    }

    /**
     * Changes what is stated; stating again what is stored changes nothing. What the scale measures cannot change any more, since readings and checks refer to it.
     *
     * @throws FieldRefusal if something stated cannot be
     * @throws StaleVersion if somebody else changed it since {@code version}
     */
    public void change(InstrumentId id, int version, NewInstrument stated) {
        InstrumentView stored = require(id);
        if (Instrument.of(id, stated, stored.version()).view().equals(stored)) {
            return;
        }
        if (stored.version() != version) {
            throw new StaleVersion("/instruments/" + id, stored, stated);
        }
        refuseIfWrong(stated, Optional.of(stored));
        instruments.save(Instrument.of(id, stated, version));
        changes.record("instrument", id, "changed", Map.of("code", stated.code()));
    }

    private void refuseIfWrong(NewInstrument stated, Optional<InstrumentView> stored) {
        LocalDate today = businessDay.today();
        boolean taken = instruments
                .findByCode(stated.code())
                .filter(other ->
                        stored.filter(same -> same.id().equals(other.id())).isEmpty())
                .isPresent();
        Checked.named(stated.code(), stated.name(), taken, stated.quantity(), stated.unit());
        refuseIfScaleWrong(stated);
        stored.filter(old -> old.quantity() != stated.quantity()
                        || old.unit() != stated.unit()
                        || !old.gravityReference().equals(stated.gravityReference())
                        || !old.graduation().equals(stated.graduation()))
                .ifPresent(old -> {
                    throw new FieldRefusal("unit", "instruments.scale-fixed", old.code());
                });
        PlausibleRange range = PlausibleRanges.of(stated.quantity(), stated.unit());
        refuseIfRangeWrong(stated, range);
        BigDecimal widest = stated.rangeHigh()
                .orElse(range.high())
                .subtract(stated.rangeLow().orElse(range.low()))
                .multiply(QUARTER);
        Checked.number("resolution", stated.resolution(), BigDecimal.ZERO, false, widest.min(range.farOff()));
        Checked.number("permittedError", stated.permittedError(), BigDecimal.ZERO, false, widest);
        if (stated.checkIntervalDays() < 1 || stated.checkIntervalDays() > LONGEST_INTERVAL) {
            throw new FieldRefusal(
                    "checkIntervalDays", "instruments.number-outside", stated.checkIntervalDays(), 1, LONGEST_INTERVAL);
        }
        refuseIfTimesWrong(stated);
        Checked.ahead("expiresOn", stated.expiresOn(), today);
        Checked.past("purchasedOn", stated.purchasedOn(), today);
        Checked.past("retiredOn", stated.retiredOn(), today);
        stated.holder().filter(holder -> people.find(holder).isEmpty()).ifPresent(holder -> {
            throw new FieldRefusal("holder", "instruments.holder-unknown");
        });
        stated.retiredOn()
                .filter(retired ->
                        stated.purchasedOn().filter(retired::isBefore).isPresent())
                .ifPresent(retired -> {
                    throw new FieldRefusal(
                            "retiredOn",
                            "instruments.retired-before-purchase",
                            retired.toString(),
                            stated.purchasedOn().orElseThrow().toString());
                });
    }

    private static void refuseIfTimesWrong(NewInstrument stated) {
        KitTimes times = stated.times();
        if (!stated.kind().takesTime() && !times.equals(KitTimes.UNSTATED)) {
            String field = times.shakeSeconds() != null
                    ? "shakeSeconds"
                    : times.waitSeconds() != null ? "waitSeconds" : "readWithinSeconds";
            throw new FieldRefusal(field, "instruments.times-not-for-kind");
        }
        refuseIfOutside("shakeSeconds", times.shakeSeconds(), KitTimes.LONGEST_SHAKE);
        refuseIfOutside("waitSeconds", times.waitSeconds(), KitTimes.LONGEST_WAIT);
        refuseIfOutside("readWithinSeconds", times.readWithinSeconds(), KitTimes.LONGEST_WAIT);
    }

    private static void refuseIfOutside(String field, @Nullable Integer seconds, int longest) {
        if (seconds != null && (seconds < 0 || seconds > longest)) {
            throw new FieldRefusal(field, "instruments.number-outside", seconds, 0, longest);
        }
    }

    private static void refuseIfRangeWrong(NewInstrument stated, PlausibleRange plausible) {
        stated.rangeLow().ifPresent(low -> Checked.number("rangeLow", low, plausible.low(), true, plausible.high()));
        stated.rangeHigh()
                .ifPresent(high -> Checked.number("rangeHigh", high, plausible.low(), true, plausible.high()));
        stated.rangeHigh()
                .filter(high -> stated.rangeLow()
                        .filter(low -> high.compareTo(low) <= 0)
                        .isPresent())
                .ifPresent(high -> {
                    throw new FieldRefusal(
                            "rangeHigh",
                            "instruments.range-upside-down",
                            high.toPlainString(),
                            stated.rangeLow().orElseThrow().toPlainString(),
                            plausible.high().toPlainString());
                });
    }

    private static void refuseIfScaleWrong(NewInstrument stated) {
        if (!stated.kind().measures(stated.quantity())) {
            throw new FieldRefusal("quantity", "instruments.kind-measures." + stated.kind());
        }
        if (stated.compensation().isPresent() && !stated.kind().mayBeCompensated()) {
            throw new FieldRefusal("compensation", "instruments.compensation-not-for-kind");
        }
        boolean gravity = stated.unit() == MeasurementUnit.SPECIFIC_GRAVITY;
        if (gravity && stated.gravityReference().isEmpty()) {
            throw new FieldRefusal("gravityReference", "instruments.gravity-reference-missing");
        }
        if (!gravity && stated.gravityReference().isPresent()) {
            throw new FieldRefusal(
                    "gravityReference",
                    "instruments.gravity-reference-not-for-unit",
                    stated.gravityReference().orElseThrow(),
                    stated.unit().symbol());
        }
        stated.gravityReference()
                .filter(text -> GravityReference.parse(text).isEmpty())
                .ifPresent(text -> {
                    throw new FieldRefusal("gravityReference", "instruments.gravity-reference-malformed", text);
                });
        if (stated.graduation().isPresent() && stated.kind() != InstrumentKind.REFRACTOMETER) {
            throw new FieldRefusal("graduation", "instruments.graduation-only-refractometer");
        }
    }
}

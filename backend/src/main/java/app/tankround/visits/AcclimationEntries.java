package app.tankround.visits;

import app.tankround.chemistry.Acclimation;
import app.tankround.instruments.CalibrationService;
import app.tankround.instruments.InstrumentView;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.UnitConversions;
import app.tankround.units.Volume;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** How animals in a bag were brought to the water of a tank. */
@Component
class AcclimationEntries {

    static final String ACCLIMATION = "visit.acclimation";

    private static final MathContext DIGITS = new MathContext(4);

    private enum Mode {
        GROWING,
        CONSTANT
    }

    private final CalibrationService calibrations;
    private final Clock clock;

    AcclimationEntries(CalibrationService calibrations, Clock clock) {
        this.calibrations = calibrations;
        this.clock = clock;
    }

    /**
     * {@code visit.acclimation}: what the bag and the tank were, and the way that follows from it. The salinity of the tank is
     * what an instrument read at this visit that is trusted today.
     */
    Written acclimation(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        String name = body.text("name", 200);
        Salinity tank = tankSalinity(context, system);
        Volume bag = volume(body, "bag");
        Facts facts = new Facts();
        Salinity salinity = Salinity.ofPractical(0);
        if (system.kind().isSalt()) {
            BigDecimal read = body.number("salinity", "0", "300");
            WaterEntries.putScale(facts, body, read);
            salinity = WaterEntries.onScale(body, read);
        }
        Optional<BigDecimal> ammonia = body.optionalNumber("ammonia", "0", "100");
        BigDecimal hours = body.number("hours", "0", "240");
        @Nullable Double total = ammonia.map(BigDecimal::doubleValue).orElse(null);
        Mode mode = body.choice("mode", Mode.class);
        BigDecimal drops = body.number("dropsPerMl", "5", "100");
        Acclimation.Plan plan;
        try {
            plan = Acclimation.plan(
                    new Acclimation.Bag(
                            bag,
                            salinity,
                            temperature(body, "bagTemperature"),
                            body.number("bagPh", "4", "11").doubleValue(),
                            total,
                            hours.doubleValue()),
                    new Acclimation.Tank(
                            tank,
                            temperature(body, "tankTemperature"),
                            body.number("tankPh", "4", "11").doubleValue()),
                    new Acclimation.Drip(volume(body, "vessel"), mode == Mode.GROWING, drops.doubleValue()));
        } catch (OutOfRangeException refused) {
            throw new FieldRefusal(
                    "vessel",
                    "visits.acclimation.beyond",
                    text(refused.refusal().value()),
                    text(refused.refusal().low()),
                    text(refused.refusal().high()));
        }
        facts.put("name", name)
                .put("way", plan.way().name())
                .put("tankSalinity", text(tank.practical()))
                .put("bagSalinity", text(salinity.practical()))
                .put("minutes", text(plan.dripMinutes()))
                .put("added", text(plan.added()))
                .put("dropsPerSecond", text(plan.dropsPerSecond()))
                .put("ammoniaAfter", Optional.ofNullable(plan.ammoniaAfter()).map(AcclimationEntries::text));
        return new Written("acclimation/" + body.text("line", 80), Optional.of(system.id()), facts.node(), () -> () -> {
            Map<String, Object> args = new LinkedHashMap<>();
            args.put("way", plan.way().name());
            return EntryAnswer.applied("visits.acclimation." + plan.way(), args);
        });
    }

    /** Of fresh water none; else what is believed of this visit. */
    private Salinity tankSalinity(EntryContext context, WaterSystemView system) {
        if (!system.kind().isSalt()) {
            return Salinity.ofPractical(0);
        }
        List<ReadingView> here = context.desk().views(context.visit().id(), system.id(), Quantity.SALINITY);
        return here.stream()
                .filter(reading -> reading.assessment().trusted())
                .flatMap(reading -> reading.assessment().salinity().stream())
                .reduce((earlier, later) -> later)
                .map(Salinity::ofPractical)
                .orElseThrow(() -> untrusted(here.isEmpty()));
    }

    private FieldRefusal untrusted(boolean unread) {
        String others = calibrations.deciding(Quantity.SALINITY, clock.instant()).stream()
                .map(InstrumentView::code)
                .collect(Collectors.joining(", "));
        String code = unread ? "visits.acclimation.unread" : "visits.acclimation.untrusted";
        return new FieldRefusal("tankSalinity", others.isEmpty() ? code + ".none" : code, others);
    }

    private static Volume volume(EntryBody body, String field) {
        BigDecimal number = body.number(field, "0.01", "1000");
        return body.choice("unit", List.of("L", "gal")).equals("gal")
                ? Volume.ofUsGallons(number.doubleValue())
                : Volume.ofLitres(number.doubleValue());
    }

    private static Temperature temperature(EntryBody body, String field) {
        String code = body.text("temperatureUnit", 40);
        MeasurementUnit unit = MeasurementUnit.ofCode(code)
                .filter(Quantity.TEMPERATURE::allows)
                .orElseThrow(() -> new FieldRefusal("temperatureUnit", "visits.malformed", "temperatureUnit", code));
        BigDecimal typed = body.number(field, "-50", "150");
        PlausibleRanges.check(Quantity.TEMPERATURE, unit, typed).ifPresent(refused -> {
            throw new FieldRefusal(field, refused.code(), refused.args());
        });
        return Temperature.ofCelsius(
                UnitConversions.convert(typed.doubleValue(), unit, MeasurementUnit.DEGREE_CELSIUS));
    }

    private static String text(double value) {
        return new BigDecimal(value).round(DIGITS).stripTrailingZeros().toPlainString();
    }
}

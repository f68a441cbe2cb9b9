package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.instruments.SalinityScales;
import app.tankround.persistence.RecordLock;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.PlanWords;
import app.tankround.readings.DecisionId;
import app.tankround.stock.WaterBatchId;
import app.tankround.stock.WaterBatchView;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.GravityReference;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.PlausibleRanges;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Water taken out, put in and treated. */
@Component
class WaterEntries {

    private static final MathContext DIGITS = new MathContext(6, RoundingMode.HALF_EVEN);
    /** What a drum's scale may miss by; own choice. */
    private static final double ROUNDING = 1.02;

    private static final String LITRE = "L";
    private static final String US_GALLON = "gal";

    private final LowSumpAdvice sump;
    private final CorrectivePlans plans;
    private final MessageSource messages;
    private final Reliance reliance;
    private final WaterBatches batches;
    private final BusinessProfile business;
    private final RecordLock lock;

    WaterEntries(
            LowSumpAdvice sump,
            CorrectivePlans plans,
            MessageSource messages,
            Reliance reliance,
            WaterBatches batches,
            BusinessProfile business,
            RecordLock lock) {
        this.sump = sump;
        this.plans = plans;
        this.messages = messages;
        this.reliance = reliance;
        this.batches = batches;
        this.business = business;
        this.lock = lock;
    }

    /**
     * {@code visit.top-up}: whether the sump stands at its mark, and what was filled up; where it is low, what is missing
     * and what the water reads before anything is filled up.
     */
    Written topUp(EntryContext context) {
        WaterSystemView system = SystemOfVisit.require(context);
        boolean atMark = context.body().flag("atMark");
        Optional<Volume> filledUp = volume(context, "filledUp", system);
        Optional<Volume> missing = atMark ? Optional.empty() : missing(context, system);
        Optional<BigDecimal> salinity =
                atMark ? Optional.empty() : context.body().optionalNumber("salinity");
        Facts facts = new Facts()
                .put("atMark", atMark)
                .number("filledUp", filledUp.map(WaterEntries::litres))
                .number("missing", missing.map(WaterEntries::litres))
                .number("salinity", salinity);
        Optional<Salinity> found = salinity.map(value -> {
            putScale(facts, context.body(), value);
            return onScale(context.body(), value);
        });
        Optional<String> advice = missing.flatMap(volume -> found.map(read ->
                sump.of(system, volume, read, context, new PlanWords(business.unitSystem(), context.locale()))));
        boolean waiting = !atMark && filledUp.isEmpty();
        return new Written(SumpsOfVisits.field(system.id()), Optional.of(system.id()), facts.node(), () -> {
            context.desk().sumpAnswered(system.id());
            return () -> {
                Optional<String> waits = waiting ? planWaits(system.id(), context.locale()) : Optional.empty();
                String words = Stream.concat(advice.stream(), waits.stream()).collect(Collectors.joining(" "));
                return words.isEmpty()
                        ? EntryAnswer.applied()
                        : EntryAnswer.applied("visits.low-sump", Map.of("words", words));
            };
        });
    }

    private Optional<String> planWaits(WaterSystemId system, Locale locale) {
        return plans.bySystem(system).stream()
                .filter(plan -> plan.quantity() == Quantity.SALINITY && plan.open())
                .findFirst()
                .map(plan -> messages.getMessage("visits.low-sump.plan-waits", null, locale));
    }

    /** Up to half of the water: with more missing, nothing but refilling matters. */
    private static Optional<Volume> missing(EntryContext context, WaterSystemView system) {
        double most = system.netVolume().litres() / 2;
        return volume(context, "missing", system).map(volume -> {
            if (volume.litres() > most) {
                throw new FieldRefusal("missing", "visits.low-sump.too-much-missing", system.name());
            }
            return volume;
        });
    }

    /**
     * {@code visit.water-change}: out, in, the salinity of the new water and the batch that it came from, and why the water
     * was changed where nothing that may decide it was measured.
     */
    Written waterChange(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        Volume out = volume(context, "out", system)
                .orElseThrow(() -> new FieldRefusal("out", "visits.number-missing", 0, limit(system)));
        Optional<Volume> in = volume(context, "in", system);
        Optional<BigDecimal> salinity = body.optionalNumber("salinity");
        Optional<WaterBatchView> batch = body.optionalId("batch").map(this::released);
        Optional<String> because = body.optionalReason("because");
        if (because.isEmpty()) {
            batch.ifPresent(named -> requireFits(context, named, system, in.orElse(out)));
            batch.ifPresent(reliance::requireBatch);
            reliance.require(context, system.id(), Optional.of(Quantity.SALINITY));
        }
        Facts facts = new Facts()
                .number("out", Optional.of(litres(out)))
                .number("in", in.map(WaterEntries::litres))
                .number("salinity", salinity)
                .put("batch", batch.map(named -> named.id().toString()))
                .put("because", because);
        salinity.ifPresent(value -> putScale(facts, body, value));
        List<String> args = new ArrayList<>(List.of(litres(out).toPlainString(), system.name()));
        batch.ifPresent(named -> args.add(Integer.toString(named.number())));
        String code = "visits.decision.water-change" + (batch.isPresent() ? ".batch" : "");
        List<DecisionId> released =
                batch.flatMap(WaterBatchView::release).map(WaterBatchView.Release::decision).stream()
                        .toList();
        return new Written("water-change/" + system.id(), Optional.of(system.id()), facts.node(), () -> {
            context.desk()
                    .register(context.decision("water-change", code, args, system.id(), released)
                            .writtenAs(context.place("water-change/" + system.id()), List.of()));
            return EntryAnswer::applied;
        });
    }

    /** Salt water does not go where fresh water belongs, and of a batch no more than it holds. */
    private void requireFits(EntryContext context, WaterBatchView batch, WaterSystemView system, Volume taken) {
        lock.hold("water-batch " + batch.id());
        String number = Integer.toString(batch.number());
        if (batch.quantity() == Quantity.SALINITY && !system.kind().isSalt()) {
            throw new FieldRefusal("batch", "visits.batch-salt-into-fresh", number, system.name());
        }
        double left = batch.volume().litres()
                - context.desk().litresFrom(batch.id(), context.visit().id(), "water-change/" + system.id());
        if (taken.litres() > left * ROUNDING) {
            PlanWords words = new PlanWords(context.desk().settings().unitSystem(), context.locale());
            throw new FieldRefusal(
                    "batch",
                    "visits.batch-holds-less",
                    number,
                    words.volume(Math.max(0, left)),
                    words.volume(batch.volume().litres()),
                    words.volume(taken.litres()));
        }
    }

    /** A batch that somebody has let out. */
    private WaterBatchView released(UUID id) {
        WaterBatchView batch = batches.find(WaterBatchId.of(id))
                .orElseThrow(() -> new FieldRefusal("batch", "visits.batch-unknown", id.toString()));
        if (batch.release().isEmpty()) {
            throw new FieldRefusal("batch", "visits.batch-not-released", Integer.toString(batch.number()));
        }
        return batch;
    }

    private static void putScale(Facts facts, EntryBody body, BigDecimal value) {
        String code = body.text("salinityUnit", 40);
        MeasurementUnit unit = MeasurementUnit.ofCode(code)
                .filter(Quantity.SALINITY::allows)
                .orElseThrow(() -> new FieldRefusal("salinityUnit", "visits.malformed", "salinityUnit", code));
        PlausibleRanges.check(Quantity.SALINITY, unit, value).ifPresent(refused -> {
            throw new FieldRefusal("salinity", refused.code(), refused.args());
        });
        facts.put("salinityUnit", code);
        if (unit == MeasurementUnit.SPECIFIC_GRAVITY) {
            String reference = body.text("gravityReference", 40);
            if (GravityReference.parse(reference).isEmpty()) {
                throw new FieldRefusal("gravityReference", "readings.gravity-reference-malformed", reference);
            }
            facts.put("gravityReference", reference);
        }
    }

    /** @throws FieldRefusal where the scale has no salinity for it */
    private static Salinity onScale(EntryBody body, BigDecimal value) {
        MeasurementUnit unit =
                MeasurementUnit.ofCode(body.text("salinityUnit", 40)).orElseThrow();
        try {
            return Salinity.ofPractical(SalinityScales.of(unit, body.optionalText("gravityReference", 40))
                    .toSalinity(value.doubleValue())
                    .value());
        } catch (OutOfRangeException beyond) {
            throw new FieldRefusal("salinity", "visits.low-sump.salinity-beyond", value.toPlainString());
        }
    }

    /** {@code visit.socks}: how many of one size were changed. */
    Written socks(EntryContext context) {
        WaterSystemView system = SystemOfVisit.require(context);
        int size = context.body().whole("sizeMm", 10, 1000);
        int count = context.body().whole("count", 0, 1000);
        return Written.only(
                "socks/" + system.id() + "/" + size,
                Optional.of(system.id()),
                new Facts().put("count", count).put("sizeMm", size).node());
    }

    /** A volume above 0 and up to twice the system's own: more in one visit is a slip of the keyboard. */
    private static Optional<Volume> volume(EntryContext context, String field, WaterSystemView system) {
        Optional<BigDecimal> number = context.body().optionalNumber(field);
        if (number.isEmpty()) {
            return Optional.empty();
        }
        String unit = context.body().optionalText("unit", 10).orElse(LITRE);
        Volume volume = switch (unit) {
            case LITRE -> positive(field, number.get(), system, 1);
            case US_GALLON ->
                positive(field, number.get(), system, Volume.ofUsGallons(1).litres());
            default -> throw new FieldRefusal("unit", "visits.not-a-choice", unit, LITRE + ", " + US_GALLON);
        };
        return Optional.of(volume);
    }

    private static Volume positive(String field, BigDecimal number, WaterSystemView system, double litresPerUnit) {
        double litres = number.doubleValue() * litresPerUnit;
        double most = 2 * system.netVolume().litres();
        if (!(litres > 0 && litres <= most)) {
            throw new FieldRefusal(
                    field,
                    "visits.volume-out-of-range",
                    number.toPlainString(),
                    new BigDecimal(most / litresPerUnit)
                            .round(DIGITS)
                            .stripTrailingZeros()
                            .toPlainString(),
                    system.name());
        }
        return Volume.ofLitres(litres);
    }

    private static String limit(WaterSystemView system) {
        return litres(Volume.ofLitres(2 * system.netVolume().litres())).toPlainString();
    }

    private static BigDecimal litres(Volume volume) {
        return new BigDecimal(volume.litres()).round(DIGITS).stripTrailingZeros();
    }
}

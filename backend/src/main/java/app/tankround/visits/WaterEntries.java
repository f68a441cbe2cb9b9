package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.instruments.SalinityScales;
import app.tankround.plans.DoseGuard;
import app.tankround.plans.PlanWords;
import app.tankround.readings.DecisionId;
import app.tankround.readings.NewDecision;
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
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Water taken out, put in and treated. */
@Component
class WaterEntries {

    private static final MathContext DIGITS = new MathContext(6, RoundingMode.HALF_EVEN);
    private static final String LITRE = "L";
    private static final String US_GALLON = "gal";
    private static final int LONGEST_REASON = 500;

    private final DoseGuard guard;
    private final LowSumpAdvice sump;
    private final Reliance reliance;
    private final WaterBatches batches;
    private final BusinessProfile business;
    private final MessageSource messages;

    WaterEntries(
            DoseGuard guard,
            LowSumpAdvice sump,
            Reliance reliance,
            WaterBatches batches,
            BusinessProfile business,
            MessageSource messages) {
        this.guard = guard;
        this.sump = sump;
        this.reliance = reliance;
        this.batches = batches;
        this.business = business;
        this.messages = messages;
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
                sump.of(system, volume, read, context.at(), new PlanWords(business.unitSystem(), context.locale()))));
        return new Written(
                "top-up/" + system.id(),
                Optional.of(system.id()),
                facts.node(),
                () -> () -> advice.map(words -> EntryAnswer.applied("visits.low-sump", Map.of("words", words)))
                        .orElseGet(EntryAnswer::applied));
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
        Optional<String> because = body.optionalText("because", LONGEST_REASON);
        if (because.isEmpty()) {
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
            register("water-change", code, args, system.id(), context, released);
            return EntryAnswer::applied;
        });
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

    /** {@code visit.dose}: a product, how much of it, and why where it was given against the guard over doses. */
    Written dose(EntryContext context) {
        EntryBody body = context.body();
        WaterSystemView system = SystemOfVisit.require(context);
        String product = body.text("product", 200);
        BigDecimal amount = body.number("amount", "0.001", "100000");
        String unit = body.choice("unit", List.of("mL", "g"));
        Optional<String> because = body.optionalText("because", LONGEST_REASON);
        String line = body.text("line", 80);
        var dose = new DoseGuard.Dose(
                context.visit().id() + "/" + line,
                system,
                product,
                amount.doubleValue(),
                unit,
                context.at(),
                context.visit().serviceDate(),
                body.isSet("prepared"),
                because);
        List<DoseGuard.Note> mind = guard.check(dose);
        if (because.isEmpty()) {
            reliance.require(context, system.id(), DoseGuard.raises(product));
        }
        Facts facts = new Facts()
                .put("product", product)
                .number("amount", Optional.of(amount))
                .put("unit", unit)
                .put("because", because);
        List<String> args = List.of(amount.toPlainString(), unit, product, system.name());
        return new Written("dose/" + line, Optional.of(system.id()), facts.node(), () -> {
            guard.given(dose);
            register("dose", "visits.decision.dose", args, system.id(), context, List.of());
            return () -> mind.isEmpty()
                    ? EntryAnswer.applied()
                    : EntryAnswer.applied(
                            mind.getFirst().code(),
                            Map.of(
                                    "words",
                                    mind.stream()
                                            .map(note -> messages.getMessage(
                                                    note.code(), note.args().toArray(), context.locale()))
                                            .collect(Collectors.joining(" "))));
        });
    }

    /** What was measured at this visit is behind it; where nothing was, the last known salinity. */
    private static void register(
            String kind,
            String code,
            List<String> args,
            WaterSystemId system,
            EntryContext context,
            List<DecisionId> decisions) {
        VisitId visit = context.visit().id();
        context.desk()
                .register(new NewDecision(
                        kind,
                        "water-system",
                        system.value(),
                        "/visits/" + visit,
                        code,
                        args,
                        context.desk().behind(visit, system).stream()
                                .map(VisitDesks.Taken::id)
                                .toList(),
                        decisions));
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

package app.tankround.visits;

import app.tankround.accounts.BusinessProfile;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.SalinityScales;
import app.tankround.persistence.RecordLock;
import app.tankround.plans.CorrectivePlans;
import app.tankround.plans.PlanWords;
import app.tankround.readings.DecisionId;
import app.tankround.readings.NewDecision;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
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
import app.tankround.units.SockSize;
import app.tankround.units.Temperature;
import app.tankround.units.UnitConversions;
import app.tankround.units.Volume;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
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

    private static final String ONLY_MATCHED = "visits.water-change.only-matched";

    /** What the fields of a reading are called where it is the salinity of new water. */
    private static final Map<String, String> NEW_WATER_FIELDS = Map.of(
            "value", "salinity",
            "unit", "salinityUnit",
            "instrumentId", "salinityInstrument",
            "sampleTemperature", "temperature");

    private final WaterChangeGuard guard;
    private final ReadingService readings;
    private final ReadingAnswers answers;
    private final LowSumpAdvice sump;
    private final CorrectivePlans plans;
    private final MessageSource messages;
    private final Reliance reliance;
    private final WaterBatches batches;
    private final BusinessProfile business;
    private final RecordLock lock;

    WaterEntries(
            WaterChangeGuard guard,
            ReadingService readings,
            ReadingAnswers answers,
            LowSumpAdvice sump,
            CorrectivePlans plans,
            MessageSource messages,
            Reliance reliance,
            WaterBatches batches,
            BusinessProfile business,
            RecordLock lock) {
        this.guard = guard;
        this.readings = readings;
        this.answers = answers;
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
                Map<String, Object> anew = judgedAnew(context, system);
                Map<String, Object> args = new LinkedHashMap<>();
                if (!words.isEmpty()) {
                    args.put("words", words);
                }
                if (!anew.isEmpty()) {
                    args.put("readings", anew);
                }
                return EntryAnswer.applied(words.isEmpty() ? "ok" : "visits.low-sump", args);
            };
        });
    }

    /** The salinities that were read before the sump was asked about, as they are judged by now. */
    private Map<String, Object> judgedAnew(EntryContext context, WaterSystemView system) {
        Map<String, Object> anew = new LinkedHashMap<>();
        context.desk()
                .views(context.visit().id(), system.id(), Quantity.SALINITY)
                .forEach(reading ->
                        anew.put(VisitView.fieldOf(reading), answers.of(reading, Optional.empty(), context.locale())));
        return anew;
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
     * {@code visit.water-change}: out, in, salinity and temperature of the new water, what measured that salinity, the batch
     * that it came from, and why the water was changed where nothing that may decide it was measured, or where it moves the
     * tank faster than is safe.
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
        Facts facts = new Facts()
                .number("out", Optional.of(litres(out)))
                .number("in", in.map(WaterEntries::litres))
                .number("salinity", salinity)
                .put("batch", batch.map(named -> named.id().toString()))
                .put("because", because);
        salinity.ifPresent(value -> putScale(facts, body, value));
        Optional<Temperature> temperature = newTemperature(body, facts);
        Optional<ReadingView> measured = newWater(context, system, salinity, temperature, facts)
                .or(() -> batch.filter(named -> salinity.isEmpty() && named.quantity() == Quantity.SALINITY)
                        .flatMap(WaterBatchView::release)
                        .flatMap(WaterBatchView.Release::reading)
                        .map(readings::require));
        Optional<Reliance.Matched> matched = measured.flatMap(ReadingView::instrumentId)
                .flatMap(instrument -> reliance.onlyMatched(context, system.id(), instrument));
        if (because.isEmpty()) {
            batch.ifPresent(named -> requireFits(context, named, system, in.orElse(out)));
            matched.ifPresent(WaterEntries::refuseOnlyMatched);
            boolean measuredHere = salinity.isPresent();
            batch.ifPresent(named -> reliance.requireBatch(named, measuredHere));
            reliance.requireKnown(context, system);
            reliance.require(context, system.id(), Optional.of(Quantity.SALINITY));
            measured.filter(reading -> salinity.isPresent())
                    .flatMap(ReadingView::instrumentId)
                    .ifPresent(instrument -> reliance.requireDecides(context, instrument));
        }
        var change = new WaterChangeGuard.Change(
                system,
                out,
                in.orElse(out),
                measured.flatMap(reading -> reading.assessment().salinity())
                        .map(Salinity::ofPractical)
                        .or(() -> salinity.map(value -> onScale(body, value))),
                temperature);
        boolean unnamed = salinity.isPresent() && measured.isEmpty() && batch.isEmpty();
        String field = "water-change/" + system.id();
        boolean corrects = context.desk().current(context.visit().id(), field).isPresent();
        List<String> args = new ArrayList<>(List.of(litres(out).toPlainString(), system.name()));
        batch.ifPresent(named -> args.add(Integer.toString(named.number())));
        String code = "visits.decision.water-change" + (batch.isPresent() ? ".batch" : "");
        List<DecisionId> released =
                batch.flatMap(WaterBatchView::release).map(WaterBatchView.Release::decision).stream()
                        .toList();
        // What the batch was measured with is behind its release.
        List<NewDecision.Measured> newWater = measured
                .filter(reading -> salinity.isPresent())
                .flatMap(ReadingView::instrumentId)
                .map(instrument -> new NewDecision.Measured(instrument, context.at()))
                .stream()
                .toList();
        return new Written(field, Optional.of(system.id()), facts.node(), () -> {
            context.desk()
                    .register(context.decision("water-change", code, args, system.id(), released)
                            .writtenAs(context.place(field), List.of())
                            .withMeasured(newWater));
            // What the tank was is known only once the readings on the desk are assessed.
            return () -> changed(context, change, because, matched, corrects, unnamed);
        });
    }

    private EntryAnswer changed(
            EntryContext context,
            WaterChangeGuard.Change change,
            Optional<String> because,
            Optional<Reliance.Matched> matched,
            boolean corrects,
            boolean unnamed) {
        List<WaterChangeGuard.Against> against = new ArrayList<>(guard.against(context, change));
        matched.map(same -> new WaterChangeGuard.Against(ONLY_MATCHED + "." + same.why(), List.of(same.instrument())))
                .ifPresent(against::addFirst);
        if (!against.isEmpty() && because.isEmpty()) {
            throw new FieldRefusal(
                    "because",
                    against.getFirst().code(),
                    against.getFirst().args().toArray());
        }
        if (corrects) {
            guard.corrected(context, change.system());
        }
        List<WaterChangeGuard.Against> told = new ArrayList<>();
        if (!against.isEmpty()) {
            String why = because.orElseThrow();
            guard.tell(context, change.system(), against.getFirst(), why);
            against.forEach(each -> told.add(each.done(why)));
            told.addFirst(new WaterChangeGuard.Against("visits.water-change.given-against", List.of()));
        }
        if (unnamed) {
            told.add(new WaterChangeGuard.Against("visits.water-change.unnamed", List.of()));
        }
        return told.isEmpty()
                ? EntryAnswer.applied()
                : EntryAnswer.applied(
                        told.getFirst().code(),
                        Map.of(
                                "words",
                                told.stream()
                                        .map(each -> messages.getMessage(
                                                each.code(), each.args().toArray(), context.locale()))
                                        .collect(Collectors.joining(" "))));
    }

    private static void refuseOnlyMatched(Reliance.Matched matched) {
        throw new FieldRefusal("because", ONLY_MATCHED + "." + matched.why(), matched.instrument());
    }

    private static Optional<Temperature> newTemperature(EntryBody body, Facts facts) {
        Optional<BigDecimal> typed = body.optionalNumber("temperature");
        typed.ifPresent(value -> facts.number("temperature", typed));
        return typed.map(value -> {
            String code = body.text("temperatureUnit", 40);
            MeasurementUnit unit = MeasurementUnit.ofCode(code)
                    .filter(Quantity.TEMPERATURE::allows)
                    .orElseThrow(
                            () -> new FieldRefusal("temperatureUnit", "visits.malformed", "temperatureUnit", code));
            PlausibleRanges.check(Quantity.TEMPERATURE, unit, value).ifPresent(refused -> {
                throw new FieldRefusal("temperature", refused.code(), refused.args());
            });
            facts.put("temperatureUnit", code);
            return Temperature.ofCelsius(
                    UnitConversions.convert(value.doubleValue(), unit, MeasurementUnit.DEGREE_CELSIUS));
        });
    }

    /** The salinity of the new water, judged by the instrument that was named for it. */
    private Optional<ReadingView> newWater(
            EntryContext context,
            WaterSystemView system,
            Optional<BigDecimal> salinity,
            Optional<Temperature> temperature,
            Facts facts) {
        EntryBody body = context.body();
        Optional<InstrumentId> instrument =
                body.optionalId("salinityInstrument").map(InstrumentId::of);
        if (salinity.isEmpty() || instrument.isEmpty()) {
            return Optional.empty();
        }
        facts.put("salinityInstrument", instrument.get().value());
        NewReading stated = NewReading.of(
                        ReadingId.of(context.entry().id()),
                        system.id(),
                        Quantity.SALINITY,
                        salinity.get(),
                        MeasurementUnit.ofCode(body.text("salinityUnit", 40)).orElseThrow(),
                        context.at(),
                        context.author())
                .withInstrument(instrument.get());
        stated = body.optionalText("gravityReference", 40)
                .map(stated::withGravityReference)
                .orElse(stated);
        stated = temperature
                .map(warm -> BigDecimal.valueOf(warm.celsius()).setScale(1, RoundingMode.HALF_EVEN))
                .map(stated::withSampleTemperature)
                .orElse(stated);
        try {
            return Optional.of(readings.judged(stated));
        } catch (FieldRefusal refused) {
            throw new FieldRefusal(
                    NEW_WATER_FIELDS.getOrDefault(refused.field(), refused.field()),
                    refused.code(),
                    refused.args().toArray());
        }
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

    static void putScale(Facts facts, EntryBody body, BigDecimal value) {
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
    static Salinity onScale(EntryBody body, BigDecimal value) {
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
        SockSize size = SockFacts.size(context.body());
        int count = context.body().whole("count", 0, 1000);
        return Written.only(
                "socks/" + system.id() + "/" + size.code(),
                Optional.of(system.id()),
                SockFacts.put(size, new Facts().put("count", count)).node());
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

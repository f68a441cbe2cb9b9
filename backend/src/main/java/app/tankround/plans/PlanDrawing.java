package app.tankround.plans;

import app.tankround.chemistry.AmmoniaOnRise;
import app.tankround.chemistry.CorrectivePlan;
import app.tankround.chemistry.CorrectivePlan.Carry;
import app.tankround.chemistry.CorrectivePlan.Daily;
import app.tankround.chemistry.PlanMeans;
import app.tankround.chemistry.PlanOrder;
import app.tankround.chemistry.Salt;
import app.tankround.plans.PlanView.PlanCaution;
import app.tankround.plans.PlanView.PlanStep;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Alkalinity;
import app.tankround.units.Mass;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;

/**
 * Draws the steps of a plan: what chemistry works out, put on the days of visits, with the ammonia that each step sets
 * free. Calculates only.
 *
 * @param plan what was worked out
 * @param steps on the visits
 * @param cautions those that stop come first
 */
record PlanDrawing(CorrectivePlan plan, List<PlanStep> steps, List<PlanCaution> cautions) {

    /** Where nobody measured the temperature; own choice. */
    static final double USUAL_CELSIUS = 25;

    private static final double SOFT_DKH = 2;
    private static final double LOW_PH = 6.8;
    private static final double TAP_PH = 8;
    /** Salt water below these is old; own choice beneath the usual targets of 7 dKH and pH 7.9. */
    private static final double LOW_DKH_SALT = 5;

    private static final double LOW_PH_SALT = 7.8;
    /** Of freshly mixed salt water: common practice, no source. */
    private static final double MIXED_PH = 8.2;

    private static final double ROUNDING = 1.02;

    /**
     * What a plan is drawn from.
     *
     * @param saltYield of the salt mix
     * @param known newest believed numbers in the units of plans
     * @param ammonia the most that the newest reading of total ammonia may mean; empty if it was never measured
     * @param agreed what the doses bring that are agreed for the visits anyway
     */
    record Terms(
            WaterSystemView system,
            Quantity quantity,
            double to,
            double perDay,
            Optional<Salt> salt,
            double purity,
            double newWater,
            double addedPerDay,
            double usedPerDay,
            double carryLitres,
            double carryKilograms,
            double saltYield,
            Map<Quantity, Double> known,
            Optional<Double> ammonia,
            Function<PlannedVisitView, DailyRise.Agreed> agreed) {

        double temperature() {
            return known.getOrDefault(Quantity.TEMPERATURE, USUAL_CELSIUS);
        }

        double salinity() {
            return known.getOrDefault(Quantity.SALINITY, system.kind().isSalt() ? 35.0 : 0.0);
        }
    }

    /**
     * @param from value on {@code readOn}
     * @param visits still to be done, by day
     * @param earliest no step lies before this day; an overdue visit is done on it
     * @throws OutOfRangeException where the means do not lead to the target
     */
    static PlanDrawing draw(
            Terms terms, double from, LocalDate readOn, List<PlannedVisitView> visits, LocalDate earliest) {
        List<Integer> days = visits.stream()
                .map(visit -> (int) ChronoUnit.DAYS.between(readOn, on(visit, earliest)))
                .toList();
        PlanMeans means = means(terms, from, visits);
        CorrectivePlan plan = CorrectivePlan.fit(
                terms.quantity(),
                from,
                terms.to(),
                terms.perDay(),
                means,
                new Carry(Volume.ofLitres(terms.carryLitres()), Mass.ofKilograms(terms.carryKilograms())),
                new Daily(terms.addedPerDay(), terms.usedPerDay()),
                days);
        boolean raisesPh =
                terms.to() > from && (terms.quantity() == Quantity.PH || terms.quantity() == Quantity.ALKALINITY);
        List<PlanStep> steps = new ArrayList<>();
        List<PlanCaution> cautions = new ArrayList<>();
        List<AmmoniaOnRise> forbidden = new ArrayList<>();
        boolean unknown = false;
        boolean agreedTooMuch = false;
        boolean dosedTooMuch = false;
        Set<String> uncounted = new TreeSet<>();
        for (CorrectivePlan.Step step : plan.steps()) {
            PlannedVisitView visit = visits.get(step.visit());
            agreedTooMuch |=
                    changesTooMuch(step, means, PlanVisits.changedLitres(visit, terms.system()), terms.perDay());
            DailyRise.Agreed agreed =
                    means instanceof PlanMeans.Supplement ? terms.agreed().apply(visit) : DailyRise.Agreed.NOTHING;
            uncounted.addAll(agreed.uncounted());
            dosedTooMuch |= agreed.rise() > terms.perDay() * ROUNDING;
            // What is agreed anyway is a part of the step, so that both together are no more than it.
            double left = 1 - Math.min(1, agreed.rise() / (step.after() - step.before()));
            Optional<AmmoniaOnRise> rise = raisesPh ? rise(terms, from, step) : Optional.empty();
            unknown |= raisesPh && rise.isEmpty();
            rise.filter(risen -> RisingPh.forbids(risen, terms.ammonia().orElse(0.0)))
                    .ifPresent(forbidden::add);
            steps.add(new PlanStep(
                    visit.id(),
                    on(visit, earliest),
                    step.before(),
                    step.after(),
                    step.limit().map(Enum::name),
                    step.product().kilograms() * left,
                    step.water().litres(),
                    step.newWater(),
                    rise.map(AmmoniaOnRise::phAfter),
                    rise.map(harmless -> harmless.after().milligramsPerLitre()),
                    agreed.rise()));
        }
        // Each step has a pH of its own; what the highest of them bears is the limit.
        forbidden.stream()
                .max(Comparator.comparingDouble(AmmoniaOnRise::phAfter))
                .ifPresent(highest -> cautions.add(new PlanCaution(
                        "AMMONIA_FIRST",
                        List.of(
                                text(highest.phAfter()),
                                text(highest.after().milligramsPerLitre()),
                                text(Math.min(
                                        RisingPh.MUCH_AMMONIA,
                                        highest.bearableTotal().milligramsPerLitre()))))));
        if (unknown) {
            cautions.add(new PlanCaution("AMMONIA_UNKNOWN", List.of()));
        }
        oldSystem(terms).ifPresent(cautions::add);
        if (agreedTooMuch) {
            cautions.add(new PlanCaution("AGREED_CHANGES_MORE", List.of()));
        }
        if (dosedTooMuch) {
            cautions.add(new PlanCaution("AGREED_DOSES_MORE", List.of()));
        }
        uncounted.forEach(product -> cautions.add(new PlanCaution("AGREED_DOSE_UNCOUNTED", List.of(product))));
        unknownFirst(terms).forEach(quantity -> cautions.add(new PlanCaution("FIRST_UNKNOWN_" + quantity, List.of())));
        plan.cautions().forEach(caution -> cautions.add(new PlanCaution(caution.name(), List.of())));
        return new PlanDrawing(plan, steps, cautions);
    }

    boolean ammoniaFirst() {
        return PlanView.ammoniaFirst(cautions);
    }

    /** Whether the water change that is agreed anyway brings more than a day may. */
    private static boolean changesTooMuch(
            CorrectivePlan.Step step, PlanMeans means, double agreedLitres, double perDay) {
        if (!(means instanceof PlanMeans.Exchange exchange)) {
            return false;
        }
        double share = agreedLitres / exchange.held().litres();
        return share * Math.abs(exchange.newWater() - step.before()) > perDay * ROUNDING;
    }

    /** What should be right before this quantity is corrected, and of which nobody knows whether it is. */
    private static List<Quantity> unknownFirst(Terms terms) {
        boolean salt = terms.system().kind().isSalt();
        return PlanOrder.before(terms.quantity()).stream()
                .filter(earlier -> salt || earlier == Quantity.ALKALINITY)
                .filter(earlier -> !terms.known().containsKey(earlier))
                .toList();
    }

    private static LocalDate on(PlannedVisitView visit, LocalDate earliest) {
        return visit.dueOn().isBefore(earliest) ? earliest : visit.dueOn();
    }

    private static PlanMeans means(Terms terms, double from, List<PlannedVisitView> visits) {
        Volume held = terms.system().netVolume();
        Temperature temperature = Temperature.ofCelsius(terms.temperature());
        return switch (terms.quantity()) {
            case SALINITY ->
                new PlanMeans.SaltWaterExchange(
                        held,
                        temperature,
                        terms.saltYield(),
                        visits.stream()
                                .map(visit -> Volume.ofLitres(PlanVisits.changedLitres(visit, terms.system())))
                                .toList());
            case PH, TEMPERATURE -> new PlanMeans.Adjustment();
            default ->
                terms.to() > from && terms.salt().isPresent()
                        ? new PlanMeans.Supplement(terms.salt().get(), terms.purity(), held)
                        : new PlanMeans.Exchange(
                                held, terms.newWater(), Salinity.ofPractical(terms.salinity()), temperature);
        };
    }

    /** Empty where ammonia, pH or temperature is not known, or no formula covers the water. */
    private static Optional<AmmoniaOnRise> rise(Terms terms, double from, CorrectivePlan.Step step) {
        if (terms.ammonia().isEmpty() || !terms.known().containsKey(Quantity.TEMPERATURE)) {
            return Optional.empty();
        }
        Optional<Double> known = Optional.ofNullable(terms.known().get(Quantity.PH));
        try {
            return known.map(now -> {
                double ph = terms.quantity() == Quantity.PH ? from : now;
                double after = terms.quantity() == Quantity.PH
                        ? step.after()
                        : AmmoniaOnRise.phWithAlkalinity(ph, Alkalinity.ofDkh(from), Alkalinity.ofDkh(step.after()));
                return ammonia(terms, ph, after);
            });
        } catch (OutOfRangeException beyond) {
            return Optional.empty();
        }
    }

    private static AmmoniaOnRise ammonia(Terms terms, double ph, double after) {
        return AmmoniaOnRise.of(
                MassConcentration.ofMilligramsPerLitre(terms.ammonia().orElse(0.0)),
                ph,
                after,
                Temperature.ofCelsius(terms.temperature()),
                Salinity.ofPractical(terms.salinity()));
    }

    /** Low pH or alkalinity that hides ammonia: a large change with new water sets it free. */
    private static Optional<PlanCaution> oldSystem(Terms terms) {
        boolean salt = terms.system().kind().isSalt();
        Optional<Double> ph = Optional.ofNullable(terms.known().get(Quantity.PH));
        Optional<Double> alkalinity = Optional.ofNullable(terms.known().get(Quantity.ALKALINITY));
        boolean low = ph.filter(value -> value < (salt ? LOW_PH_SALT : LOW_PH)).isPresent()
                || alkalinity
                        .filter(value -> value < (salt ? LOW_DKH_SALT : SOFT_DKH))
                        .isPresent();
        double total = terms.ammonia().orElse(0.0);
        double newPh = salt ? MIXED_PH : TAP_PH;
        if (!low || total < RisingPh.NOTICEABLE_AMMONIA || ph.orElse(0.0) >= newPh) {
            return Optional.empty();
        }
        PlanCaution unknown = new PlanCaution("OLD_SYSTEM_UNKNOWN", List.of(text(total)));
        if (ph.isEmpty() || !terms.known().containsKey(Quantity.TEMPERATURE)) {
            return Optional.of(unknown);
        }
        try {
            AmmoniaOnRise rise = ammonia(terms, ph.get(), newPh);
            return Optional.of(new PlanCaution(
                    "OLD_SYSTEM",
                    List.of(
                            text(total),
                            text(rise.before().milligramsPerLitre()),
                            text(rise.after().milligramsPerLitre()),
                            text(newPh))));
        } catch (OutOfRangeException beyond) {
            return Optional.of(unknown);
        }
    }

    /** Two significant digits, or as many decimals as pH has. */
    private static String text(double value) {
        MathContext digits = new MathContext(value >= 1 ? 3 : 2);
        return new BigDecimal(value).round(digits).stripTrailingZeros().toPlainString();
    }
}

package app.tankround.chemistry;

import app.tankround.units.InputKind;
import app.tankround.units.Mass;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Ranges;
import app.tankround.units.Volume;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * The way of one quantity from what it is to what it should be: a step at each coming visit, none larger than one day may
 * bring nor than a visit can carry, all by the net volume. Where the safe rate limits them the steps are equal.
 *
 * <p>Units: salinity as practical salinity, alkalinity in dKH, calcium, magnesium, nitrate and phosphate in mg/L,
 * temperature in degrees Celsius, pH as it is. How large a step is safe is for a person to say, and is an argument.
 *
 * @param perDay largest change in one day
 * @param steps with what is brought for each; empty if there is nothing to change or nothing that can be done
 * @param reached whether the visits suffice
 * @param visitsNeeded how many visits do, at the rhythm of those given (or weekly); empty if no number does
 * @param carryNeeded the smallest carry with which the given visits do, where it is the carry that holds the plan up
 * @param cautions in the order in which they matter
 */
public record CorrectivePlan(
        Quantity quantity,
        double from,
        double to,
        double perDay,
        List<Step> steps,
        boolean reached,
        OptionalInt visitsNeeded,
        Optional<Carry> carryNeeded,
        List<Caution> cautions) {

    /** Largest share of the water exchanged in one step: half. Own choice. */
    public static final double LARGEST_SHARE = 0.5;

    /** Salinity of the saltiest water that is mixed for a step. */
    public static final double SALTIEST_NEW_WATER = 45;

    private static final int MOST_VISITS = 500;
    private static final int WEEK = 7;
    private static final double LARGEST_FACTOR = 1024;
    private static final double ROUNDING = 1e-9;

    public CorrectivePlan {
        steps = List.copyOf(steps);
        cautions = List.copyOf(cautions);
    }

    /**
     * What one visit can bring for a plan.
     *
     * @param water litres of new water
     * @param mass of new water and product together
     */
    public record Carry(Volume water, Mass mass) {

        /** How much of a volume one visit exchanges, half at most. */
        Volume exchanged(Volume held, double kilogramsPerLitre) {
            double byMass = mass.kilograms() / kilogramsPerLitre;
            double byVolume = Math.min(water.litres(), held.litres() * LARGEST_SHARE);
            return new Volume(Math.min(byMass, byVolume));
        }

        Carry times(double factor) {
            return new Carry(new Volume(water.litres() * factor), new Mass(mass.kilograms() * factor));
        }
    }

    /**
     * What happens every day besides the plan, in the plan's unit per day.
     *
     * @param added by dosing pumps, reactors and limewater
     * @param used by animals and plants; 0 if nobody knows
     */
    public record Daily(double added, double used) {

        /** Nothing is added and nothing used. */
        public static final Daily NOTHING = new Daily(0, 0);

        public Daily {
            Ranges.requireNotNegative(InputKind.READING, added);
            Ranges.requireNotNegative(InputKind.READING, used);
        }

        double net() {
            return added - used;
        }
    }

    /** What holds a step down. */
    public enum Limit {
        /** The safe change of one day. */
        RATE,
        /** What a visit can bring. */
        CARRY
    }

    /** What whoever follows the plan has to know. */
    public enum Caution {
        /** What is added and used every day changes the water faster than the safe rate by itself. */
        DAILY_ALONE_TOO_FAST,
        /** What is added or used every day would carry the water beyond the target. */
        DAILY_PASSES_TARGET,
        /** New water is mixed to the tank's real salinity and moved from there; dry salt never goes into the tank. */
        MATCH_THEN_RAMP,
        /** Alkalinity and calcium are never poured together. */
        NEVER_TOGETHER,
        /** The salt heats strongly when dissolved: powder into water, in small lots. */
        HEATS_WHEN_DISSOLVED,
        /** Not chased with buffer: alkalinity, gas exchange and the carbon dioxide of the room come first. */
        CAUSE_NOT_BUFFER,
        /** What makes nitrate or phosphate goes on making it. */
        CAUSE_REMAINS
    }

    /**
     * What is done at one visit.
     *
     * @param visit which of the given visits, from 0
     * @param day its day
     * @param before expected when the visit begins
     * @param after what the step brings it to
     * @param limit what keeps it from being larger; empty if nothing does
     * @param product mass of the supplement, or of the salt mix in the new water
     * @param water volume to take out and to replace
     * @param newWater the quantity in the new water; empty where no water is exchanged
     */
    public record Step(
            int visit,
            int day,
            double before,
            double after,
            Optional<Limit> limit,
            Mass product,
            Volume water,
            Optional<Double> newWater) {}

    /**
     * Fits a plan to visits.
     *
     * @param perDay largest change in one day, above 0
     * @param visitDays days of the visits, counted from the day of the reading (0) and rising; of two visits on one day the
     *     second brings nothing
     * @throws OutOfRangeException for a value that cannot be, and with {@code UNREACHABLE} if the means move the quantity
     *     the other way or not as far
     * @throws IllegalArgumentException for means that do not move this quantity at all
     */
    public static CorrectivePlan fit(
            Quantity quantity,
            double from,
            double to,
            double perDay,
            PlanMeans means,
            Carry carry,
            Daily daily,
            List<Integer> visitDays) {
        double lowest = quantity == Quantity.PH ? 4 : quantity == Quantity.TEMPERATURE ? -2 : 0;
        Way way = way(quantity, kind(quantity), lowest, highest(quantity), from, to, perDay, means, daily);
        Walk walk = way.walk(from, carry, visitDays);
        List<Integer> longer = longer(visitDays);
        Walk unlimited = walk.reached ? walk : way.walk(from, carry, longer);
        OptionalInt needed = unlimited.reached
                ? OptionalInt.of(unlimited.steps.isEmpty() ? 0 : unlimited.steps.getLast().visit + 1)
                : OptionalInt.empty();
        Optional<Carry> carryNeeded =
                walk.reached || visitDays.isEmpty() ? Optional.empty() : way.carryNeeded(from, carry, visitDays);
        return new CorrectivePlan(
                quantity, from, to, perDay, walk.steps, walk.reached, needed, carryNeeded, way.cautions(walk));
    }

    /**
     * The steps of {@link #fit} for salinity alone, where nothing is added or used: all that a browser is sent of plans.
     *
     * @throws OutOfRangeException as there
     */
    public static List<Step> salinitySteps(
            double from,
            double to,
            double perDay,
            PlanMeans.SaltWaterExchange means,
            Carry carry,
            List<Integer> visitDays) {
        return way(
                        Quantity.SALINITY,
                        InputKind.PRACTICAL_SALINITY,
                        0,
                        SALTIEST_NEW_WATER,
                        from,
                        to,
                        perDay,
                        means,
                        Daily.NOTHING)
                .walk(from, carry, visitDays)
                .steps();
    }

    private static Way way(
            Quantity quantity,
            InputKind kind,
            double lowest,
            double highest,
            double from,
            double to,
            double perDay,
            PlanMeans means,
            Daily daily) {
        Ranges.require(kind, from, lowest, highest);
        Ranges.require(kind, to, lowest, highest);
        Ranges.require(kind, perDay, Double.MIN_NORMAL, highest);
        if (from != to) {
            means.requireReaching(quantity, from, to);
        }
        return new Way(quantity, to, perDay, means, daily, to > from);
    }

    private static List<Integer> longer(List<Integer> visitDays) {
        int every = WEEK;
        if (visitDays.size() > 1) {
            double span = visitDays.getLast() - visitDays.getFirst();
            double intervals = visitDays.size() - 1;
            every = Math.max(1, (int) Math.ceil(span / intervals - ROUNDING));
        }
        List<Integer> longer = new ArrayList<>(visitDays);
        int next = visitDays.isEmpty() ? every : visitDays.getLast() + every;
        while (longer.size() < MOST_VISITS) {
            longer.add(next);
            next += every;
        }
        return longer;
    }

    static InputKind kind(Quantity quantity) {
        return switch (quantity) {
            case SALINITY -> InputKind.PRACTICAL_SALINITY;
            case ALKALINITY -> InputKind.ALKALINITY;
            case CALCIUM, MAGNESIUM, NITRATE, PHOSPHATE -> InputKind.MASS_CONCENTRATION;
            case PH -> InputKind.PH;
            case TEMPERATURE -> InputKind.TEMPERATURE;
            default -> throw new IllegalArgumentException("There is no plan for " + quantity);
        };
    }

    private static double highest(Quantity quantity) {
        return switch (quantity) {
            case SALINITY -> SALTIEST_NEW_WATER;
            case ALKALINITY -> 50;
            case PH -> 11;
            case TEMPERATURE -> 40;
            default -> 10_000;
        };
    }

    private record Walk(List<Step> steps, boolean reached, boolean passed) {}

    private record Way(Quantity quantity, double to, double perDay, PlanMeans means, Daily daily, boolean raising) {

        private Walk walk(double from, Carry carry, List<Integer> visitDays) {
            List<Step> steps = new ArrayList<>();
            double now = from;
            int today = 0;
            int last = -1;
            boolean passed = false;
            double budget = budget();
            for (int visit = 0; visit < visitDays.size(); visit++) {
                int day = visitDays.get(visit);
                if (day == last) {
                    continue;
                }
                double drifted = now + daily.net() * (day - today);
                if (left(now) > 0 && left(drifted) < 0) {
                    passed = true;
                    drifted = to;
                }
                now = Math.max(0, drifted);
                today = day;
                last = day;
                double left = left(now);
                if (left <= ROUNDING) {
                    return new Walk(steps, true, passed);
                }
                double most = means.most(quantity, visit, now, raising, carry);
                double largest = Math.min(budget, most);
                if (largest <= ROUNDING) {
                    return new Walk(steps, false, passed);
                }
                double count = Math.ceil(left / largest - ROUNDING);
                // What a visit can carry is used whole: a smaller step would only take more visits.
                double change = most < budget ? Math.min(left, most) : left / count;
                double after = count == 1 ? to : raising ? now + change : now - change;
                Optional<Limit> limit =
                        count == 1 ? Optional.empty() : Optional.of(most < budget ? Limit.CARRY : Limit.RATE);
                PlanMeans.Portion portion = means.portion(quantity, visit, now, after, carry);
                steps.add(new Step(
                        visit, day, now, after, limit, portion.product(), portion.water(), portion.newWater()));
                now = after;
            }
            return new Walk(steps, left(now) <= ROUNDING, passed);
        }

        /** What is still missing in the direction of the plan. */
        private double left(double now) {
            return raising ? to - now : now - to;
        }

        /** What is left of the safe rate once what happens every day has taken its part. */
        private double budget() {
            double drift = raising ? daily.net() : -daily.net();
            return perDay - Math.max(0, drift);
        }

        private Optional<Carry> carryNeeded(double from, Carry carry, List<Integer> visitDays) {
            double enough = 1;
            while (!walk(from, carry.times(enough), visitDays).reached) {
                enough *= 2;
                if (enough > LARGEST_FACTOR) {
                    return Optional.empty();
                }
            }
            double factor = Bisection.whereRises(
                    tried -> walk(from, carry.times(tried), visitDays).reached ? 1 : 0, 1, enough / 2, enough);
            return Optional.of(carry.times(factor));
        }

        private List<Caution> cautions(Walk walk) {
            List<Caution> cautions = new ArrayList<>();
            if (budget() <= ROUNDING) {
                cautions.add(Caution.DAILY_ALONE_TOO_FAST);
            }
            if (walk.passed) {
                cautions.add(Caution.DAILY_PASSES_TARGET);
            }
            if (quantity == Quantity.SALINITY) {
                cautions.add(Caution.MATCH_THEN_RAMP);
            }
            cautions.addAll(means.cautions(quantity));
            if (quantity == Quantity.PH) {
                cautions.add(Caution.CAUSE_NOT_BUFFER);
            }
            if (quantity == Quantity.NITRATE || quantity == Quantity.PHOSPHATE) {
                cautions.add(Caution.CAUSE_REMAINS);
            }
            return cautions;
        }
    }
}

package app.tankround.chemistry;

import app.tankround.chemistry.CorrectivePlan.Carry;
import app.tankround.chemistry.CorrectivePlan.Caution;
import app.tankround.units.Alkalinity;
import app.tankround.units.InputKind;
import app.tankround.units.Mass;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Ranges;
import app.tankround.units.RefusalCode;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How a {@link CorrectivePlan} moves a quantity. Each says for itself what a visit can bring by it, so that a browser is sent
 * only the arithmetic of those that it uses.
 */
public sealed interface PlanMeans {

    /**
     * What is brought for one step.
     *
     * @param product mass of the supplement, or of the salt mix in the new water
     * @param water volume to take out and to replace
     * @param newWater the quantity in the new water; empty where no water is exchanged
     */
    record Portion(Mass product, Volume water, Optional<Double> newWater) {

        static final Portion NOTHING = new Portion(new Mass(0), new Volume(0), Optional.empty());
    }

    /**
     * Refuses what can never bring a quantity from one value to another.
     *
     * @throws OutOfRangeException for a value that cannot be, and with {@code UNREACHABLE} if these move the quantity the
     *     other way or not as far
     * @throws IllegalArgumentException if they do not move this quantity at all
     */
    void requireReaching(Quantity quantity, double from, double to);

    /**
     * The largest change that one visit can bring, in the plan's unit.
     *
     * @param visit which of the given visits, from 0
     * @param now before it
     * @param raising whether the quantity is raised
     */
    double most(Quantity quantity, int visit, double now, boolean raising, Carry carry);

    /** What is brought to a visit for a step that it can carry. */
    Portion portion(Quantity quantity, int visit, double before, double after, Carry carry);

    /** What whoever uses these has to know. */
    default List<Caution> cautions(Quantity quantity) {
        return List.of();
    }

    /**
     * A salt, dissolved outside and given slowly.
     *
     * @param purity share of the salt in the product by mass, above 0 to 1
     * @param held net volume
     */
    record Supplement(Salt salt, double purity, Volume held) implements PlanMeans {

        @Override
        public void requireReaching(Quantity quantity, double from, double to) {
            if (salt.raises() != raised(quantity)) {
                throw new IllegalArgumentException(salt + " does not raise " + quantity);
            }
            Ranges.require(InputKind.FRACTION, purity, Double.MIN_NORMAL, 1);
            if (to < from) {
                throw new OutOfRangeException(
                        RefusalCode.UNREACHABLE, CorrectivePlan.kind(quantity), to, from, Double.POSITIVE_INFINITY);
            }
        }

        private static Salt.Raises raised(Quantity quantity) {
            return switch (quantity) {
                case ALKALINITY -> Salt.Raises.ALKALINITY;
                case CALCIUM -> Salt.Raises.CALCIUM;
                case MAGNESIUM -> Salt.Raises.MAGNESIUM;
                default -> throw new IllegalArgumentException("No salt raises " + quantity);
            };
        }

        @Override
        public double most(Quantity quantity, int visit, double now, boolean raising, Carry carry) {
            double perUnit = product(quantity, now, now + 1).kilograms();
            return carry.mass().kilograms() / perUnit;
        }

        @Override
        public Portion portion(Quantity quantity, int visit, double before, double after, Carry carry) {
            return new Portion(product(quantity, before, after), new Volume(0), Optional.empty());
        }

        private Mass product(Quantity quantity, double before, double after) {
            return quantity == Quantity.ALKALINITY
                    ? SupplementDose.forAlkalinity(
                            salt, held, Alkalinity.ofDkh(before), Alkalinity.ofDkh(after), purity)
                    : SupplementDose.forMetal(
                            salt, held, new MassConcentration(before), new MassConcentration(after), purity);
        }

        @Override
        public List<Caution> cautions(Quantity quantity) {
            List<Caution> cautions = new ArrayList<>();
            if (quantity != Quantity.MAGNESIUM) {
                cautions.add(Caution.NEVER_TOGETHER);
            }
            if (salt.heatsWhenDissolved()) {
                cautions.add(Caution.HEATS_WHEN_DISSOLVED);
            }
            return cautions;
        }
    }

    /**
     * Water taken out and replaced by as much new water, matched to the tank in salinity and temperature.
     *
     * @param held net volume
     * @param newWater the quantity in the new water, in the plan's unit
     * @param salinity of both waters, which decides what the new water weighs
     * @param temperature likewise
     */
    record Exchange(Volume held, double newWater, Salinity salinity, Temperature temperature) implements PlanMeans {

        @Override
        public void requireReaching(Quantity quantity, double from, double to) {
            InputKind kind = CorrectivePlan.kind(quantity);
            Ranges.requireNotNegative(kind, newWater);
            boolean beyond = to > from ? newWater > to : newWater < to;
            if (!beyond) {
                throw new OutOfRangeException(
                        RefusalCode.UNREACHABLE, kind, to, Math.min(from, newWater), Math.max(from, newWater));
            }
        }

        @Override
        public double most(Quantity quantity, int visit, double now, boolean raising, Carry carry) {
            double litre = SaltWater.mass(new Volume(1), salinity, temperature).kilograms();
            double share = carry.exchanged(held, litre).litres() / held.litres();
            return share * Math.abs(newWater - now);
        }

        @Override
        public Portion portion(Quantity quantity, int visit, double before, double after, Carry carry) {
            double wanted = Math.abs(after - before);
            double all = Math.abs(newWater - before);
            Volume water = new Volume(held.litres() * wanted / all);
            return new Portion(new Mass(0), water, Optional.of(newWater));
        }
    }

    /**
     * Water taken out and replaced by as much water mixed for that step: never saltier or fresher than the step asks for.
     *
     * @param held net volume
     * @param temperature at which volumes are measured
     * @param yield grams of anhydrous salt per gram of salt mix, 0.5 to 1
     * @param agreed what is changed at each visit anyway, in their order; at visits beyond these as much as at the last
     */
    record SaltWaterExchange(Volume held, Temperature temperature, double yield, List<Volume> agreed)
            implements PlanMeans {

        public SaltWaterExchange {
            agreed = List.copyOf(agreed);
        }

        @Override
        public void requireReaching(Quantity quantity, double from, double to) {
            if (quantity != Quantity.SALINITY) {
                throw new IllegalArgumentException("Salinity alone is moved by mixing salt water");
            }
            Ranges.require(InputKind.YIELD, yield, 0.5, 1);
        }

        @Override
        public double most(Quantity quantity, int visit, double now, boolean raising, Carry carry) {
            double extreme = raising ? CorrectivePlan.SALTIEST_NEW_WATER : 0;
            return Math.abs(mixed(now, exchanged(visit, carry), extreme) - now);
        }

        @Override
        public Portion portion(Quantity quantity, int visit, double before, double after, Carry carry) {
            Volume water = exchanged(visit, carry);
            double salinity =
                    Bisection.whereRises(s -> mixed(before, water, s), after, 0, CorrectivePlan.SALTIEST_NEW_WATER);
            Mass mix = SaltWater.mix(water, new Salinity(salinity), temperature, temperature, yield)
                    .product();
            return new Portion(mix, water, Optional.of(salinity));
        }

        /** What is changed at a visit anyway, at most all of the water. */
        private Volume agreedAt(int visit) {
            double litres = agreed.isEmpty()
                    ? 0
                    : agreed.get(Math.min(visit, agreed.size() - 1)).litres();
            return new Volume(Math.min(litres, held.litres()));
        }

        /**
         * What is agreed anyway, or else all that a visit can bring: new water mixed for a smaller change would move the
         * tank too far. Weighed as the saltiest water there is, which is a few hundredths too heavy and never too light.
         */
        private Volume exchanged(int visit, Carry carry) {
            Salinity heaviest = new Salinity(CorrectivePlan.SALTIEST_NEW_WATER);
            double litre = SaltWater.mass(new Volume(1), heaviest, temperature).kilograms();
            double carried = carry.exchanged(held, litre).litres();
            return new Volume(Math.max(carried, agreedAt(visit).litres()));
        }

        private double mixed(double now, Volume water, double newWater) {
            Salinity tank = new Salinity(now);
            Salinity added = new Salinity(newWater);
            Volume kept = held.minus(water);
            return SaltWater.blend(List.of(
                            new SaltWater.Water(SaltWater.mass(kept, tank, temperature), tank),
                            new SaltWater.Water(SaltWater.mass(water, added, temperature), added)))
                    .practical();
        }
    }

    /** Something is set or its cause is removed; nothing is brought: a controller, gas exchange, the air of the room. */
    record Adjustment() implements PlanMeans {

        @Override
        public void requireReaching(Quantity quantity, double from, double to) {
            if (quantity != Quantity.PH && quantity != Quantity.TEMPERATURE) {
                throw new IllegalArgumentException("Nothing is set to change " + quantity);
            }
        }

        @Override
        public double most(Quantity quantity, int visit, double now, boolean raising, Carry carry) {
            return Double.POSITIVE_INFINITY;
        }

        @Override
        public Portion portion(Quantity quantity, int visit, double before, double after, Carry carry) {
            return Portion.NOTHING;
        }
    }
}

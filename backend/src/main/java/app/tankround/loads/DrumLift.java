package app.tankround.loads;

import app.tankround.chemistry.LiftingEquation;
import app.tankround.chemistry.LiftingEquation.Coupling;
import app.tankround.chemistry.LiftingEquation.Duration;
import app.tankround.chemistry.LiftingEquation.Measures;
import app.tankround.chemistry.SaltWater;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Volume;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What it takes of one person to lift the drums of a round into the van, by the revised NIOSH lifting equation (see
 * {@link LiftingEquation}), whose limit is no permission: local rules come first, and the equation knows no wet floor, no
 * carrying and no bad back.
 *
 * <p>The way of the hands is common practice, no source: {@value #AHEAD_CM} cm before the ankles, from the handle of a drum on
 * the ground at {@value #GROUND_CM} cm to the same on the floor of a van at {@value #VAN_CM} cm, turned by
 * {@value #TURN_DEGREES} degrees, {@value #PER_MINUTE} drums a minute at most.
 *
 * @param drums how many are lifted, partly filled ones too, 1 or more
 * @param heaviest the heaviest of them
 * @param limit recommended for one person, above 0
 * @param index the heaviest over the limit; above 1 the lift is not for everybody
 * @param fill what a drum may hold so that it is within the limit; empty where not even a litre is
 */
public record DrumLift(int drums, Mass heaviest, Mass limit, double index, Optional<Volume> fill) {

    static final int AHEAD_CM = 40;
    static final int GROUND_CM = 40;
    static final int VAN_CM = 100;
    static final int TURN_DEGREES = 30;
    static final int PER_MINUTE = 2;

    /** Minutes over which the equation counts how often something is lifted. */
    private static final int COUNTED_MINUTES = 15;

    private static final int MINUTES_PER_HOUR = 60;

    /** Fuller drums of lighter water would be a little within the limit as well. */
    private static final double KG_PER_LITRE = SaltWater.mass(
                    Volume.ofLitres(1), Salinity.ofPractical(35), LoadRules.MIXED_AT)
            .kilograms();

    /**
     * Of the drums of a load sheet; empty where it has none.
     *
     * @param empty what a drum weighs without water
     */
    static Optional<DrumLift> of(List<LoadLine> lines, Mass empty) {
        int drums = lines.stream()
                .filter(line -> line.group().isWater())
                .mapToInt(line -> line.amount().intValue())
                .sum();
        return lines.stream()
                .filter(line -> line.group().isWater())
                .map(line -> line.each().orElse(line.mass()))
                .max(Comparator.comparingDouble(Mass::kilograms))
                .map(heaviest -> {
                    double limit = limit(drums);
                    double fill = Math.floor((limit - empty.kilograms()) / KG_PER_LITRE);
                    return new DrumLift(
                            drums,
                            heaviest,
                            Mass.ofKilograms(limit),
                            LiftingEquation.liftingIndex(heaviest.kilograms(), limit),
                            fill < 1 ? Optional.empty() : Optional.of(Volume.ofLitres(fill)));
                });
    }

    /** Whether it is within what is recommended. */
    public boolean forEverybody() {
        return index <= 1;
    }

    private static double limit(int drums) {
        double minutes = (double) drums / PER_MINUTE;
        Duration duration = minutes <= MINUTES_PER_HOUR
                ? Duration.UP_TO_1_HOUR
                : minutes <= 2 * MINUTES_PER_HOUR ? Duration.UP_TO_2_HOURS : Duration.UP_TO_8_HOURS;
        double perMinute = LiftingEquation.adjustedFrequency(PER_MINUTE, Math.min(COUNTED_MINUTES, minutes));
        return new LiftingEquation.Multipliers(
                        Measures.METRIC.horizontalMultiplier(AHEAD_CM),
                        Measures.METRIC.verticalMultiplier(GROUND_CM),
                        Measures.METRIC.distanceMultiplier(VAN_CM - GROUND_CM),
                        LiftingEquation.asymmetryMultiplier(TURN_DEGREES),
                        LiftingEquation.frequencyMultiplier(perMinute, duration, Measures.METRIC, GROUND_CM),
                        Coupling.GOOD.multiplier(Measures.METRIC, GROUND_CM))
                .limit(Measures.METRIC.loadConstant());
    }
}

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
 * <p>The way of the hands is common practice, no source: {@value #AHEAD_CM} cm before the ankles, from the handle of a drum
 * {@value #HANDLE_CM} cm above what it stands on to as much above the floor of the van, turned by {@value #TURN_DEGREES} degrees,
 * {@value #PER_MINUTE} drums a minute at most.
 *
 * @param drums how many are lifted, partly filled ones too, 1 or more
 * @param heaviest of them the one that is most for its limit
 * @param limit recommended for one person, above 0
 * @param fromCm of the hands above the ground, as it is taken up
 * @param toCm of the hands above the ground, as it is set down in the van
 * @param index the heaviest over the limit; above 1 the lift is not for everybody
 * @param fill what a drum may hold so that it is within the limit; empty where not even a litre is
 */
public record DrumLift(
        int drums, Mass heaviest, Mass limit, double index, double fromCm, double toCm, Optional<Volume> fill) {

    static final int AHEAD_CM = 40;
    static final int HANDLE_CM = 40;
    static final int TURN_DEGREES = 30;
    static final int PER_MINUTE = 2;

    /** Minutes over which the equation counts how often something is lifted. */
    private static final int COUNTED_MINUTES = 15;

    private static final int MINUTES_PER_HOUR = 60;

    /** Fuller drums of lighter water would be a little within the limit as well. */
    private static final double KG_PER_LITRE = SaltWater.mass(
                    Volume.ofLitres(1), Salinity.ofPractical(35), LoadRules.MIXED_AT)
            .kilograms();

    /** A line of the sheet with its own limit. */
    private record Lifted(LoadLine line, double limit) {

        Mass each() {
            return line.each().orElse(line.mass());
        }

        double index() {
            return LiftingEquation.liftingIndex(each().kilograms(), limit);
        }

        double standsCm() {
            return line.container().map(LoadedContainer::standsCm).orElse(0.0);
        }
    }

    /**
     * Of what is lifted of a load sheet; empty where nothing is.
     *
     * @param empty what the van's usual drum weighs without water
     * @param floorCm above the ground, of the van's floor
     */
    static Optional<DrumLift> of(List<LoadLine> lines, Mass empty, double floorCm) {
        List<LoadLine> lifted = lines.stream().filter(LoadLine::isLiftedFull).toList();
        int drums = lifted.stream().mapToInt(line -> line.amount().intValue()).sum();
        return lifted.stream()
                .map(line -> new Lifted(
                        line,
                        limit(
                                drums,
                                line.container().map(LoadedContainer::standsCm).orElse(0.0),
                                floorCm)))
                .max(Comparator.comparingDouble(Lifted::index))
                .map(most -> {
                    double without = most.line()
                            .container()
                            .map(LoadedContainer::empty)
                            .orElse(empty)
                            .kilograms();
                    double fill = Math.floor((most.limit() - without) / KG_PER_LITRE);
                    return new DrumLift(
                            drums,
                            most.each(),
                            Mass.ofKilograms(most.limit()),
                            most.index(),
                            most.standsCm() + HANDLE_CM,
                            floorCm + HANDLE_CM,
                            fill < 1 ? Optional.empty() : Optional.of(Volume.ofLitres(fill)));
                });
    }

    /** Whether it is within what is recommended. */
    public boolean forEverybody() {
        return index <= 1;
    }

    /**
     * What one person should lift into a van, kg; it does not rise with the number of lifts.
     *
     * <p>The lower of the limits at both ends of the way, since a full drum is set down with care. The frequency counts at the
     * beginning, as in the manual.
     *
     * @param drums 1 or more
     * @param standsCm above the ground, of what they stand on before
     * @param floorCm above the ground, of the van's floor
     */
    static double limit(int drums, double standsCm, double floorCm) {
        double minutes = (double) drums / PER_MINUTE;
        Duration duration = minutes <= MINUTES_PER_HOUR
                ? Duration.UP_TO_1_HOUR
                : minutes <= 2 * MINUTES_PER_HOUR ? Duration.UP_TO_2_HOURS : Duration.UP_TO_8_HOURS;
        double perMinute = LiftingEquation.adjustedFrequency(PER_MINUTE, Math.min(COUNTED_MINUTES, minutes));
        double from = standsCm + HANDLE_CM;
        double to = floorCm + HANDLE_CM;
        return new LiftingEquation.Multipliers(
                        Measures.METRIC.horizontalMultiplier(AHEAD_CM),
                        Math.min(Measures.METRIC.verticalMultiplier(from), Measures.METRIC.verticalMultiplier(to)),
                        Measures.METRIC.distanceMultiplier(Math.abs(to - from)),
                        LiftingEquation.asymmetryMultiplier(TURN_DEGREES),
                        LiftingEquation.frequencyMultiplier(perMinute, duration, Measures.METRIC, from),
                        Coupling.GOOD.multiplier(Measures.METRIC, from))
                .limit(Measures.METRIC.loadConstant());
    }
}

package app.tankround.chemistry;

import static java.util.Map.entry;

import app.tankround.chemistry.LiftingEquation.Coupling;
import app.tankround.chemistry.LiftingEquation.Duration;
import app.tankround.chemistry.LiftingEquation.Measures;
import app.tankround.chemistry.LiftingEquation.Multipliers;
import app.tankround.rounds.solver.Position;
import app.tankround.units.Temperature;
import java.util.Map;

/** Rows of the reference tables about reverse osmosis, waves in basins, lifting and distances. */
final class PlantRows {

    static final Map<String, Cells> BOUND = Map.ofEntries(
            entry("RO-TCF-10", correction(10)),
            entry("RO-TCF-15", correction(15)),
            entry("RO-TCF-20", correction(20)),
            entry("RO-TCF-24", correction(24)),
            entry("RO-TCF-26", correction(26)),
            entry("RO-TCF-28", correction(28)),
            entry("RO-TCF-29", correction(29)),
            entry(
                    "RO-FLOW-15",
                    Cells.one(() ->
                            ReverseOsmosis.flowAt(ReverseOsmosis.temperatureCorrection(new Temperature(15)), 1800))),
            entry("RO-FLOW-15-OLD", Cells.one(() -> ReverseOsmosis.flowAt(1.47, 1800))),
            entry("RO-REC", Cells.one(() -> 100 * ReverseOsmosis.recovery(10, 15))),
            entry("RO-REJ", Cells.one(() -> 100 * ReverseOsmosis.rejection(700, 21))),
            entry("RO-CF", Cells.one(() -> ReverseOsmosis.concentrateFactor(0.4, 1))),
            entry("RO-LOGMEAN", Cells.several(() ->
                    new double[] {ReverseOsmosis.feedSideFactor(0.5), ReverseOsmosis.feedSideFactor(0.75)})),
            entry("CEM-DL", Cells.one(() -> relativeDepth(0.0192))),
            entry("CEM-L", Cells.several(() -> {
                double length = StandingWave.wavelength(10, 3, StandingWave.GRAVITY);
                return new double[] {length, length / 10};
            })),
            entry("CEM-LX", Cells.one(() -> StandingWave.wavelength(10, 3, StandingWave.GRAVITY))),
            entry("CEM-APPROX", Cells.one(() -> StandingWave.approximateWavelength(156, 3))),
            entry("SPM-C1", Cells.several(() -> new double[] {relativeDepth(0.1), 0.1 / relativeDepth(0.1)})),
            entry("MERIAN-1", Cells.several(() -> new double[] {
                StandingWave.merianPeriod(8192, 18, 1, 9.8) / 60,
                StandingWave.merianPeriod(8192, 18, 2, 9.8) / 60,
                StandingWave.merianPeriod(8192, 18, 5, 9.8) / 60,
                StandingWave.merianPeriod(8192, 18, 10, 9.8) / 60
            })),
            entry("MERIAN-12", Cells.one(() -> StandingWave.merianPeriod(8192, 12, 1, 9.81) / 60)),
            entry("SLOSH-1.2-0.5", sloshing(1.2, 0.5)),
            entry("SLOSH-0.6-0.4", sloshing(0.6, 0.4)),
            entry("SLOSH-2-0.6", sloshing(2, 0.6)),
            entry("SLOSH-10-1", sloshing(10, 1)),
            entry("NIOSH-4-O-X", Cells.one(() -> pounds(10, 22, 22, 37, 3, Duration.UP_TO_1_HOUR))),
            // The worksheet multiplies its rounded multipliers, the second figure is by the formulas.
            entry("NIOSH-4-D", Cells.several(() -> new double[] {
                new Multipliers(0.5, 0.78, 0.87, 1, 0.88, 1).limit(Measures.US_CUSTOMARY.loadConstant()),
                pounds(20, 22, 59, 37, 3, Duration.UP_TO_1_HOUR)
            })),
            entry("NIOSH-1", Cells.several(() -> {
                double origin =
                        new Multipliers(0.44, 0.89, 0.86, 1, 1, 0.95).limit(Measures.US_CUSTOMARY.loadConstant());
                double destination =
                        new Multipliers(0.44, 0.75, 0.86, 1, 1, 1).limit(Measures.US_CUSTOMARY.loadConstant());
                return new double[] {
                    origin,
                    destination,
                    LiftingEquation.liftingIndex(44, origin),
                    LiftingEquation.liftingIndex(44, destination)
                };
            })),
            entry("NIOSH-1-X", Cells.several(() -> new double[] {
                pounds(23, 15, 15, 49, 0.1, Duration.UP_TO_1_HOUR), pounds(23, 15, 64, 49, 0.1, Duration.UP_TO_1_HOUR)
            })),
            entry(
                    "NIOSH-CLI",
                    Cells.one(() -> LiftingEquation.composite(
                                    new double[] {30, 20, 10},
                                    new double[] {20, 20, 15},
                                    new double[] {1, 2, 4},
                                    f -> LiftingEquation.frequencyMultiplier(
                                            f, Duration.UP_TO_1_HOUR, Measures.US_CUSTOMARY, 20))
                            .index())),
            entry("NIOSH-FADJ", Cells.several(() ->
                    new double[] {LiftingEquation.adjustedFrequency(10, 8), LiftingEquation.adjustedFrequency(10, 5)})),
            entry("HAV-ROSETTA", Cells.one(() -> kilometres(36.12, -86.67, 33.94, -118.40, 6372.8))),
            entry("HAV-6371", Cells.one(() -> kilometres(36.12, -86.67, 33.94, -118.40, 6371))),
            entry("HAV-DEG", Cells.one(() -> kilometres(0, 0, 1, 0, 6371))),
            entry("HAV-ZERO", Cells.several(() ->
                    new double[] {kilometres(0, 0, 0, 0, 6371), kilometres(0, 0, 0, 180, 6371)})));

    private PlantRows() {}

    private static Cells correction(double celsius) {
        return Cells.one(() -> ReverseOsmosis.temperatureCorrection(new Temperature(celsius)));
    }

    /** Depth over wavelength, from depth over deep-water wavelength. */
    private static double relativeDepth(double overDeepWater) {
        double depth = 3;
        double deepWater = depth / overDeepWater;
        double period = Math.sqrt(2 * Math.PI * deepWater / StandingWave.GRAVITY);
        return depth / StandingWave.wavelength(period, depth, StandingWave.GRAVITY);
    }

    private static Cells sloshing(double length, double depth) {
        return Cells.several(() -> new double[] {
            StandingWave.period(length, depth, 1, StandingWave.GRAVITY),
            StandingWave.merianPeriod(length, depth, 1, StandingWave.GRAVITY)
        });
    }

    /** Recommended weight limit in lb of a straight lift with a fair hold; lengths in inches. */
    private static double pounds(
            double horizontal, double origin, double at, double distance, double frequency, Duration duration) {
        Measures us = Measures.US_CUSTOMARY;
        return new Multipliers(
                        us.horizontalMultiplier(horizontal),
                        us.verticalMultiplier(at),
                        us.distanceMultiplier(distance),
                        LiftingEquation.asymmetryMultiplier(0),
                        LiftingEquation.frequencyMultiplier(frequency, duration, us, origin),
                        Coupling.FAIR.multiplier(us, at))
                .limit(us.loadConstant());
    }

    private static double kilometres(double lat1, double lon1, double lat2, double lon2, double radius) {
        double metres = new Position(lat1, lon1).greatCircleMetresTo(new Position(lat2, lon2));
        return metres / 1000 * radius / Position.EARTH_RADIUS_KILOMETRES;
    }
}

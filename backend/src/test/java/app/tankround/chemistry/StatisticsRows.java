package app.tankround.chemistry;

import static java.util.Map.entry;

import app.tankround.chemistry.statistics.AcceptanceInterval;
import app.tankround.chemistry.statistics.DetectionLimits;
import app.tankround.chemistry.statistics.EnNumber;
import app.tankround.chemistry.statistics.InversePrediction;
import app.tankround.chemistry.statistics.Lognormal;
import app.tankround.chemistry.statistics.MannKendall;
import app.tankround.chemistry.statistics.Newsvendor;
import app.tankround.chemistry.statistics.Outliers;
import app.tankround.chemistry.statistics.RobustEstimates;
import app.tankround.chemistry.statistics.StraightLine;
import app.tankround.chemistry.statistics.TheilSen;
import app.tankround.chemistry.statistics.UncertaintyBudget;
import app.tankround.chemistry.statistics.UncertaintyBudget.Component;
import app.tankround.chemistry.statistics.WeightedMean;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleSupplier;
import java.util.function.Supplier;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/** Rows of the reference tables about uncertainty, conformity, straight lines, trends and robust estimates. */
final class StatisticsRows {

    private static final double INFINITE = Double.POSITIVE_INFINITY;

    /** Thermometer calibration of JCGM 100:2008, H.3; temperatures less 20 °C. */
    private static final StraightLine THERMOMETER = StraightLine.through(
            Arrays.stream(numbers("21.521 22.012 22.512 23.003 23.507 23.999 24.513 25.002 25.503 26.010 26.511"))
                    .map(t -> t - 20)
                    .toArray(),
            numbers("-.171 -.169 -.166 -.159 -.164 -.165 -.156 -.157 -.159 -.161 -.160"));

    private static final double[] LEAD = numbers("2.893 2.936 2.940 2.960 2.980 3.000 3.001 3.070 3.130");
    private static final WeightedMean LEAD_MEAN = WeightedMean.of(
            LEAD, ratio(numbers(".044 .025 .033 .080 .200 .100 .136 .170 .120"), numbers("2.13 2 2 2.4 1.99 2 2 2 2")));

    private static final double[] CADMIUM = numbers("27.044 26.022 26.340 26.787 26.796");
    private static final double[] CADMIUM_UNCERTAINTY = Arrays.stream(numbers("0.003 0.076 0.464 0.003 0.014"))
            .map(Math::sqrt)
            .toArray();

    private static final StraightLine NORRIS = StraightLine.through(
            numbers("0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5"
                    + " 11.6 556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2"
                    + " 669.1 448.9 0.5"),
            numbers("0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9"
                    + " 10.8 557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9"
                    + " 668.4 449.2 0.2"));

    private static final double[] MASSART_X = numbers("0 10 20 30 40 50");
    private static final double[] MASSART_Y = numbers("4 21.2 44.6 61.8 78 105.2");
    private static final StraightLine MASSART = StraightLine.through(MASSART_X, MASSART_Y);
    private static final StraightLine MASSART_WEIGHTED =
            StraightLine.weighted(MASSART_X, MASSART_Y, numbers("1.984 1.417 1.262 .372 .199 .109"));

    private static final StraightLine DIN = StraightLine.through(
            numbers(".05 .1 .15 .2 .25 .3 .35 .4 .45 .5"),
            numbers("3060 3522 3707 4280 5058 5510 5703 6205 7156 7178"));
    private static final DetectionLimits DIN_LIMITS = DetectionLimits.of(DIN, 0.01, 3, 1);

    private static final double[] SULFATE =
            numbers("480 450 490 520 485 510 510 530 510 560 560 540 590 550 600 700 570" + " 610 650 620 830 720 590");
    private static final MannKendall SULFATE_TREND = MannKendall.of(SULFATE);
    private static final TheilSen SULFATE_SLOPE = TheilSen.through(
            numbers("89.6 89.8 90.1 90.3 90.6 90.8 91.1 91.3 91.6 91.8 92.1 92.6 93.1 93.6 94.1 94.6 95.1 95.6 95.8"
                    + " 96.1 96.3 96.6 96.8"),
            SULFATE);
    private static final double[] SODIUM = numbers("56 53 51 55 52 60 62 59 61 63");
    private static final TheilSen SODIUM_SLOPE =
            TheilSen.through(numbers("89.6 90.1 90.8 91.1 92.1 93.1 94.1 95.6 96.1 96.3"), SODIUM);
    private static final TheilSen SEN = TheilSen.through(numbers("1 2 3 4 10 12 18"), numbers("9 15 19 20 45 55 78"));

    private static final double[] COPPER = numbers("2.2 2.2 2.4 2.4 2.5 2.7 2.8 2.9 3.03 3.03 3.1 3.37 3.4 3.4 3.4 3.5"
            + " 3.6 3.7 3.7 3.7 3.7 3.77 5.28 28.95");
    private static final double[] CREOSOTE = numbers("24.140 20.155 19.500 20.300 20.705 17.570 20.100 20.940 21.185");
    private static final double[] MASSES = numbers("199.31 199.53 200.19 200.82 201.92 201.95 202.18 245.57");

    static final Map<String, Cells> BOUND = Map.ofEntries(
            entry("NV-CR", Cells.one(() -> Newsvendor.criticalRatio(8, 4))),
            // The table rounds the ratio's z up to 0.44, whose ratio this is.
            entry(
                    "NV-Q-TABLE",
                    Cells.one(() -> Newsvendor.normalQuantity(200, 80, NormalDistribution.cumulative(0.44)))),
            entry("NV-P", Cells.several(() -> new double[] {
                NormalDistribution.survival((400 - 200) / 80.0),
                NormalDistribution.cumulative((100 - 200) / 80.0),
                NormalDistribution.between((160 - 200) / 80.0, (240 - 200) / 80.0)
            })),
            entry("NV-PROFIT", Cells.several(() -> {
                double missing = Newsvendor.normalShortfall(200, 80, 235.2);
                double left = 235.2 - 200 + missing;
                return new double[] {missing, left, 8 * (200 - missing) - 4 * left};
            })),
            entry("NV-UNIF", Cells.several(() -> {
                double ratio = Newsvendor.criticalRatio(6, 9);
                return new double[] {ratio, 80 + ratio * (150 - 80)};
            })),
            entry("LOGN-Q01-X", Cells.one(() -> new Lognormal(10, 1.5).quantile(0.01))),
            entry("LOGN-Q01", Cells.one(() -> new Lognormal(10, 1.5).quantile(NormalDistribution.survival(2.33)))),
            entry("LOGN-P", Cells.one(() -> 1 - new Lognormal(10, 1.5).cumulative(10_000))),
            entry("LOGN-NAV", Cells.several(() -> {
                Lognormal days = new Lognormal(1.2, 0.4);
                return new double[] {days.mean(), days.quantile(0.5), days.quantile(0.9)};
            })),
            entry("GUM-H1-UD", Cells.one(() -> combine(5.8, 3.9, 6.7).combined())),
            entry(
                    "GUM-H1-NUD",
                    Cells.one(() -> UncertaintyBudget.of(List.of(
                                    new Component(5.8, 1, 24), new Component(3.9, 1, 5), new Component(6.7, 1, 8)))
                            .effectiveDegrees())),
            entry("GUM-H1-UC", Cells.one(StatisticsRows::endGauge)),
            entry("GUM-H1-UC-X", Cells.one(StatisticsRows::endGauge)),
            entry(
                    "GUM-H1-L",
                    Cells.one(() ->
                            UncertaintyBudget.ofLinearModel(new double[] {50000623, 215, 0}, new double[] {1, 1, 1}))),
            entry("GUM-H1-NUEFF-32", Cells.one(() -> {
                UncertaintyBudget budget = UncertaintyBudget.of(List.of(
                        new Component(25, 1, 18),
                        new Component(9.7, 1, 25.6),
                        new Component(2.9, 1, 50),
                        new Component(16.6, 1, 2)));
                return budget.effectiveDegrees() * Math.pow(32 / budget.combined(), 4);
            })),
            entry(
                    "GUM-H1-K",
                    Cells.one(() -> UncertaintyBudget.of(List.of(new Component(1, 1, 16.7)))
                            .coverageFactor(0.99))),
            entry("GUM-H1-2ND", Cells.one(() -> combine(31.67, 11.7, 1.7).combined())),
            entry("GUM-H3-Y2", cells(() -> THERMOMETER.slope(), () -> THERMOMETER.slopeUncertainty())),
            entry("GUM-H3-R", Cells.one(THERMOMETER::correlation)),
            entry("GUM-H3-SSR", Cells.one(THERMOMETER::squaredResiduals)),
            entry("GUM-H3-S", Cells.one(THERMOMETER::residualDeviation)),
            entry("GUM-H3-B30", cells(() -> THERMOMETER.at(10), () -> THERMOMETER.uncertaintyAt(10))),
            entry(
                    "GUM-H3-B30-NOCOV",
                    Cells.one(() -> UncertaintyBudget.of(List.of(
                                    new Component(THERMOMETER.interceptUncertainty(), 1, 9),
                                    new Component(THERMOMETER.slopeUncertainty(), 10, 9)))
                            .combined())),
            entry("GUM-H3-SYS", Cells.several(() -> {
                UncertaintyBudget budget = UncertaintyBudget.of(List.of(
                        new Component(THERMOMETER.interceptUncertainty(), 1, THERMOMETER.degrees()),
                        new Component(0.005, 1, INFINITE)));
                return new double[] {budget.combined(), budget.effectiveDegrees()};
            })),
            entry("J106-OIL", Cells.one(() -> Conformity.probability(13.6, 1.8, INFINITE, 12.5, 16.3))),
            entry("J106-ZENER", Cells.one(() -> Conformity.probability(-5.47, 0.05, INFINITE, -INFINITE, -5.40))),
            entry("J106-BURST", Cells.one(() -> Conformity.probability(509.7, 8.6, INFINITE, 490, INFINITE))),
            entry("G8-W-U", falseAcceptance(1)),
            entry("G8-W-0", falseAcceptance(0)),
            entry("G8-W-083", falseAcceptance(0.83)),
            entry("G8-W-15", falseAcceptance(1.5)),
            entry("GB-LIMITS", Cells.several(() -> {
                AcceptanceInterval interval = new AcceptanceInterval(99, 101, 0.2);
                return new double[] {interval.acceptedFrom(), interval.acceptedTo()};
            })),
            entry(
                    "GB-DECISION",
                    Cells.texts(() -> Arrays.stream(numbers("100.4 100.9 101.2"))
                            .mapToObj(value -> switch (new AcceptanceInterval(99, 101, 0.2).guardedAcceptance(value)) {
                                case INSIDE -> "pass";
                                case UNDECIDED -> "between";
                                case OUTSIDE -> "fail";
                            })
                            .toList())),
            entry(
                    "GB-FACTOR",
                    Cells.several(() -> Arrays.stream(numbers("0.01 0.025 0.05"))
                            .map(AcceptanceInterval::guardBandFactor)
                            .toArray())),
            entry("EN-LNE", Cells.one(() -> EnNumber.of(3.13, 0.12, 2.99, 0.06).value())),
            entry(
                    "EN-KRISS",
                    Cells.one(() -> EnNumber.of(2.893, 0.044, 2.99, 0.06).value())),
            entry(
                    "EN-INMETRO",
                    Cells.one(() -> EnNumber.of(1.62, 0.088, 2.99, 0.06).value())),
            entry(
                    "PB-MEAN",
                    Cells.one(() -> WeightedMean.of(LEAD, ratio(LEAD, LEAD)).mean())),
            entry("PB-WM", cells(LEAD_MEAN::mean, LEAD_MEAN::standardUncertainty)),
            entry("PB-CHI2", Cells.several(() ->
                    new double[] {LEAD_MEAN.chiSquared(), LEAD_MEAN.criticalChiSquared(), LEAD_MEAN.probability()})),
            entry("PB-BIRGE", cells(LEAD_MEAN::birgeRatio, LEAD_MEAN::widenedUncertainty)),
            entry("CD-WM", Cells.several(() -> {
                WeightedMean mean = WeightedMean.of(CADMIUM, CADMIUM_UNCERTAINTY);
                return new double[] {mean.mean(), mean.standardUncertainty(), mean.birgeRatio()};
            })),
            entry("CD-MP", Cells.several(() -> {
                WeightedMean.MandelPaule mean = WeightedMean.mandelPaule(CADMIUM, CADMIUM_UNCERTAINTY);
                return new double[] {mean.mean(), mean.standardUncertainty(), mean.betweenVariance()};
            })),
            entry("MP-2LAB", Cells.several(() -> {
                WeightedMean.MandelPaule mean = WeightedMean.mandelPaule(
                        new double[] {201.533, 216.55}, new double[] {0.154 / Math.sqrt(6), 0.25 / Math.sqrt(2)});
                return new double[] {mean.mean(), mean.standardUncertainty()};
            })),
            entry("NIST-NORRIS", Cells.several(() -> new double[] {
                NORRIS.intercept(),
                NORRIS.slope(),
                NORRIS.interceptUncertainty(),
                NORRIS.slopeUncertainty(),
                NORRIS.residualDeviation(),
                NORRIS.determination()
            })),
            entry("MASSART-15-1", valueAndWidth(MASSART, 15, 1)),
            entry("MASSART-15-1-X", valueErrorAndWidth(MASSART, 15, 1)),
            entry("MASSART-90-1", valueAndWidth(MASSART, 90, 1)),
            entry("MASSART-90-1-X", valueErrorAndWidth(MASSART, 90, 1)),
            entry("MASSART-90-5", valueAndWidth(MASSART, 90, 5)),
            entry("MASSART-90-5-X", valueErrorAndWidth(MASSART, 90, 5)),
            entry("MASSART-FIT", Cells.several(() ->
                    new double[] {MASSART.intercept(), MASSART.slope(), MASSART.residualDeviation()})),
            entry("MASSART-PI", Cells.several(() -> {
                double t = StudentDistribution.coverageFactor(0.95, MASSART.degrees());
                return new double[] {
                    MASSART.at(25), t * MASSART.uncertaintyOfReadingAt(25, 1), t * MASSART.uncertaintyAt(25)
                };
            })),
            entry("MASSART-FIELLER", Cells.several(() -> {
                InversePrediction prediction = InversePrediction.of(MASSART, 15, 1, 0.95);
                return new double[] {prediction.low(), prediction.high(), prediction.g()};
            })),
            entry("MASSART-W-15", valueAndWidth(MASSART_WEIGHTED, 15, 1.67)),
            entry("MASSART-W-90", valueAndWidth(MASSART_WEIGHTED, 90, 0.145)),
            entry("MASSART-W-90-X", valueErrorAndWidth(MASSART_WEIGHTED, 90, 0.145)),
            entry(
                    "DIN-CI",
                    Cells.one(() -> InversePrediction.of(DIN, 3500, 1, 0.99).halfWidth())),
            entry("DIN-X0", Cells.several(() -> {
                InversePrediction prediction = InversePrediction.of(DIN, 3500, 1, 0.99);
                return new double[] {prediction.value(), prediction.standardError()};
            })),
            entry("DIN-NG", Cells.one(DIN_LIMITS::decision)),
            entry("DIN-EG", Cells.one(DIN_LIMITS::detection)),
            entry("DIN-BG", Cells.one(DIN_LIMITS::quantification)),
            entry("MK-EPA-S", Cells.one(SULFATE_TREND::score)),
            entry("MK-EPA-Z", Cells.one(SULFATE_TREND::z)),
            entry("MK-EPA-P", Cells.one(SULFATE_TREND::normalProbability)),
            entry("MK-EPA-TAU", Cells.one(SULFATE_TREND::tau)),
            entry("TS-EPA-SLOPE", Cells.one(SULFATE_SLOPE::slope)),
            entry("TS-EPA-INT", Cells.one(SULFATE_SLOPE::intercept)),
            entry("TS-EPA-LCL", limits(() -> SULFATE_SLOPE.gilbertLimits(0.95).orElseThrow())),
            entry("TS-EPA177", Cells.one(SODIUM_SLOPE::slope)),
            entry("MK-EPA177", Cells.several(() -> {
                MannKendall trend = MannKendall.of(SODIUM);
                return new double[] {trend.score(), trend.variance(), trend.z()};
            })),
            entry("MK-EXACT-4-6", upperTail(4, 6)),
            entry("MK-EXACT-4-6-X", upperTail(4, 6)),
            entry("MK-EXACT-5-8", upperTail(5, 8)),
            entry("MK-EXACT-5-8-X", upperTail(5, 8)),
            entry("MK-EXACT-5-10", upperTail(5, 10)),
            entry("MK-EXACT-5-10-X", upperTail(5, 10)),
            entry("MK-EXACT-6-11", upperTail(6, 11)),
            entry("MK-EXACT-6-11-X", upperTail(6, 11)),
            entry("MK-EXACT-7-13", upperTail(7, 13)),
            entry("MK-EXACT-7-13-X", upperTail(7, 13)),
            entry("MK-EXACT-8-16-X", upperTail(8, 16)),
            entry("MK-EXACT-9-18", upperTail(9, 18)),
            entry("MK-EXACT-9-18-X", upperTail(9, 18)),
            entry("MK-EXACT-10-21", upperTail(10, 21)),
            entry("MK-EXACT-10-21-X", upperTail(10, 21)),
            entry("MK-EXACT-10-25", upperTail(10, 25)),
            entry("MK-EXACT-10-25-X", upperTail(10, 25)),
            entry("SEN-SLOPE", Cells.one(SEN::slope)),
            entry("SEN-INT", cells(SEN::intercept, SEN::interceptOfResiduals)),
            entry("SEN-CI", limits(() -> SEN.senLimits(0.95).orElseThrow())),
            entry(
                    "SEN-COV",
                    Cells.several(() -> IntStream.rangeClosed(3, 6)
                            .mapToDouble(rank -> TheilSen.coverageOfRank(7, rank))
                            .toArray())),
            entry("ROB-MEAN", Cells.several(() -> new double[] {
                Arrays.stream(COPPER).average().orElseThrow(),
                RobustEstimates.median(COPPER),
                RobustEstimates.scaledDeviation(COPPER)
            })),
            entry("ROB-MADRAW", Cells.one(() -> RobustEstimates.medianAbsoluteDeviation(COPPER))),
            entry("ROB-HUBER2", estimates(() -> List.of(RobustEstimates.huberProposal2(COPPER)))),
            entry("ROB-HUBER", Cells.one(() -> RobustEstimates.huberLocation(COPPER))),
            entry("ROB-ALGA", estimates(() -> List.of(RobustEstimates.algorithmA(CREOSOTE)))),
            entry("ROB-ALGA-IT", estimates(() -> {
                RobustEstimates.Estimate start = RobustEstimates.algorithmAStart(CREOSOTE);
                RobustEstimates.Estimate first = RobustEstimates.algorithmAStep(CREOSOTE, start);
                return List.of(start, first, RobustEstimates.algorithmAStep(CREOSOTE, first));
            })),
            entry("GRUBBS", Cells.several(() ->
                    new double[] {Outliers.grubbs(MASSES), Outliers.grubbsCritical(8, 0.05), Outliers.grubbsBound(8)})),
            entry("MODZ", Cells.one(() -> Outliers.modifiedScores(MASSES)[7])));

    private StatisticsRows() {}

    private static double[] numbers(String text) {
        return Arrays.stream(text.split(" ")).mapToDouble(Double::parseDouble).toArray();
    }

    private static double[] ratio(double[] over, double[] under) {
        return IntStream.range(0, over.length)
                .mapToDouble(i -> over[i] / under[i])
                .toArray();
    }

    private static Cells cells(DoubleSupplier first, DoubleSupplier second) {
        return Cells.several(() -> new double[] {first.getAsDouble(), second.getAsDouble()});
    }

    private static UncertaintyBudget combine(double... uncertainties) {
        return UncertaintyBudget.of(Arrays.stream(uncertainties)
                .mapToObj(u -> new Component(u, 1, INFINITE))
                .toList());
    }

    private static double endGauge() {
        return combine(25, 5.8, 3.9, 6.7, 2.88679, 16.599).combined();
    }

    /** With a guard band as a multiple of the expanded uncertainty (k = 2). */
    private static Cells falseAcceptance(double multiple) {
        return Cells.one(() -> new AcceptanceInterval(-INFINITE, 0, multiple * 2).largestFalseAcceptance(1));
    }

    private static Cells valueAndWidth(StraightLine line, double reading, double readings) {
        return Cells.several(() -> {
            InversePrediction prediction = InversePrediction.of(line, reading, readings, 0.95);
            return new double[] {prediction.value(), prediction.halfWidth()};
        });
    }

    private static Cells valueErrorAndWidth(StraightLine line, double reading, double readings) {
        return Cells.several(() -> {
            InversePrediction prediction = InversePrediction.of(line, reading, readings, 0.95);
            return new double[] {prediction.value(), prediction.standardError(), prediction.halfWidth()};
        });
    }

    private static Cells limits(Supplier<TheilSen.Limits> limits) {
        return Cells.several(
                () -> new double[] {limits.get().low(), limits.get().high()});
    }

    private static Cells estimates(Supplier<List<RobustEstimates.Estimate>> estimates) {
        return Cells.several(() -> estimates.get().stream()
                .flatMapToDouble(each -> DoubleStream.of(each.location(), each.spread()))
                .toArray());
    }

    /** Of a series of that length without ties and with that score. */
    private static Cells upperTail(int count, int score) {
        return Cells.one(() -> {
            MannKendall trend = MannKendall.of(withScore(count, score));
            if (trend.score() != score) {
                throw new AssertionError("score " + trend.score());
            }
            return trend.upperTail();
        });
    }

    /** Inserts 1 to n, each before as many lower ones as are still to fall. */
    private static double[] withScore(int count, int score) {
        int falling = (count * (count - 1) / 2 - score) / 2;
        List<Double> values = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            int before = Math.min(falling, i);
            values.add(i - before, i + 1.0);
            falling -= before;
        }
        return values.stream().mapToDouble(Double::doubleValue).toArray();
    }
}

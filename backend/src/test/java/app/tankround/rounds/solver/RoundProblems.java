package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Scanner;
import java.util.Set;

/** Problems for tests. */
final class RoundProblems {

    private static final int EIGHT_O_CLOCK = 480;

    private RoundProblems() {}

    /**
     * Invented problem with windows, mixed and sick stops, legs that cannot be driven and lateness: travel is one-way uneven, breaks the triangle inequality,
     * and comes in few different driving times so that the distance has to decide often.
     */
    static RoundProblem random(long seed, int stopCount) {
        Random random = new Random(seed);
        int coarse = random.nextBoolean() ? 600 : 1;
        int tightness = 30 + random.nextInt(300);
        List<Stop> stops = new ArrayList<>();
        for (int i = 0; i < stopCount; i++) {
            int from = EIGHT_O_CLOCK - 60 + random.nextInt(420);
            TimeWindow window =
                    random.nextInt(4) == 0 ? null : new TimeWindow(from, from + 1 + random.nextInt(tightness));
            InfectionClass leavesAs =
                    random.nextInt(3) == 0 ? InfectionClass.values()[1 + random.nextInt(4)] : InfectionClass.HEALTHY;
            InfectionClass arrivesAs = random.nextBoolean() ? InfectionClass.HEALTHY : leavesAs;
            stops.add(new Stop(random.nextInt(60), window, arrivesAs, leavesAs));
        }
        TravelLeg[][] legs = new TravelLeg[stopCount + 1][stopCount + 1];
        for (TravelLeg[] row : legs) {
            for (int to = 0; to <= stopCount; to++) {
                int seconds = (300 + random.nextInt(2700)) / coarse * coarse;
                row[to] = new TravelLeg(seconds, seconds * 9 + random.nextInt(3000));
            }
        }
        Set<Long> blocked = new HashSet<>();
        int blockedLegs = random.nextInt(3) == 0 ? stopCount * 2 : 0;
        for (int k = 0; k < blockedLegs; k++) {
            blocked.add(random.nextInt(stopCount + 1) * 100L + random.nextInt(stopCount + 1));
        }
        return new RoundProblem(
                stops,
                travel(legs, blocked),
                EIGHT_O_CLOCK,
                random.nextInt(60),
                random.nextInt(8) == 0,
                random.nextBoolean()
                        ? Rest.NONE
                        : new Rest(EIGHT_O_CLOCK * 60 + 600 * random.nextInt(50), 60 * random.nextInt(60)));
    }

    private static TravelTimes travel(TravelLeg[][] legs, Set<Long> blocked) {
        return new TravelTimes() {
            @Override
            public TravelLeg leg(int from, int to) {
                return legs[from + 1][to + 1];
            }

            @Override
            public boolean drivable(int from, int to) {
                return !blocked.contains((from + 1) * 100L + to + 1);
            }
        };
    }

    /** Invented problem of a town: positions within about 30 km, windows of some hours, one stop in six sick, half of those with healthy systems too. */
    static RoundProblem town(long seed, int stopCount, boolean windows) {
        Random random = new Random(seed);
        List<Stop> stops = new ArrayList<>();
        List<Position> positions = new ArrayList<>();
        for (int i = 0; i < stopCount; i++) {
            int from = EIGHT_O_CLOCK + 60 * random.nextInt(6);
            TimeWindow window =
                    windows && random.nextInt(3) > 0 ? new TimeWindow(from, from + 120 + random.nextInt(180)) : null;
            InfectionClass leavesAs = random.nextInt(6) == 0 ? InfectionClass.QUARANTINE : InfectionClass.HEALTHY;
            InfectionClass arrivesAs = random.nextBoolean() ? InfectionClass.HEALTHY : leavesAs;
            stops.add(new Stop(15 + random.nextInt(30), window, arrivesAs, leavesAs));
            positions.add(new Position(52 + random.nextDouble() * 0.27, 13 + random.nextDouble() * 0.45));
        }
        TravelTimes travel = TravelEstimate.withDefaults().between(new Position(52.13, 13.2), positions);
        return new RoundProblem(stops, travel, EIGHT_O_CLOCK);
    }

    /** A published instance, read with one unit of its matrix and windows as one minute (and as 1 m of distance). */
    static RoundProblem published(String file) {
        try (InputStream in = RoundProblems.class.getResourceAsStream("/routing/" + file)) {
            Scanner scanner = new Scanner(new String(in.readAllBytes(), StandardCharsets.US_ASCII));
            int places = scanner.nextInt();
            TravelLeg[][] legs = new TravelLeg[places][places];
            for (TravelLeg[] row : legs) {
                for (int to = 0; to < places; to++) {
                    int units = scanner.nextInt();
                    row[to] = new TravelLeg(units * 60, units);
                }
            }
            List<Stop> stops = new ArrayList<>();
            int depotOpens = scanner.nextInt();
            scanner.nextInt();
            while (stops.size() < places - 1) {
                stops.add(Stop.healthy(0, new TimeWindow(scanner.nextInt(), scanner.nextInt())));
            }
            return new RoundProblem(stops, (from, to) -> legs[from + 1][to + 1], depotOpens);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}

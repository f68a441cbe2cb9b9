package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/** Problems of many vans for tests. */
final class FleetProblems {

    private FleetProblems() {}

    /**
     * Invented problem with every rule on and often broken by the nearest plan: one or two days, two depots, shifts that
     * differ in hours, capacity, skills and crew and may come from a sick stop, waste water, mixed and sick stops with and
     * without disinfection, choices of days, overtime, promises, locked stops, stops that are not worth a visit,
     * reloads and legs that cannot be driven; travel is one-way uneven and breaks the triangle inequality.
     */
    static FleetProblem random(long seed, int stopCount) {
        Random random = new Random(seed);
        int days = 1 + random.nextInt(2);
        boolean twoWeeks = days == 2 && random.nextBoolean();
        List<VanShift> shifts = new ArrayList<>();
        for (int day = 0; day < days; day++) {
            int vans = 1 + random.nextInt(2);
            for (int van = 0; van < vans; van++) {
                int start = 28_000 + 1800 * random.nextInt(3);
                int end = start + 3600 * (2 + random.nextInt(4));
                boolean startsSick = random.nextInt(8) == 0;
                shifts.add(new VanShift(
                        twoWeeks ? 7 * day : day,
                        startsSick ? 2 + shifts.size() : random.nextInt(2),
                        random.nextInt(2),
                        start,
                        end,
                        end + 3600 * random.nextInt(3),
                        new Cargo(100 + random.nextInt(120), 100 + random.nextInt(120)),
                        random.nextBoolean() ? Set.of("electrician") : Set.of(),
                        random.nextBoolean() ? "Noor" : "Ben",
                        startsSick,
                        startsSick || random.nextInt(4) == 0,
                        random.nextBoolean()
                                ? Rest.NONE
                                : new Rest(start + 600 * random.nextInt(30), 60 * random.nextInt(60))));
            }
        }
        List<FleetStop> stops = new ArrayList<>();
        for (int i = 0; i < stopCount; i++) {
            stops.add(stop(random, days, twoWeeks ? 7 : 1, shifts.size()));
        }
        int depots = 6;
        TravelLeg[][] legs = new TravelLeg[stopCount + depots][stopCount + depots];
        for (TravelLeg[] row : legs) {
            for (int to = 0; to < legs.length; to++) {
                int seconds = 200 + random.nextInt(2500);
                row[to] = new TravelLeg(seconds, seconds * 9 + random.nextInt(3000));
            }
        }
        FleetWeights weights = new FleetWeights(
                1 + random.nextInt(20), random.nextInt(3), random.nextInt(60), 1000L * random.nextInt(30));
        Set<Integer> blocked = new HashSet<>();
        int blockedLegs = random.nextInt(3) == 0 ? 2 * stopCount : 0;
        for (int k = 0; k < blockedLegs; k++) {
            blocked.add(100 * random.nextInt(depots + stopCount) + random.nextInt(depots + stopCount));
        }
        TravelTimes travel = new TravelTimes() {
            @Override
            public TravelLeg leg(int from, int to) {
                return legs[from + depots][to + depots];
            }

            @Override
            public boolean drivable(int from, int to) {
                return !blocked.contains(100 * (from + depots) + to + depots);
            }
        };
        Disinfection disinfection =
                random.nextBoolean() ? null : new Disinfection(60 * random.nextInt(40), 1000L * random.nextInt(20));
        Evenness evenness = random.nextBoolean()
                ? Evenness.NONE
                : new Evenness(List.of(600L * random.nextInt(10), 600L * random.nextInt(10)), random.nextInt(20));
        Reload reload = random.nextBoolean() ? null : new Reload(60 * random.nextInt(20), 1000L * random.nextInt(20));
        if (reload != null) {
            shifts.replaceAll(FleetProblems::withSmallerVan);
        }
        return new FleetProblem(stops, shifts, travel, weights, disinfection, evenness, reload);
    }

    /** Hardly larger than the heaviest stop. */
    private static VanShift withSmallerVan(VanShift shift) {
        return new VanShift(
                shift.day(),
                shift.depot(),
                shift.returnsTo(),
                shift.startSecond(),
                shift.regularEndSecond(),
                shift.latestEndSecond(),
                new Cargo(
                        80 + shift.capacity().grams() / 8, 80 + shift.capacity().millilitres() / 8),
                shift.skills(),
                shift.crew(),
                shift.startsSick(),
                shift.out(),
                shift.rest());
    }

    private static FleetStop stop(Random random, int days, int apart, int shifts) {
        int opens = random.nextInt(3) == 0 ? 0 : 27_000 + 600 * random.nextInt(20);
        int closes = opens == 0 ? FleetStop.LAST_SECOND : opens + 600 * random.nextInt(18);
        InfectionClass leavesAs = InfectionClass.values()[random.nextInt(2) * (1 + random.nextInt(4))];
        InfectionClass arrivesAs = random.nextBoolean() ? InfectionClass.HEALTHY : leavesAs;
        List<List<Integer>> choices = new ArrayList<>();
        choices.add(List.of(apart * random.nextInt(days)));
        if (days == 2 && random.nextBoolean()) {
            choices = random.nextBoolean() ? List.of(List.of(0), List.of(apart)) : List.of(List.of(0, apart));
        }
        return new FleetStop(
                60 * random.nextInt(40),
                opens,
                closes,
                new Cargo(random.nextInt(60), random.nextInt(60)),
                random.nextBoolean() ? Cargo.NONE : new Cargo(random.nextInt(80), random.nextInt(80)),
                random.nextInt(4) == 0 ? Set.of("electrician") : Set.of(),
                arrivesAs,
                leavesAs,
                random.nextInt(4) == 0 ? 10_000 * random.nextInt(8) : 1_000_000,
                choices,
                wishes(random, choices.size(), shifts));
    }

    private static StopWishes wishes(Random random, int choices, int shifts) {
        List<Long> costs = new ArrayList<>();
        int costed = random.nextInt(3) == 0 ? choices : 0;
        for (int k = 0; k < costed; k++) {
            costs.add(2000L * random.nextInt(10));
        }
        int promised = 28_000 + 600 * random.nextInt(30);
        return new StopWishes(
                costs,
                random.nextInt(8) == 0 ? random.nextInt(shifts) : null,
                random.nextInt(3) > 0
                        ? null
                        : new StopWishes.Promise(
                                promised,
                                promised + 600 * random.nextInt(12),
                                1000L * random.nextInt(30),
                                random.nextInt(20)),
                random.nextInt(3) > 0 ? "" : "Noor",
                1000L * random.nextInt(15));
    }

    /** Invented weeks of a town: sites within about 30 km, each visited weekly within a day of its own, vans on weekdays. */
    static FleetProblem weeks(long seed, int sites, int weeks, int vans) {
        Random random = new Random(seed);
        List<Position> positions = new ArrayList<>();
        List<FleetStop> stops = new ArrayList<>();
        for (int site = 0; site < sites; site++) {
            Position position = new Position(52 + random.nextDouble() * 0.27, 13 + random.nextDouble() * 0.45);
            int opens = random.nextInt(3) > 0 ? 3600 * (8 + random.nextInt(5)) : 0;
            int closes = opens == 0 ? 86_400 : opens + 3600 * (2 + random.nextInt(3));
            InfectionClass leavesAs = random.nextInt(8) == 0 ? InfectionClass.QUARANTINE : InfectionClass.HEALTHY;
            int nominal = random.nextInt(5);
            for (int week = 0; week < weeks; week++) {
                List<List<Integer>> choices = new ArrayList<>();
                for (int day = Math.max(0, nominal - 1); day <= Math.min(4, nominal + 1); day++) {
                    choices.add(List.of(week * 7 + day));
                }
                positions.add(position);
                stops.add(new FleetStop(
                        60 * (20 + random.nextInt(40)),
                        opens,
                        closes,
                        new Cargo(50_000, 60_000),
                        new Cargo(30_000, 30_000),
                        random.nextInt(20) == 0 ? Set.of("electrician") : Set.of(),
                        InfectionClass.HEALTHY,
                        leavesAs,
                        10_000_000,
                        choices));
            }
        }
        List<VanShift> shifts = new ArrayList<>();
        for (int week = 0; week < weeks; week++) {
            for (int day = 0; day < 5; day++) {
                for (int van = 0; van < vans; van++) {
                    shifts.add(new VanShift(
                            week * 7 + day,
                            0,
                            8 * 3600,
                            16 * 3600,
                            18 * 3600,
                            new Cargo(700_000, 900_000),
                            van < 3 ? Set.of("electrician") : Set.of()));
                }
            }
        }
        TravelTimes travel = TravelEstimate.withDefaults().between(new Position(52.13, 13.2), positions);
        return new FleetProblem(stops, shifts, travel, new FleetWeights(10, 1, 15, 20_000));
    }

    /**
     * The same as vans drive: with half an hour's break in every shift, a fourth of the vans off from noon to two instead, in
     * two shifts, time to disinfect, and half an hour at the depot for whoever loads again.
     */
    static FleetProblem asDriven(FleetProblem problem) {
        List<VanShift> shifts = new ArrayList<>();
        for (int k = 0; k < problem.shifts().size(); k++) {
            VanShift whole = problem.shifts().get(k);
            if (k % 4 == 0) {
                shifts.add(part(whole, whole.startSecond(), 12 * 3600, 12 * 3600, Rest.NONE));
                shifts.add(part(whole, 14 * 3600, whole.regularEndSecond(), whole.latestEndSecond(), Rest.NONE));
            } else {
                Rest rest = new Rest(whole.startSecond() + 6 * 3600, 1800);
                shifts.add(part(whole, whole.startSecond(), whole.regularEndSecond(), whole.latestEndSecond(), rest));
            }
        }
        return new FleetProblem(
                problem.stops(),
                shifts,
                problem.travel(),
                problem.weights(),
                new Disinfection(600, 2000),
                Evenness.NONE,
                new Reload(1800, 500));
    }

    private static VanShift part(VanShift whole, int start, int regularEnd, int latestEnd, Rest rest) {
        return new VanShift(
                whole.day(),
                whole.depot(),
                whole.returnsTo(),
                start,
                regularEnd,
                latestEnd,
                whole.capacity(),
                whole.skills(),
                whole.crew(),
                whole.startsSick(),
                whole.out(),
                rest);
    }
}

package app.tankround.rounds.solver;

import app.tankround.tanks.InfectionClass;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Scanner;
import java.util.Set;

/**
 * A published routing instance as a problem for a fleet. One unit of load is 1 g.
 *
 * @param name as in the list of best known values
 * @param problem distances in units of the instance times {@code metresPerUnit}
 * @param metresPerUnit how finely the instance's distances are kept
 */
record RoutingInstance(String name, FleetProblem problem, double metresPerUnit) {

    /** High enough that no stop is ever left out to save distance. */
    private static final long NEVER_LEFT_OUT = 100_000_000;

    private static final FleetWeights DISTANCE_ALONE = new FleetWeights(0, 1, 0, 0);

    /** Distance of a plan in units of the instance. */
    double distance(FleetPlan plan) {
        return plan.cost().metres() / metresPerUnit;
    }

    /** The same instance where a van less is worth any distance. */
    RoutingInstance vehiclesFirst() {
        FleetWeights weights = new FleetWeights(0, 1, 0, NEVER_LEFT_OUT / 10);
        return new RoutingInstance(
                name, new FleetProblem(problem.stops(), problem.shifts(), problem.travel(), weights), metresPerUnit);
    }

    /** The best known value in {@code best_known.tsv} of the folder above the instance, where there is one. */
    static OptionalDouble bestKnown(Path file, String name) throws IOException {
        Path list = file.resolve("../../best_known.tsv").normalize();
        if (Files.exists(list)) {
            for (String line : Files.readAllLines(list)) {
                String[] cells = line.split("\t");
                if (cells[0].replace(" (PVRP)", "").equals(name)) {
                    return OptionalDouble.of(Double.parseDouble(cells[3]));
                }
            }
        }
        return OptionalDouble.empty();
    }

    /**
     * Solomon's format; distances and times are floor(10 d) / 10 of the straight line, as the best known values have it.
     *
     * @param customers how many to take, from the first; the published smaller instances are made so
     */
    static RoutingInstance solomon(Path file, int customers) throws IOException {
        List<String> lines = Files.readAllLines(file);
        int vehicleLine = 0;
        while (!lines.get(vehicleLine).strip().startsWith("NUMBER")) {
            vehicleLine++;
        }
        int[] vans = numbers(lines.get(vehicleLine + 1));
        List<int[]> places = new ArrayList<>();
        for (String line : lines.subList(vehicleLine + 2, lines.size())) {
            if (!line.isBlank() && Character.isDigit(line.strip().charAt(0)) && places.size() <= customers) {
                places.add(numbers(line));
            }
        }
        int[] depot = places.getFirst();
        List<FleetStop> stops = new ArrayList<>();
        for (int[] place : places.subList(1, places.size())) {
            stops.add(stop(place[6] * 10, place[4] * 10, place[5] * 10, place[3], List.of(List.of(0))));
        }
        List<VanShift> shifts = new ArrayList<>();
        for (int van = 0; van < vans[0]; van++) {
            shifts.add(shift(0, depot[4] * 10, depot[5] * 10, vans[1]));
        }
        TravelTimes travel = (from, to) -> {
            int[] a = places.get(from + 1);
            int[] b = places.get(to + 1);
            int tenths = (int) Math.floor(10 * Math.hypot(a[1] - b[1], a[2] - b[2]) + 1e-9);
            return new TravelLeg(tenths, tenths);
        };
        String name = name(file) + (customers < 100 ? "." + customers : "");
        return new RoutingInstance(name, new FleetProblem(stops, shifts, travel, DISTANCE_ALONE), 10);
    }

    /** One van with time windows: number of places, the matrix row by row, then the window of each place. */
    static RoutingInstance tsptw(Path file) throws IOException {
        try (Scanner scanner = new Scanner(file)) {
            int places = scanner.nextInt();
            TravelLeg[][] legs = new TravelLeg[places][places];
            for (TravelLeg[] row : legs) {
                for (int to = 0; to < places; to++) {
                    int units = scanner.nextInt();
                    row[to] = new TravelLeg(units, units);
                }
            }
            List<VanShift> shifts = List.of(shift(0, scanner.nextInt(), scanner.nextInt(), 0));
            List<FleetStop> stops = new ArrayList<>();
            while (stops.size() < places - 1) {
                stops.add(stop(0, scanner.nextInt(), scanner.nextInt(), 0, List.of(List.of(0))));
            }
            TravelTimes travel = (from, to) -> legs[from + 1][to + 1];
            return new RoutingInstance(name(file), new FleetProblem(stops, shifts, travel, DISTANCE_ALONE), 1);
        }
    }

    /**
     * Periodic routing in Cordeau's format: type 1, vans a day, customers, days; per day the longest duration (0 for
     * any) and the load; then number, x, y, service, demand, visits, and the choices of days as bits.
     */
    static RoutingInstance pvrp(Path file) throws IOException {
        List<int[]> lines = Files.readAllLines(file).stream()
                .filter(line -> !line.isBlank())
                .map(RoutingInstance::numbers)
                .toList();
        int[] head = lines.getFirst();
        int days = head[3];
        List<VanShift> shifts = new ArrayList<>();
        for (int day = 0; day < days; day++) {
            int[] terms = lines.get(1 + day);
            if (head[0] != 1 || terms[0] != 0) {
                throw new IllegalArgumentException(
                        "Only periodic instances (type 1) without a longest duration are read: " + file);
            }
            for (int van = 0; van < head[1]; van++) {
                shifts.add(shift(day, 0, FleetStop.LAST_SECOND, terms[1]));
            }
        }
        List<int[]> places = lines.subList(1 + days, lines.size());
        List<FleetStop> stops = new ArrayList<>();
        for (int[] place : places.subList(1, places.size())) {
            List<List<Integer>> choices = new ArrayList<>();
            for (int k = 0; k < place[6]; k++) {
                List<Integer> visited = new ArrayList<>();
                for (int day = 0; day < days; day++) {
                    if ((place[7 + k] >> day & 1) == 1) {
                        visited.add(day);
                    }
                }
                choices.add(visited);
            }
            stops.add(stop(0, 0, FleetStop.LAST_SECOND, place[4], choices));
        }
        int metresPerUnit = 10_000;
        TravelTimes travel = (from, to) -> {
            int[] a = places.get(from + 1);
            int[] b = places.get(to + 1);
            return new TravelLeg(0, (int) Math.round(metresPerUnit * Math.hypot(a[1] - b[1], a[2] - b[2])));
        };
        return new RoutingInstance(name(file), new FleetProblem(stops, shifts, travel, DISTANCE_ALONE), metresPerUnit);
    }

    private static FleetStop stop(int service, int opens, int closes, int demand, List<List<Integer>> choices) {
        return new FleetStop(
                service,
                opens,
                closes,
                new Cargo(demand, 0),
                Cargo.NONE,
                Set.of(),
                InfectionClass.HEALTHY,
                InfectionClass.HEALTHY,
                NEVER_LEFT_OUT,
                choices);
    }

    private static VanShift shift(int day, int start, int end, int load) {
        return new VanShift(day, 0, start, end, end, new Cargo(load, 0), Set.of());
    }

    private static int[] numbers(String line) {
        String[] cells = line.strip().split("\\s+");
        int[] numbers = new int[cells.length];
        for (int k = 0; k < cells.length; k++) {
            numbers[k] = (int) Double.parseDouble(cells[k]);
        }
        return numbers;
    }

    private static String name(Path file) {
        return file.getFileName().toString().replaceFirst("\\.txt$", "");
    }
}

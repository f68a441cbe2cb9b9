package app.tankround.seed;

import app.tankround.schedule.TaskView;
import app.tankround.tanks.SystemKind;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** What stands in each kind of system, what lives there and what is agreed for it. */
final class Husbandry {

    private static final int DAYS_PER_WEEK = 7;

    /** Nearly every sump takes these. */
    static final SockSize SOCK = SockSize.ofDiameter(100);

    /** The large sumps have deeper holders. */
    static final SockSize LARGE_SOCK = new SockSize(180, Optional.of(420), Optional.of(200));

    static final String ALKALINITY_SOLUTION = "Alkalinity solution";
    static final String CONDITIONER = "Water conditioner";
    static final String PLANT_FEED = "Plant feed";
    static final String CARBON = "Activated carbon";
    static final String FLOSS = "Filter floss";

    private static final double LARGE_SUMP_FROM_LITRES = 900;

    private Husbandry() {}

    /** @param scientific empty where a trade name is all anybody knows */
    record Animal(String common, String scientific, int most) {}

    static List<Animal> animals(SystemKind kind) {
        return switch (kind) {
            case REEF ->
                List.of(
                        new Animal("Common clownfish", "Amphiprion ocellaris", 2),
                        new Animal("Royal gramma", "Gramma loreto", 1),
                        new Animal("Yellow tang", "Zebrasoma flavescens", 1),
                        new Animal("Green chromis", "Chromis viridis", 7),
                        new Animal("Toadstool leather coral", "Sarcophyton glaucum", 2),
                        new Animal("Cleaner shrimp", "Lysmata amboinensis", 2));
            case FISH_ONLY ->
                List.of(
                        new Animal("Foxface", "Siganus vulpinus", 1),
                        new Animal("Emperor angelfish", "Pomacanthus imperator", 1),
                        new Animal("Picasso triggerfish", "Rhinecanthus aculeatus", 1),
                        new Animal("Domino damsel", "Dascyllus trimaculatus", 4),
                        new Animal("Banggai cardinalfish", "Pterapogon kauderni", 5));
            case FRESHWATER ->
                List.of(
                        new Animal("Neon tetra", "Paracheirodon innesi", 24),
                        new Animal("Freshwater angelfish", "Pterophyllum scalare", 4),
                        new Animal("Bronze corydoras", "Corydoras aeneus", 8),
                        new Animal("Harlequin rasbora", "Trigonostigma heteromorpha", 14));
            case PLANTED ->
                List.of(
                        new Animal("Cardinal tetra", "Paracheirodon axelrodi", 22),
                        new Animal("Amano shrimp", "Caridina multidentata", 12),
                        new Animal("Otocinclus", "Otocinclus vittatus", 6));
            case COLDWATER ->
                List.of(new Animal("Goldfish", "Carassius auratus", 9), new Animal("Koi", "Cyprinus rubrofuscus", 3));
            case TANGANYIKA ->
                List.of(
                        new Animal("Lemon cichlid", "Neolamprologus leleupi", 6),
                        new Animal("Frontosa", "Cyphotilapia frontosa", 4));
            case MALAWI ->
                List.of(
                        new Animal("Electric yellow cichlid", "Labidochromis caeruleus", 10),
                        new Animal("Zebra mbuna", "Maylandia zebra", 8));
            case BRACKISH ->
                List.of(
                        new Animal("Banded archerfish", "Toxotes jaculatrix", 5),
                        new Animal("Figure eight puffer", "Dichotomyctere ocellatus", 3));
            case LIVE_SEAFOOD ->
                List.of(
                        new Animal("European lobster", "Homarus gammarus", 12),
                        new Animal("Brown crab", "Cancer pagurus", 10),
                        new Animal("Pacific oyster", "Magallana gigas", 80));
            case HYPOSALINITY, SUPPLY -> List.of();
        };
    }

    /** Kind and place of each device. */
    static List<String> devices(SystemKind kind) {
        return switch (kind) {
            case REEF -> List.of("Return pump", "Protein skimmer", "Heater", "Calcium reactor", "Light");
            case FISH_ONLY -> List.of("Return pump", "Protein skimmer", "Heater", "UV steriliser");
            case LIVE_SEAFOOD -> List.of("Return pump", "Chiller", "Protein skimmer");
            case BRACKISH -> List.of("Return pump", "Heater");
            case COLDWATER -> List.of("Canister filter", "Air pump");
            case FRESHWATER, PLANTED, TANGANYIKA, MALAWI, HYPOSALINITY -> List.of("Canister filter", "Heater", "Light");
            case SUPPLY -> List.of("Booster pump");
        };
    }

    /** What is measured at every visit. */
    static List<Quantity> tests(SystemKind kind) {
        return switch (kind) {
            case REEF -> List.of(Quantity.TEMPERATURE, Quantity.SALINITY, Quantity.ALKALINITY, Quantity.NITRATE);
            case FISH_ONLY -> List.of(Quantity.TEMPERATURE, Quantity.SALINITY, Quantity.NITRATE);
            case BRACKISH -> List.of(Quantity.TEMPERATURE, Quantity.SALINITY, Quantity.PH);
            case LIVE_SEAFOOD -> List.of(Quantity.TEMPERATURE, Quantity.SALINITY, Quantity.AMMONIA, Quantity.OXYGEN);
            case COLDWATER -> List.of(Quantity.TEMPERATURE, Quantity.PH, Quantity.AMMONIA);
            case FRESHWATER, PLANTED, MALAWI, TANGANYIKA ->
                List.of(Quantity.TEMPERATURE, Quantity.PH, Quantity.NITRATE);
            case HYPOSALINITY -> List.of(Quantity.TEMPERATURE, Quantity.SALINITY);
            case SUPPLY -> List.of(Quantity.DISSOLVED_SOLIDS);
        };
    }

    /** What is measured at every fourth visit besides, in turn. */
    static List<Quantity> nowAndThen(SystemKind kind) {
        return switch (kind) {
            case REEF -> List.of(Quantity.CALCIUM, Quantity.MAGNESIUM, Quantity.PHOSPHATE, Quantity.PH);
            case FISH_ONLY -> List.of(Quantity.PH, Quantity.AMMONIA);
            case FRESHWATER, PLANTED -> List.of(Quantity.AMMONIA, Quantity.NITRITE);
            default -> List.of();
        };
    }

    /** What is agreed for a system that is looked after every so many weeks. */
    static List<TaskView> tasks(PlannedSystem system, int everyWeeks) {
        List<TaskView> tasks = new ArrayList<>();
        SystemKind kind = system.kind();
        if (kind.isSalt()) {
            tasks.add(TaskView.topUp());
        }
        tests(kind).forEach(quantity -> tasks.add(TaskView.test(quantity)));
        tasks.add(TaskView.waterChangePercent(BigDecimal.valueOf(percent(system, everyWeeks))));
        switch (kind) {
            case REEF -> {
                tasks.add(socks(system));
                tasks.add(TaskView.dose(ALKALINITY_SOLUTION, rounded(system.litres() / 8), "mL"));
            }
            case FISH_ONLY -> {
                tasks.add(socks(system));
                tasks.add(TaskView.media(CARBON, rounded(system.litres() / 3), "g"));
            }
            case LIVE_SEAFOOD -> {
                tasks.add(socks(system));
                // In a kitchen somebody is always there to swap them between two visits.
                tasks.add(socksLeft(socks(system), everyWeeks));
            }
            case BRACKISH -> tasks.add(TaskView.media(FLOSS, BigDecimal.ONE, "count"));
            case PLANTED -> tasks.add(TaskView.dose(PLANT_FEED, rounded(system.litres() / 20), "mL"));
            // the load sheet reckons the conditioner from the water that is changed
            default -> {}
        }
        tasks.add(TaskView.work(system.acrylic() ? "Wipe the panes with the soft pad" : "Clean the panes"));
        return List.copyOf(tasks);
    }

    /** Large systems lose a smaller share, since everything that goes in comes by van. */
    private static int percent(PlannedSystem system, int everyWeeks) {
        int share = everyWeeks == 1 ? 5 : 10;
        if (system.kind() == SystemKind.COLDWATER || system.kind() == SystemKind.LIVE_SEAFOOD) {
            return share;
        }
        return system.litres() > LARGE_SUMP_FROM_LITRES ? share : share + 5;
    }

    private static TaskView socks(PlannedSystem system) {
        boolean large = system.litres() > LARGE_SUMP_FROM_LITRES;
        return TaskView.sockSwap(large ? 4 : 2, large ? LARGE_SOCK : SOCK, 4);
    }

    private static TaskView socksLeft(TaskView swapped, int everyWeeks) {
        int between =
                Math.ceilDiv(everyWeeks * DAYS_PER_WEEK, swapped.intervalDays().orElseThrow()) - 1;
        return TaskView.socksLeft(
                between * swapped.amount().orElseThrow().intValue(),
                swapped.sockSize().orElseThrow());
    }

    private static BigDecimal rounded(double amount) {
        return BigDecimal.valueOf(Math.max(5, Math.round(amount / 5) * 5)).setScale(0, RoundingMode.HALF_EVEN);
    }
}

package app.tankround.seed;

import static app.tankround.tanks.SystemKind.BRACKISH;
import static app.tankround.tanks.SystemKind.COLDWATER;
import static app.tankround.tanks.SystemKind.FISH_ONLY;
import static app.tankround.tanks.SystemKind.FRESHWATER;
import static app.tankround.tanks.SystemKind.LIVE_SEAFOOD;
import static app.tankround.tanks.SystemKind.MALAWI;
import static app.tankround.tanks.SystemKind.PLANTED;
import static app.tankround.tanks.SystemKind.REEF;
import static app.tankround.tanks.SystemKind.SUPPLY;
import static app.tankround.tanks.SystemKind.TANGANYIKA;

import app.tankround.tanks.SystemKind;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The invented clients around the invented harbour of Carrowquill, with their water systems. */
final class Clientele {

    /** The harbour everything lies around, in degrees. */
    static final double HARBOUR_LATITUDE = 52.0935;

    static final double HARBOUR_LONGITUDE = -7.6300;

    private final List<PlannedSite> sites = new ArrayList<>();
    private int systems = 7;

    private Clientele() {}

    /** The systems at the depot: the water plant and the quarantine. */
    static List<PlannedSystem> atDepot() {
        return List.of(
                of(SUPPLY, "RO/DI plant", 60).coded("W-001"),
                of(SUPPLY, "Purified water vat", 1000).coded("W-002"),
                of(SUPPLY, "Salt water mixing vat", 600).coded("W-003"),
                of(SUPPLY, "Container 1", 200).coded("W-004"),
                of(SUPPLY, "Container 2", 200).tells(Story.CREEPING_SOLIDS).coded("W-005"),
                of(SUPPLY, "Container 3", 200).coded("W-006"),
                of(FISH_ONLY, "Quarantine tank Q1", 180)
                        .started(30)
                        .tells(Story.RESTARTED_QUARANTINE)
                        .coded("W-007"));
    }

    /** The clients in the order in which they are numbered. */
    static List<PlannedSite> all() {
        var clientele = new Clientele();
        clientele.often();
        clientele.regularly();
        clientele.moreSeldom();
        return List.copyOf(clientele.sites);
    }

    private void often() {
        add(
                "Lantern Quay Hotel",
                "Lantern Quay 2",
                1,
                0,
                1,
                0.3,
                0.4,
                hours(7, 18),
                "DB",
                0,
                of(REEF, "Lobby reef", 1400).ofAcrylic(),
                of(FISH_ONLY, "Bar wall", 850),
                of(FRESHWATER, "Breakfast room", 420),
                of(PLANTED, "Spa corner", 300));
        add(
                "Brineford Dental Practice",
                "Cooper Lane 14",
                2,
                0,
                2,
                0.9,
                1.1,
                hours(8, 17),
                "D",
                0,
                of(REEF, "Waiting room reef", 480),
                of(FRESHWATER, "Children's corner", 180));
        add(
                "The Copper Gurnard",
                "Weighhouse Steps 1",
                2,
                0,
                1,
                0.1,
                0.6,
                hours(10, 22),
                "DRB",
                0,
                of(LIVE_SEAFOOD, "Live shellfish holding", 900),
                of(FISH_ONLY, "Dining room", 640));
        add(
                "Ardquill Hospice",
                "Chapel Road 30",
                3,
                0,
                2,
                2.6,
                1.9,
                hours(9, 17),
                "D",
                0,
                of(FRESHWATER, "Day room", 540),
                of(PLANTED, "Garden room", 360),
                of(COLDWATER, "Courtyard pond", 2600));
        add(
                "Quillstrand Credit Union",
                "Market Square 5",
                1,
                1,
                1,
                0.5,
                0.8,
                hours(9, 17),
                "D",
                0,
                of(REEF, "Hall reef", 1100).ofAcrylic(),
                of(FISH_ONLY, "Board room", 520),
                of(REEF, "Entrance cube", 210).started(66).tells(Story.LATE_AMMONIA));
        add(
                "Merrow Street Medical Centre",
                "Merrow Street 41",
                3,
                1,
                2,
                1.4,
                0.7,
                hours(8, 18),
                "D",
                0,
                of(FISH_ONLY, "Main waiting room", 760),
                of(FRESHWATER, "Paediatrics", 260),
                of(MALAWI, "Corridor", 450));
        add(
                "Quillfold Nursing Home",
                "Foxmoor Avenue 8",
                2,
                1,
                2,
                3.8,
                2.9,
                hours(9, 18),
                "D",
                2,
                of(FRESHWATER, "Lounge", 480),
                of(COLDWATER, "Sun porch", 320),
                of(PLANTED, "Library", 240));
        add(
                "Tidal Loft Apartments",
                "Ropewalk 22",
                1,
                2,
                1,
                0.7,
                0.2,
                hours(8, 17),
                "DR",
                0,
                of(REEF, "Atrium reef", 2200).ofAcrylic(),
                of(REEF, "Sky lounge", 900),
                of(REEF, "Gallery reef", 380).started(10).tells(Story.BROWN_FILM));
        add(
                "Quillmouth Grammar School",
                "Old Mill Road 3",
                3,
                2,
                2,
                2.1,
                1.2,
                hours(8, 16),
                "D",
                0,
                of(FRESHWATER, "Biology room", 300),
                of(BRACKISH, "Mangrove tank", 540),
                of(REEF, "Entrance reef", 620));
        add(
                "Harrow & Finch Solicitors",
                "Custom House Row 7",
                1,
                3,
                1,
                0.4,
                0.5,
                hours(9, 17),
                "D",
                0,
                of(REEF, "Reception reef", 720).tells(Story.LOW_SUMP),
                of(FISH_ONLY, "Meeting room", 380));
        add(
                "Saltgrove Garden Centre",
                "Ring Road 112",
                3,
                3,
                2,
                4.5,
                3.4,
                hours(9, 18),
                "DRB",
                0,
                of(FRESHWATER, "Sales row A", 1500),
                of(FRESHWATER, "Sales row B", 1500),
                of(PLANTED, "Plant row", 800),
                of(COLDWATER, "Pond-side vats", 3200),
                of(FISH_ONLY, "Marine row", 1200));
        add(
                "Carrowquill Port Office",
                "Pier Head 1",
                1,
                4,
                2,
                0.0,
                0.3,
                hours(8, 16),
                "D",
                0,
                of(FISH_ONLY, "Front desk tank", 620).tells(Story.KNOCKED_REFRACTOMETER));
        add(
                "Ormskell's Oyster Room",
                "Fish Stairs 9",
                1,
                4,
                1,
                0.2,
                0.7,
                hours(11, 22),
                "DB",
                1,
                of(LIVE_SEAFOOD, "Oyster and lobster tank", 700),
                of(FISH_ONLY, "Counter", 400));
        add(
                "Bellweather Conference Centre",
                "Harbour View 60",
                2,
                4,
                1,
                1.2,
                0.4,
                hours(8, 19),
                "DR 80",
                0,
                of(REEF, "Foyer cylinder", 3000).ofAcrylic(),
                of(FISH_ONLY, "Restaurant wall", 1600),
                of(FRESHWATER, "Staff canteen", 350));
    }

    private void regularly() {
        add(
                "Pascoe, family of",
                "Beacon Hill 17",
                2,
                0,
                1,
                1.6,
                1.5,
                none(),
                "D",
                0,
                of(REEF, "Living room reef", 560),
                of(REEF, "Frag tank", 150));
        add(
                "Thornquill Architects",
                "Sail Yard 4",
                3,
                0,
                1,
                0.6,
                1.2,
                hours(9, 18),
                "D",
                0,
                of(PLANTED, "Studio aquascape", 420),
                of(PLANTED, "Kitchen cube", 90),
                of(FRESHWATER, "Model shop", 240));
        add(
                "Linnetfold Veterinary Clinic",
                "Station Road 25",
                3,
                0,
                2,
                1.9,
                2.2,
                hours(8, 18),
                "D",
                0,
                of(FRESHWATER, "Waiting room", 320),
                of(BRACKISH, "Archerfish tank", 480));
        add(
                "Tarquil Motor Showroom",
                "Ring Road 88",
                3,
                0,
                1,
                4.1,
                3.0,
                hours(9, 18),
                "DR 200",
                3,
                of(FISH_ONLY, "Showroom", 980).ofAcrylic(),
                of(MALAWI, "Workshop desk", 420));
        add(
                "Dunquill Public Library",
                "Parade 1",
                3,
                1,
                1,
                0.8,
                0.9,
                hours(10, 17),
                "D",
                0,
                of(FRESHWATER, "Reading room", 450),
                of(PLANTED, "Children's library", 260),
                of(COLDWATER, "Porch", 200));
        add(
                "Aldery, Mr",
                "Windmill Close 6",
                3,
                1,
                2,
                2.9,
                1.4,
                none(),
                "D",
                0,
                of(TANGANYIKA, "Study", 400),
                of(TANGANYIKA, "Hall", 250));
        add(
                "Corbelquay Insurance Brokers",
                "Bank Street 12",
                3,
                2,
                2,
                0.6,
                0.6,
                hours(9, 17),
                "D",
                0,
                of(FISH_ONLY, "Reception", 540),
                of(REEF, "Partners' room", 300));
        add(
                "Ondrell Physiotherapy",
                "Castle Street 33",
                3,
                2,
                1,
                1.1,
                1.0,
                hours(8, 19),
                "D",
                0,
                of(FRESHWATER, "Treatment room", 200),
                of(PLANTED, "Waiting room", 280));
        add(
                "Rivenhall, Dr",
                "The Crescent 2",
                3,
                3,
                2,
                2.3,
                0.9,
                none(),
                "DR",
                0,
                of(REEF, "Library reef", 980),
                of(REEF, "Seahorse tank", 240),
                of(FISH_ONLY, "Hall", 450));
        add(
                "Marram Yacht Club",
                "Breakwater 3",
                3,
                3,
                1,
                0.1,
                0.9,
                hours(9, 21),
                "D",
                0,
                of(FISH_ONLY, "Club room", 880),
                of(REEF, "Members' bar", 520),
                of(FRESHWATER, "Junior sailors", 180));
        add(
                "Gannockfold Guesthouse",
                "Granary Lane 10",
                3,
                4,
                2,
                1.7,
                1.8,
                hours(8, 20),
                "D",
                0,
                of(FRESHWATER, "Breakfast room", 300),
                of(COLDWATER, "Yard pond", 1800));
        add(
                "Hollowmere Funeral Home",
                "Priory Road 19",
                4,
                5,
                1,
                1.5,
                2.0,
                hours(9, 17),
                "D",
                0,
                of(PLANTED, "Quiet room", 360),
                of(FRESHWATER, "Entrance", 240));
        add(
                "Ninth Pier Fish Kitchen",
                "North Pier 5",
                4,
                5,
                2,
                0.2,
                0.2,
                hours(10, 21),
                "D",
                0,
                of(FISH_ONLY, "Window tank", 560),
                of(BRACKISH, "Mudskipper shore", 260));
        add(
                "Eldermere Primary School",
                "Eldermere Road 2",
                4,
                6,
                1,
                3.1,
                1.1,
                hours(8, 15),
                "D",
                4,
                of(FRESHWATER, "Assembly hall", 360),
                of(COLDWATER, "Class 3", 120),
                of(PLANTED, "Class 5", 120));
        add(
                "Sorrel & Daughters, jewellers",
                "Goldsmith Row 4",
                4,
                7,
                2,
                0.7,
                0.7,
                hours(10, 18),
                "D",
                0,
                of(REEF, "Shop window", 180),
                of(REEF, "Back room", 320));
        add(
                "Haverstock, family of",
                "Cliff Walk 44",
                4,
                7,
                1,
                2.5,
                0.3,
                none(),
                "DB",
                0,
                of(REEF, "Garden room reef", 1250),
                of(FISH_ONLY, "Cinema room", 700),
                of(COLDWATER, "Terrace pond", 4200));
        add(
                "Brannockquay Logistics",
                "Container Road 70",
                4,
                8,
                2,
                3.6,
                3.8,
                hours(7, 17),
                "D",
                6,
                of(FRESHWATER, "Canteen", 480),
                of(MALAWI, "Dispatch office", 380));
        add(
                "Inkwrack Tattoo Studio",
                "Net Makers Alley 8",
                4,
                9,
                1,
                0.5,
                0.3,
                hours(11, 19),
                "D",
                8,
                of(REEF, "Studio reef", 260),
                of(FISH_ONLY, "Front", 340));
    }

    private void moreSeldom() {
        add(
                "Whinquill Court, residents of",
                "Whinquill Court",
                3,
                0,
                2,
                2.2,
                2.7,
                none(),
                "D",
                0,
                of(FRESHWATER, "Common room", 400),
                of(FRESHWATER, "Staircase B", 240),
                of(PLANTED, "Staircase C", 240));
        add(
                "Tarnquill Museum",
                "Museum Gardens 1",
                3,
                6,
                1,
                1.3,
                0.9,
                hours(10, 17),
                "D",
                0,
                of(BRACKISH, "Estuary exhibit", 1400).ofAcrylic(),
                of(FISH_ONLY, "Rock pool exhibit", 1800),
                of(FRESHWATER, "River exhibit", 2400).ofAcrylic(),
                of(REEF, "Travelling reef", 700),
                of(PLANTED, "Wetland exhibit", 600));
        add(
                "Osier Lane Day Nursery",
                "Osier Lane 15",
                3,
                11,
                2,
                2.8,
                2.4,
                hours(8, 17),
                "D",
                5,
                of(FRESHWATER, "Play room", 180),
                of(FRESHWATER, "Corridor", 150));
        add(
                "Pellworth, Ms",
                "Lighthouse Road 9",
                4,
                0,
                1,
                0.9,
                0.1,
                none(),
                "D",
                0,
                of(PLANTED, "Kitchen aquascape", 160),
                of(FRESHWATER, "Bedroom", 110));
        add(
                "Gorsequill Radio",
                "Mast Road 1",
                4,
                5,
                2,
                5.2,
                1.6,
                hours(9, 18),
                "D",
                0,
                of(FISH_ONLY, "Studio 1", 420),
                of(FRESHWATER, "Lobby", 260),
                of(MALAWI, "Newsroom", 400));
        add(
                "Inchquill Hotel",
                "Causeway 12",
                4,
                12,
                1,
                1.0,
                4.2,
                hours(8, 20),
                "D",
                0,
                of(FRESHWATER, "Lounge", 520),
                of(COLDWATER, "Conservatory", 700),
                of(FISH_ONLY, "Bar", 640),
                of(PLANTED, "Stairwell", 220));
        add(
                "Vesperquill Yoga House",
                "Abbey Row 6",
                4,
                17,
                2,
                1.6,
                0.5,
                hours(9, 20),
                "D",
                10,
                of(PLANTED, "Hall aquascape", 300),
                of(FRESHWATER, "Reception", 180),
                of(TANGANYIKA, "Office", 240));
    }

    /** @param has what is there: D a drain, R its own RO/DI water, B a mixing barrel; a number is L that the van may take */
    private void add(
            String name,
            String street,
            int everyWeeks,
            int slot,
            int van,
            double northKm,
            double westKm,
            Optional<PlannedSite.Hours> hours,
            String has,
            int sinceMonth,
            PlannedSystem... at) {
        List<PlannedSystem> coded = new ArrayList<>();
        for (PlannedSystem system : at) {
            systems++;
            coded.add(system.coded("W-%03d".formatted(systems)));
        }
        sites.add(new PlannedSite(
                sites.size() + 1,
                name,
                street,
                everyWeeks,
                slot,
                van,
                northKm,
                westKm,
                hours,
                has.contains("D"),
                has.contains("R"),
                has.contains("B"),
                Optional.of(has.replaceAll("\\D", ""))
                        .filter(digits -> !digits.isEmpty())
                        .map(Integer::valueOf),
                sinceMonth,
                List.copyOf(coded)));
    }

    private static PlannedSystem of(SystemKind kind, String name, double litres) {
        return PlannedSystem.of(kind, name, litres);
    }

    private static Optional<PlannedSite.Hours> hours(int from, int until) {
        return Optional.of(new PlannedSite.Hours(LocalTime.of(from, 0), LocalTime.of(until, 0)));
    }

    private static Optional<PlannedSite.Hours> none() {
        return Optional.empty();
    }
}

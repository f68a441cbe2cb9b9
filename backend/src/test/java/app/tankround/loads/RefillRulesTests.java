package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.clients.SiteId;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.SystemKind;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;

/** RO/DI water that is filled at a site on the way, on the sheet and leg by leg. */
class RefillRulesTests {

    /** Water at 20 °C, kg/L (Tanaka et al., Metrologia 38 (2001) 301: 998.207 kg/m³; EOS-80 at salinity 0 says 998.206). */
    private static final double WATER_KG = 0.9982;

    private static final double EMPTY_KG = 1.2;
    private static final double FIXED_KG = 144;
    private static final VanView VAN = Work.van(25, EMPTY_KG);

    /** 40 L at the third stop: 30 are filled at the second, so 10 leave the depot, and two drums go along empty. */
    @Test
    void containersForLaterStopsGoAlongEmpty() {
        List<SystemWork> works = List.of(changes(1, 20), Work.at(2).refills(30).does(), changes(3, 40));
        LoadRules.Needs needs = needs(works, List.of());
        LoadLine refill = refills(needs).getFirst();
        assertThat(refills(needs)).hasSize(1);
        assertThat(refill.amount()).isEqualByComparingTo("2");
        assertThat(refill.mass().kilograms()).isCloseTo(2 * EMPTY_KG, within(1e-9));
        assertThat(refill.refill().orElseThrow().position()).isEqualTo(2);
        assertThat(refill.refill().orElseThrow().volume().litres()).isEqualTo(30);
        assertThat(refill.stops()).extracting(StopShare::position).containsExactly(3);
        assertThat(refill.isLiftedFull()).isFalse();
        assertThat(refill.litres(BigDecimal.ONE).orElseThrow()).isEqualByComparingTo("15");
        assertThat(litresFromDepot(needs)).isCloseTo(30, within(1e-6));
        double empties = 4 * EMPTY_KG;
        assertLegs(works, needs, 30 * WATER_KG + empties, 10 * WATER_KG + empties, 40 * WATER_KG + empties, empties);
        assertThat(DrumLift.of(needs.lines(), VAN.drumEmpty(), VAN.floorOrUsualCm())
                        .orElseThrow()
                        .drums())
                .isEqualTo(2);
        assertThat(codes(needs)).contains("loads.note.refill", "loads.note.refill-lift");
    }

    @Test
    void nothingIsFilledWhereNoLaterStopNeedsAny() {
        List<SystemWork> works = List.of(changes(1, 20), Work.at(2).refills(30).does());
        LoadRules.Needs needs = needs(works, List.of());
        assertThat(refills(needs)).isEmpty();
        assertThat(litresFromDepot(needs)).isCloseTo(20, within(1e-6));
        assertThat(codes(needs)).contains("loads.note.refill-nothing");
    }

    @Test
    void nothingIsFilledBesideASickSystemNorForOne() {
        List<SystemWork> atSick = List.of(
                Work.at(1).refills(30).does(),
                Work.at(1).infection(InfectionClass.SUSPECTED).does(),
                changes(2, 20));
        assertThat(refills(needs(atSick, List.of()))).isEmpty();
        assertThat(codes(needs(atSick, List.of()))).contains("loads.note.refill-sick");
        List<SystemWork> forSick = List.of(
                Work.at(1).refills(30).does(),
                Work.at(2)
                        .kind(SystemKind.FRESHWATER)
                        .infection(InfectionClass.QUARANTINE)
                        .does(TaskView.waterChangeLitres(BigDecimal.TEN)),
                changes(3, 12));
        LoadRules.Needs needs = needs(forSick, List.of());
        assertThat(refills(needs))
                .singleElement()
                .satisfies(line ->
                        assertThat(line.stops()).extracting(StopShare::position).containsExactly(3));
        assertThat(litresFromDepot(needs)).isCloseTo(10, within(1e-6));
    }

    /** More was decided than the site allows now. */
    @Test
    void takesNoMoreThanTheSiteAllows() {
        SystemWork site = Work.at(1).refills(8).does();
        SystemWork decided = new SystemWork(
                1,
                site.site(),
                site.system(),
                site.salinity(),
                site.suits(),
                true,
                7,
                false,
                new RefillHere(30, false),
                List.of(),
                List.of());
        assertThat(refills(needs(List.of(decided, changes(2, 20)), List.of())))
                .singleElement()
                .satisfies(
                        line -> assertThat(line.refill().orElseThrow().volume().litres())
                                .isEqualTo(8));
    }

    /**
     * What stands in the van is not filled on the way, each container serves once, and marks keep within what one person should
     * lift from the ground.
     */
    @Test
    void namesContainersAndTheirMarks() {
        List<WaterContainerView> containers =
                List.of(container("F1", 20, 3, true), container("F2", 20, 1.1, false), container("F3", 20, 1.1, false));
        List<SystemWork> works = List.of(changes(1, 15), Work.at(2).refills(30).does(), changes(3, 14));
        LoadRules.Needs needs = needs(works, containers);
        assertThat(needs.lines())
                .filteredOn(line -> line.group() == LoadGroup.RO_DI_WATER)
                .extracting(LoadLine::key)
                .containsExactly("ro-di:no:F1:15.0");
        double limit = DrumLift.limit(2, 0, VAN.floorOrUsualCm());
        String site = new SiteId(new UUID(2, 2)).toString();
        assertThat(refills(needs))
                .extracting(LoadLine::key)
                .containsExactly("container:F2:refill:" + site, "container:F3:refill:" + site);
        double filled = 0;
        for (LoadLine line : refills(needs)) {
            LoadedContainer container = line.container().orElseThrow();
            assertThat(container.overLimit()).isFalse();
            assertThat(container.level().litres() * WATER_KG + 1.1).isLessThanOrEqualTo(limit + 1e-3);
            assertThat(line.mass().kilograms()).isEqualTo(1.1);
            filled += line.refill().orElseThrow().volume().litres();
        }
        assertThat(filled).isCloseTo(14, within(0.1));
        assertThat(Refill.siteOf(refills(needs).getFirst().key())).contains(new SiteId(new UUID(2, 2)));
        assertThat(Refill.siteOf("container:F2:waste")).isEmpty();
        double empties = 3 + 2 * 1.1;
        assertLegs(works, needs, 15 * WATER_KG + empties, empties, 14 * WATER_KG + empties, empties);
    }

    /** The mass on every leg of 300 invented rounds, counted again by driving them. */
    @Test
    void everyLegWeighsWhatIsInTheVan() {
        Random random = new Random(11);
        int refilled = 0;
        for (int k = 0; k < 300; k++) {
            int stops = 2 + random.nextInt(5);
            List<SystemWork> works = new ArrayList<>();
            Map<Integer, Double> needed = new HashMap<>();
            for (int stop = 1; stop <= stops; stop++) {
                if (random.nextInt(3) == 0) {
                    works.add(Work.at(stop).refills(5 + random.nextInt(40)).does());
                } else {
                    int litres = 1 + random.nextInt(60);
                    needed.put(stop, (double) litres);
                    works.add(changes(stop, litres));
                }
            }
            LoadRules.Needs needs = needs(works, List.of());
            Map<Integer, Double> filled = new HashMap<>();
            refills(needs)
                    .forEach(line -> filled.merge(
                            line.refill().orElseThrow().position(),
                            line.refill().orElseThrow().volume().litres(),
                            Double::sum));
            refilled += filled.isEmpty() ? 0 : 1;
            double water = litresFromDepot(needs);
            assertThat(water
                            + filled.values().stream()
                                    .mapToDouble(Double::doubleValue)
                                    .sum())
                    .isCloseTo(
                            needed.values().stream()
                                    .mapToDouble(Double::doubleValue)
                                    .sum(),
                            within(1e-6));
            double empties = EMPTY_KG * Math.ceil(water / 25 - 1e-9);
            for (double litres : filled.values()) {
                empties += EMPTY_KG * Math.ceil(litres / 25 - 1e-9);
            }
            for (int stop = 0; stop <= stops; stop++) {
                water += filled.getOrDefault(stop, 0.0) - needed.getOrDefault(stop, 0.0);
                assertThat(water).isGreaterThanOrEqualTo(-1e-6);
                assertThat(WayBack.after(stop, VAN, works, needs.lines()).kilograms())
                        .as("after stop %d of %s", stop, needs.lines())
                        .isCloseTo(FIXED_KG + empties + water * WATER_KG, within(0.02));
            }
            Set<String> keys = new HashSet<>();
            assertThat(needs.lines())
                    .allSatisfy(line -> assertThat(keys.add(line.key())).isTrue());
        }
        assertThat(refilled).isGreaterThan(100);
    }

    private static void assertLegs(List<SystemWork> works, LoadRules.Needs needs, double... loads) {
        for (int stop = 0; stop < loads.length; stop++) {
            assertThat(WayBack.after(stop, VAN, works, needs.lines()).kilograms())
                    .as("after stop %d", stop)
                    .isCloseTo(FIXED_KG + loads[stop], within(0.02));
        }
    }

    private static SystemWork changes(int position, int litres) {
        return Work.at(position)
                .kind(SystemKind.FRESHWATER)
                .does(TaskView.waterChangeLitres(BigDecimal.valueOf(litres)));
    }

    private static List<LoadLine> refills(LoadRules.Needs needs) {
        return needs.lines().stream()
                .filter(line -> line.group() == LoadGroup.FILLED_ON_THE_WAY)
                .toList();
    }

    /** Of drums and containers of all systems, by what the sheet says is in them. */
    private static double litresFromDepot(LoadRules.Needs needs) {
        return needs.lines().stream()
                .filter(line -> line.group() == LoadGroup.RO_DI_WATER)
                .mapToDouble(line -> line.litres(line.amount()).orElseThrow().doubleValue())
                .sum();
    }

    private static List<String> codes(LoadRules.Needs needs) {
        return needs.notes().stream().map(LoadText::code).toList();
    }

    private static LoadRules.Needs needs(List<SystemWork> works, List<WaterContainerView> containers) {
        return LoadRules.of(VAN, 0.9, Work.weights(), works, InstrumentKit.NONE, LoadLevels.PLANNED, containers);
    }

    private static WaterContainerView container(String number, double litres, double empty, boolean pumped) {
        return new WaterContainerView(
                WaterContainerId.of(UUID.nameUUIDFromBytes(number.getBytes(java.nio.charset.StandardCharsets.UTF_8))),
                number,
                Optional.of(VAN.id()),
                Optional.empty(),
                ContainerRole.FRESH,
                Volume.ofLitres(litres),
                Mass.ofKilograms(empty),
                pumped,
                0,
                false,
                0);
    }
}

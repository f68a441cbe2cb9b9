package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.VanId;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.loads.ContainerChoice.Cost;
import app.tankround.loads.ContainerChoice.Filled;
import app.tankround.loads.ContainerChoice.Limit;
import app.tankround.loads.ContainerChoice.Need;
import app.tankround.loads.ContainerChoice.Served;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;

/**
 * The choice of containers against every possible choice of small invented cases, which share no code with the search but the
 * order of the ranks. Sizes and masses of containers are made up; limits are those of the lifting equation ({@code DrumLiftTests}).
 */
class ContainerChoiceTests {

    private static final Limit NIOSH = (container, lifts) -> DrumLift.limit(lifts, container.standsCm(), 60);
    private static final int CASES = 1500;
    private static final int TENTHS = 10;

    @Test
    void isAsGoodAsTheBestOfAllChoicesInSmallCases() {
        Random random = new Random(20261127);
        for (int at = 0; at < CASES; at++) {
            List<WaterContainerView> containers = containers(random, 1 + random.nextInt(5));
            List<Need> needs = needs(random, 1 + random.nextInt(3));
            // Steeper than the lifting equation, so that the number of lifts decides more often.
            double steep = random.nextInt(3) * 0.8;
            Limit limit = (container, lifts) ->
                    Math.max(0, DrumLift.limit(lifts, container.standsCm(), 60) * 1.6 - steep * (lifts - 1));

            ContainerChoice choice = ContainerChoice.of(needs, containers, limit);

            Cost best = new EveryChoice(needs, containers, limit).best();
            assertThat(choice.cost())
                    .as("case %d: %s of %s", at, needs, containers)
                    .isEqualTo(best);
            assertThat(costOf(choice, needs, limit)).as("case %d", at).isEqualTo(best);
            assertThat(ContainerChoice.of(needs, containers, limit).cost()).isEqualTo(best);
        }
    }

    /** As many as a van has: no choice is proven best, but each keeps to the rules, and soon. */
    @Test
    void keepsToTheRulesInLargeCases() {
        Random random = new Random(7);
        long began = System.nanoTime();
        for (int at = 0; at < 60; at++) {
            List<WaterContainerView> containers = containers(random, 25 + random.nextInt(20));
            List<Need> needs = needs(random, 6);
            ContainerChoice choice = ContainerChoice.of(needs, containers, NIOSH);
            assertThat(costOf(choice, needs, NIOSH).withoutTenths())
                    .isEqualTo(choice.cost().withoutTenths());
            assertThat(costOf(choice, needs, NIOSH).lifts())
                    .isEqualTo(choice.cost().lifts());
        }
        assertThat((System.nanoTime() - began) / 1e9).isLessThan(60);
    }

    @Test
    void pumpsBeforeItLifts() {
        WaterContainerView tank = salt("T", 200, 12, true);
        Served served = served(150, tank, salt("1", 20, 1.1, false), salt("2", 20, 1.1, false));
        assertThat(served.containers())
                .extracting(
                        filled -> filled.container().number(),
                        filled -> filled.level().litres())
                .containsExactly(tuple("T", 150.0));
    }

    /** Two lifts would do, but each of them would be over the limit, which is 10.409 kg for up to three (DrumLiftTests). */
    @Test
    void takesMoreLiftsWhereNoneIsTooHeavyThen() {
        Served served = served(
                24,
                salt("1", 20, 1.1, false),
                salt("2", 20, 1.1, false),
                salt("3", 20, 1.1, false),
                salt("4", 20, 1.1, false));
        assertThat(served.containers()).hasSize(3).noneMatch(Filled::overLimit);
        // (10.409 - 1.1) kg at 1.025 kg a litre are 9.08 L.
        assertThat(served.containers())
                .extracting(filled -> filled.level().litres())
                .containsExactly(9.0, 9.0, 6.0);
    }

    @Test
    void liftsWhatIsTooHeavyOnlyWhereItCannotBeAvoided() {
        Served served = served(30, salt("1", 20, 1.1, false), salt("2", 20, 1.1, false));
        assertThat(served.containers()).hasSize(2);
        assertThat(served.containers().stream().filter(Filled::overLimit)).hasSize(2);
        Served one = served(25, salt("1", 20, 1.1, false), salt("2", 20, 1.1, false));
        assertThat(one.containers().stream().filter(Filled::overLimit)).hasSize(1);
    }

    @Test
    void takesFromThePoolOnlyWhatItsOwnCannotHold() {
        WaterContainerView pooled = container("P", ContainerRole.SALT, 200, 5, true, 0, false);
        assertThat(served(9, pooled, salt("1", 20, 1.1, false)).containers())
                .extracting(filled -> filled.container().number())
                .containsExactly("1");
        assertThat(served(60, pooled, salt("1", 20, 1.1, false)).containers())
                .extracting(filled -> filled.container().number())
                .containsExactly("P");
    }

    @Test
    void saysHowMuchFindsNoContainer() {
        Served served = served(50, salt("1", 20, 1.1, false));
        assertThat(served.without().litres()).isEqualTo(30);
        assertThat(served.containers()).hasSize(1);
        assertThat(served(50).without().litres()).isEqualTo(50);
        WaterContainerView waste = container("W", ContainerRole.WASTE, 200, 5, true, 0, true);
        WaterContainerView fresh = container("F", ContainerRole.FRESH, 200, 5, true, 0, true);
        assertThat(served(50, waste, fresh).containers()).isEmpty();
    }

    @Test
    void waterThatDiffersSharesNoContainer() {
        WaterContainerView one = salt("1", 100, 4, true);
        WaterContainerView two = salt("2", 100, 4, true);
        List<Need> needs = List.of(need("a", ContainerRole.SALT, 10), need("b", ContainerRole.SALT, 10));
        ContainerChoice both = ContainerChoice.of(needs, List.of(one, two), NIOSH);
        assertThat(both.cost().withoutTenths()).isZero();
        assertThat(both.of(needs.get(0)).containers().getFirst().container())
                .isNotEqualTo(both.of(needs.get(1)).containers().getFirst().container());
        assertThat(ContainerChoice.of(needs, List.of(one), NIOSH).cost().withoutTenths())
                .isEqualTo(100);
    }

    /** A rack at 35 cm brings the handles to 75 cm, where the lifting equation takes nothing off for the height. */
    @Test
    void prefersWhatStandsWhereMoreMayBeLifted() {
        WaterContainerView ground = salt("G", 20, 1.1, false);
        WaterContainerView rack = container("R", ContainerRole.SALT, 20, 1.1, false, 35, true);
        assertThat(served(10.5, ground, rack).containers())
                .extracting(filled -> filled.container().number())
                .containsExactly("R");
    }

    @Test
    void goesEmptyToWhereItIsMixedAndIsNoLift() {
        Need mixed = new Need("mix", ContainerRole.SALT, Volume.ofLitres(35), 1, true);
        ContainerChoice choice = ContainerChoice.of(
                List.of(mixed),
                List.of(salt("T", 200, 5, true), salt("1", 20, 1.1, false), salt("2", 20, 1.1, false)),
                NIOSH);
        assertThat(choice.of(mixed).containers())
                .extracting(filled -> filled.container().number())
                .containsExactly("1", "2");
        assertThat(choice.cost().lifts()).isZero();
        assertThat(choice.cost().overLimit()).isZero();
    }

    private static Served served(double litres, WaterContainerView... containers) {
        Need need = need("salt", ContainerRole.SALT, litres);
        return ContainerChoice.of(List.of(need), List.of(containers), NIOSH).of(need);
    }

    private static Need need(String key, ContainerRole role, double litres) {
        return new Need(key, role, Volume.ofLitres(litres), 1.025, false);
    }

    private static WaterContainerView salt(String number, double litres, double empty, boolean pumped) {
        return container(number, ContainerRole.SALT, litres, empty, pumped, 0, true);
    }

    private static WaterContainerView container(
            String number,
            ContainerRole role,
            double litres,
            double empty,
            boolean pumped,
            double standsCm,
            boolean own) {
        return new WaterContainerView(
                WaterContainerId.of(UUID.nameUUIDFromBytes(number.getBytes(StandardCharsets.UTF_8))),
                number,
                own ? Optional.of(VanId.of(new UUID(3, 1))) : Optional.empty(),
                own ? Optional.empty() : Optional.of(DepotId.of(new UUID(4, 1))),
                role,
                Volume.ofLitres(litres),
                Mass.ofKilograms(empty),
                pumped,
                standsCm,
                false,
                1);
    }

    private static List<WaterContainerView> containers(Random random, int count) {
        List<WaterContainerView> containers = new ArrayList<>();
        ContainerRole[] roles = {ContainerRole.SALT, ContainerRole.SALT, ContainerRole.FRESH, ContainerRole.TREATMENT};
        double[] sizes = {5, 10, 10, 20, 25, 60};
        for (int at = 0; at < count; at++) {
            double size = random.nextInt(3) == 0 ? 1 + random.nextInt(400) / 10.0 : sizes[random.nextInt(sizes.length)];
            containers.add(container(
                    Integer.toString(at),
                    roles[random.nextInt(roles.length)],
                    size,
                    random.nextInt(5) == 0 ? 14 : 0.5 + random.nextInt(30) / 10.0,
                    random.nextInt(5) == 0,
                    random.nextInt(3) == 0 ? 35 : 0,
                    random.nextInt(4) != 0));
        }
        return containers;
    }

    private static List<Need> needs(Random random, int count) {
        List<Need> needs = new ArrayList<>();
        ContainerRole[] roles = {ContainerRole.SALT, ContainerRole.SALT, ContainerRole.FRESH, ContainerRole.TREATMENT};
        for (int at = 0; at < count; at++) {
            needs.add(new Need(
                    "need " + at,
                    roles[random.nextInt(roles.length)],
                    Volume.ofLitres(0.1 + random.nextInt(600) / 10.0),
                    random.nextBoolean() ? 1.025 : 0.998,
                    random.nextInt(8) == 0));
        }
        return needs;
    }

    /** What a choice costs by what it says, checked against the rules on the way. */
    private static Cost costOf(ContainerChoice choice, List<Need> needs, Limit limit) {
        Set<WaterContainerId> taken = new HashSet<>();
        int lifts = 0;
        int pooled = 0;
        int containers = 0;
        long grams = 0;
        int without = 0;
        for (Need need : needs) {
            Served served = choice.of(need);
            double held = 0;
            for (Filled filled : served.containers()) {
                WaterContainerView container = filled.container();
                assertThat(taken.add(container.id()))
                        .as("%s holds one thing", container.number())
                        .isTrue();
                assertThat(container.role()).isEqualTo(need.role());
                assertThat(filled.level().litres())
                        .isPositive()
                        .isLessThanOrEqualTo(container.size().litres());
                assertThat(need.filledThere() && container.pumped()).isFalse();
                held += filled.level().litres();
                lifts += container.pumped() || need.filledThere() ? 0 : 1;
                pooled += container.van().isEmpty() ? 1 : 0;
                grams += Math.round(container.empty().kilograms() * 1000);
                containers++;
            }
            assertThat(Math.round((held + served.without().litres()) * TENTHS))
                    .isEqualTo(Math.round(need.volume().litres() * TENTHS));
            without += (int) Math.round(served.without().litres() * TENTHS);
        }
        int over = 0;
        for (Need need : needs) {
            for (Filled filled : choice.of(need).containers()) {
                boolean lifted = !filled.container().pumped() && !need.filledThere();
                double mass = filled.level().litres() * need.kilogramsPerLitre()
                        + filled.container().empty().kilograms();
                boolean tooHeavy = lifted && mass > limit.kilograms(filled.container(), lifts) + 1e-6;
                assertThat(filled.overLimit()).isEqualTo(tooHeavy);
                over += tooHeavy ? 1 : 0;
            }
        }
        return new Cost(without, over, pooled, lifts, grams, containers);
    }

    /** Gives each container to nobody or to one need, filled up to the limit or to the brim. */
    private static final class EveryChoice {

        private final List<Need> needs;
        private final List<WaterContainerView> containers;
        private final Limit limit;
        private final int[] need;
        private final boolean[] brim;
        private Cost best = new Cost(Integer.MAX_VALUE, 0, 0, 0, 0, 0);

        EveryChoice(List<Need> needs, List<WaterContainerView> containers, Limit limit) {
            this.needs = needs;
            this.containers = containers;
            this.limit = limit;
            this.need = new int[containers.size()];
            this.brim = new boolean[containers.size()];
        }

        Cost best() {
            choose(0);
            return best;
        }

        private void choose(int at) {
            if (at == containers.size()) {
                best = Collections.min(List.of(best, cost()));
                return;
            }
            for (int to = -1; to < needs.size(); to++) {
                need[at] = to;
                if (to >= 0 && needs.get(to).role() != containers.get(at).role()) {
                    continue;
                }
                brim[at] = false;
                choose(at + 1);
                if (to >= 0) {
                    brim[at] = true;
                    choose(at + 1);
                }
            }
        }

        private Cost cost() {
            int lifts = 0;
            int pooled = 0;
            int count = 0;
            long grams = 0;
            for (int at = 0; at < need.length; at++) {
                if (need[at] >= 0) {
                    WaterContainerView container = containers.get(at);
                    boolean there = needs.get(need[at]).filledThere();
                    if (there && container.pumped()) {
                        return best;
                    }
                    lifts += container.pumped() || there ? 0 : 1;
                    pooled += container.van().isEmpty() ? 1 : 0;
                    grams += Math.round(container.empty().kilograms() * 1000);
                    count++;
                }
            }
            int over = 0;
            long[] held = new long[needs.size()];
            for (int at = 0; at < need.length; at++) {
                if (need[at] >= 0) {
                    WaterContainerView container = containers.get(at);
                    Need here = needs.get(need[at]);
                    long full = (long) Math.floor(container.size().litres() * TENTHS + 1e-6);
                    long within = full;
                    if (!container.pumped() && !here.filledThere()) {
                        double litres = (limit.kilograms(container, lifts)
                                        - container.empty().kilograms())
                                / here.kilogramsPerLitre();
                        within = Math.min(full, (long) Math.floor(litres * TENTHS + 1e-6));
                    }
                    if (brim[at] && within < full) {
                        over++;
                        held[need[at]] += full;
                    } else if (within > 0) {
                        held[need[at]] += within;
                    } else {
                        return best;
                    }
                }
            }
            long without = 0;
            for (int to = 0; to < held.length; to++) {
                without += Math.max(0, Math.round(needs.get(to).volume().litres() * TENTHS) - held[to]);
            }
            return new Cost((int) without, over, pooled, lifts, grams, count);
        }
    }
}

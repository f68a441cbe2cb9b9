package app.tankround.health;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.instruments.InstrumentId;
import app.tankround.purification.Place;
import app.tankround.purification.PlantReview;
import app.tankround.purification.PlantState;
import app.tankround.purification.PlantState.ContainerState;
import app.tankround.purification.PlantState.PointState;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.Quarantine;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Every system that is looked after, ranked by {@link HealthRule}, the worst first. */
@Service
public class HealthReview {

    private final HealthQueries queries;
    private final WaterLevels waterLevels;
    private final PlantReview plants;
    private final Quarantine quarantine;
    private final BusinessProfile business;
    private final Clock clock;

    HealthReview(
            HealthQueries queries,
            WaterLevels waterLevels,
            PlantReview plants,
            Quarantine quarantine,
            BusinessProfile business,
            Clock clock) {
        this.queries = queries;
        this.waterLevels = waterLevels;
        this.plants = plants;
        this.quarantine = quarantine;
        this.business = business;
        this.clock = clock;
    }

    /** Today where the business is. */
    public LocalDate today() {
        return LocalDate.ofInstant(clock.instant(), zone());
    }

    ZoneId zone() {
        return business.zone();
    }

    @Transactional(readOnly = true)
    public Review review() {
        LocalDate today = today();
        ZoneId zone = zone();
        List<SystemFacts> facts = withPlants(waterLevels.added(queries.all(today)));
        Map<WaterSystemId, Integer> days = quarantine.days(facts.stream()
                .filter(each -> each.infectionClass() == InfectionClass.QUARANTINE)
                .map(SystemFacts::id)
                .toList());
        return new Review(today, HealthRule.rank(facts, today, zone), days);
    }

    private List<SystemFacts> withPlants(List<SystemFacts> all) {
        Map<WaterSystemId, SystemFacts.Purified> purified = new HashMap<>();
        for (PlantState plant : plants.all()) {
            Map<Optional<String>, ContainerState> within = new HashMap<>();
            Map<SamplePointId, String> names = plant.points().stream()
                    .collect(Collectors.toMap(
                            state -> state.point().id(), state -> state.point().name()));
            for (ContainerState container : plant.containers()) {
                if (container.pointId().isPresent()) {
                    within.put(container.pointId().map(names::get), container);
                } else {
                    purified.put(
                            container.systemId(),
                            new SystemFacts.Purified(
                                    plant.page(), List.of(), Map.of(), Map.of(Optional.empty(), container)));
                }
            }
            purified.put(plant.plantId(), new SystemFacts.Purified(plant.page(), plant.notes(), places(plant), within));
        }
        return all.stream()
                .map(facts -> Optional.ofNullable(purified.get(facts.id()))
                        .map(facts::with)
                        .orElse(facts))
                .toList();
    }

    private static Map<String, Place> places(PlantState plant) {
        return plant.points().stream()
                .filter(state -> state.place().isPresent())
                .collect(Collectors.toMap(
                        (PointState state) -> state.point().name(),
                        state -> state.place().orElseThrow()));
    }

    /**
     * All systems that are looked after.
     *
     * @param ranked the worst first, those without a concern last
     * @param quarantineDays how long the animals of each quarantine are kept apart
     */
    public record Review(LocalDate today, List<SystemHealth> ranked, Map<WaterSystemId, Integer> quarantineDays) {

        public Review {
            ranked = List.copyOf(ranked);
            quarantineDays = Map.copyOf(quarantineDays);
        }

        /** Those with a concern of their own, the worst first. */
        public List<SystemHealth> needed() {
            return ranked.stream().filter(health -> health.own().isPresent()).toList();
        }

        /** Instruments that brought the newest readings of systems into doubt: those of what kills first, then by systems. */
        public List<InstrumentDoubt> instruments() {
            Map<InstrumentId, List<SystemHealth>> systems = new LinkedHashMap<>();
            for (SystemHealth health : ranked) {
                health.instruments()
                        .forEach(id -> systems.computeIfAbsent(id, fresh -> new ArrayList<>())
                                .add(health));
            }
            return systems.entrySet().stream()
                    .map(each -> new InstrumentDoubt(
                            each.getKey(),
                            each.getValue().size(),
                            each.getValue().stream()
                                    .flatMap(health -> health.concerns().stream())
                                    .filter(concern -> concern.instrument()
                                            .filter(each.getKey()::equals)
                                            .isPresent())
                                    .flatMap(concern -> concern.quantity().stream())
                                    .distinct()
                                    .sorted()
                                    .toList()))
                    .sorted(Comparator.comparing(InstrumentDoubt::kills)
                            .thenComparing(InstrumentDoubt::systems)
                            .reversed()
                            .thenComparing(doubt -> doubt.instrument().toString()))
                    .toList();
        }

        /** How many systems are in each state, in the order of the states. */
        public Map<SystemHealth.State, Long> counts() {
            Map<SystemHealth.State, Long> counts = new EnumMap<>(SystemHealth.State.class);
            Arrays.stream(SystemHealth.State.values()).forEach(state -> counts.put(state, 0L));
            ranked.forEach(health -> counts.merge(health.state(), 1L, Long::sum));
            return counts;
        }

        /** Young systems in which a brown film is expected now: nothing is to be done about it. */
        public List<SystemHealth> brownFilm() {
            return ranked.stream()
                    .filter(health -> health.filmWeek().isPresent())
                    .toList();
        }

        /** Systems in quarantine, the one that is over first in front. */
        public List<QuarantineDay> quarantines() {
            return ranked.stream()
                    .map(SystemHealth::facts)
                    .filter(facts -> facts.infectionClass() == InfectionClass.QUARANTINE)
                    .map(facts ->
                            QuarantineDay.of(facts, today, Objects.requireNonNull(quarantineDays.get(facts.id()))))
                    .sorted(Comparator.comparing(QuarantineDay::over)
                            .thenComparing(line -> line.facts().code()))
                    .toList();
        }
    }

    /**
     * An instrument that newest readings were taken with and that is not believed.
     *
     * @param systems how many were last read with it
     * @param quantities what was read
     */
    public record InstrumentDoubt(InstrumentId instrument, int systems, List<Quantity> quantities) {

        public InstrumentDoubt {
            quantities = List.copyOf(quantities);
        }

        /** Whether nobody knows how some water is with what kills. */
        public boolean kills() {
            return quantities.stream().anyMatch(RangeVerdict::kills);
        }
    }

    /**
     * Where a quarantine stands.
     *
     * @param day 1 on the day it began, or began anew because an animal was added
     * @param over the first day on which it may end
     */
    public record QuarantineDay(SystemFacts facts, long day, int of, LocalDate over) {

        static QuarantineDay of(SystemFacts facts, LocalDate today, int days) {
            long gone = ChronoUnit.DAYS.between(facts.classSince(), today);
            return new QuarantineDay(facts, gone + 1, days, facts.classSince().plusDays(days));
        }

        public boolean complete() {
            return day > of;
        }
    }
}

package app.tankround.health;

import app.tankround.chemistry.PurifiedWaterNote;
import app.tankround.purification.Place;
import app.tankround.purification.PlantState.ContainerState;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What the ranking looks at.
 *
 * @param netVolumeLitres of the system
 * @param rhythmDays days from one agreed visit to the next
 * @param careSince since when somebody is meant to come, where that is known
 * @param nextVisit the next due visit from today on
 * @param filmSeenOn the day of the newest visit that says whether there was a brown film, where it says so; empty where it
 *     was gone
 * @param waterLevel how the water stood when the newest salinity was read, where a visit says so
 * @param purified what the plant for purified water says that this is, or that fills it
 * @param series one list for each quantity, and for each sample point of supply water, oldest first
 */
public record SystemFacts(
        WaterSystemId id,
        String code,
        String name,
        String siteName,
        String clientName,
        SystemKind kind,
        InfectionClass infectionClass,
        LocalDate classSince,
        Optional<LocalDate> startedOn,
        double netVolumeLitres,
        int rhythmDays,
        Optional<LocalDate> careSince,
        Optional<LocalDate> nextVisit,
        Optional<LocalDate> filmSeenOn,
        Optional<WaterLevel> waterLevel,
        Optional<Purified> purified,
        List<List<SeriesPoint>> series) {

    public SystemFacts {
        series = series.stream().map(List::copyOf).toList();
    }

    /**
     * The water in the sump when somebody came.
     *
     * @param atMark whether it stood at its running mark
     * @param missingLitres what was filled up, if it was written down
     */
    public record WaterLevel(boolean atMark, Optional<Double> missingLitres) {}

    /**
     * What a plant for purified water says.
     *
     * @param page of the plant
     * @param notes what its stages need; none for a container that is a system of its own
     * @param places of the plant's sample points, by their names
     * @param containers by the name of the sample point, without one where the container is this system
     */
    public record Purified(
            String page,
            List<PurifiedWaterNote> notes,
            Map<String, Place> places,
            Map<Optional<String>, ContainerState> containers) {

        public Purified {
            notes = List.copyOf(notes);
            places = Map.copyOf(places);
            containers = Map.copyOf(containers);
        }
    }

    /** Whole days since water and first livestock went in. */
    public Optional<Long> ageDays(LocalDate today) {
        return startedOn.map(start -> ChronoUnit.DAYS.between(start, today)).filter(days -> days >= 0);
    }

    /** The week of its life that a system is in; the first seven days are week 1. */
    public Optional<Long> week(LocalDate today) {
        return ageDays(today).map(days -> days / 7 + 1);
    }

    SystemFacts with(WaterLevel level) {
        return copy(Optional.of(level), purified);
    }

    SystemFacts with(Purified plant) {
        return copy(waterLevel, Optional.of(plant));
    }

    private SystemFacts copy(Optional<WaterLevel> level, Optional<Purified> plant) {
        return new SystemFacts(
                id,
                code,
                name,
                siteName,
                clientName,
                kind,
                infectionClass,
                classSince,
                startedOn,
                netVolumeLitres,
                rhythmDays,
                careSince,
                nextVisit,
                filmSeenOn,
                level,
                plant,
                series);
    }
}

package app.tankround.accounts;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Who drives which van when, read once. */
public final class Roster {

    /** Hours after which a van should be back, where nobody has said; common practice, no source. */
    private static final int USUAL_MINUTES = 510;

    private final Map<VanId, CrewView> crews;
    private final Map<PersonId, Set<Skill>> skills;
    private final List<Absence> absences;

    Roster(Map<VanId, CrewView> crews, Map<PersonId, Set<Skill>> skills, List<Absence> absences) {
        this.crews = Map.copyOf(crews);
        this.skills = Map.copyOf(skills);
        this.absences = List.copyOf(absences);
    }

    /**
     * A van on one day.
     *
     * @param hours empty where it does not drive on that weekday
     * @param people who is in it, its technician first; empty where all are away, or nobody was named
     * @param skills what they may do between them
     * @param away who would be in it but does not work
     * @param unnamed whether nobody was ever named; such a van is planned all the same
     */
    public record Day(
            Optional<WorkingHours> hours,
            List<PersonId> people,
            Set<Skill> skills,
            List<Absence> away,
            boolean unnamed) {

        /** Whether the van can be planned at all. */
        public boolean drives() {
            return hours.isPresent() && (unnamed || !people.isEmpty());
        }

        /** Whether there are two of them. */
        public boolean isPair() {
            return people.size() > 1;
        }
    }

    /** What is known of a van on a day. */
    public Day on(VanView van, LocalDate day) {
        Optional<CrewView> crew = Optional.ofNullable(crews.get(van.id()));
        Set<PersonId> named = Stream.concat(van.technician().stream(), crew.flatMap(CrewView::second).stream())
                .collect(Collectors.toCollection(LinkedHashSet::new));
        List<Absence> away = absences.stream()
                .filter(absence -> named.contains(absence.person()) && absence.contains(day))
                .toList();
        Set<PersonId> missing = away.stream().map(Absence::person).collect(Collectors.toSet());
        List<PersonId> people =
                named.stream().filter(person -> !missing.contains(person)).toList();
        Set<Skill> between = new HashSet<>();
        people.forEach(
                person -> between.addAll(Optional.ofNullable(skills.get(person)).orElse(Set.of())));
        return new Day(hours(van, day.getDayOfWeek()), people, between, away, named.isEmpty());
    }

    /** When a van is out on a weekday. */
    public Optional<WorkingHours> hours(VanView van, DayOfWeek weekday) {
        Map<DayOfWeek, WorkingHours> known =
                Optional.ofNullable(crews.get(van.id())).map(CrewView::hours).orElseGet(() -> usual(van));
        return Optional.ofNullable(known.get(weekday));
    }

    /** From Monday to Friday, from when the van leaves. */
    static Map<DayOfWeek, WorkingHours> usual(VanView van) {
        LocalTime from = van.leavesAt();
        int until = Math.min(24 * 60 - 1, from.getHour() * 60 + from.getMinute() + USUAL_MINUTES);
        var hours = new WorkingHours(from, LocalTime.of(until / 60, until % 60));
        return Arrays.stream(DayOfWeek.values())
                .filter(day -> day.getValue() <= DayOfWeek.FRIDAY.getValue())
                .collect(Collectors.toMap(Function.identity(), day -> hours));
    }
}

package app.tankround.chemistry;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Whether animals may go into a system: in a young one not before ammonia and nitrite were below detection on two days apart,
 * with a source of ammonia in the tank, since water in which nothing makes ammonia proves nothing; then few at a time. In any
 * system not while either was found last. All common practice, no source.
 */
public final class Stocking {

    /** Days between the two tests: "days apart", own choice of the number. */
    public static final int APART_DAYS = 3;

    /** Animals that may go into a young system within a week, where it holds hardly any: own choice. */
    public static final int FEW = 3;

    /** One more for each of this many that are there: own choice. */
    private static final int PER_THERE = 4;

    /** What a test told. */
    public enum Finding {
        BELOW_DETECTION,
        FOUND,
        /** Nothing seen, by a method that is too coarse or not trusted: counts neither way. */
        CANNOT_TELL
    }

    /** @param day since 1970-01-01 */
    public record Test(long day, boolean nitrite, Finding finding) {}

    public enum Code {
        FREE,
        /** Few at a time; the number says how many more within this week. */
        FEW,
        /** Not both below detection on any day yet. */
        NOT_TESTED,
        /** Found at the newest test, on that day. */
        FOUND,
        /** Below detection on one day only; the second test counts from that day on. */
        ONCE,
        /** Twice below detection, but nobody said that there was a source of ammonia. */
        NO_SOURCE
    }

    /** @param number as the code says; 0 where it says nothing */
    public record Answer(Code code, long number) {

        public boolean held() {
            return code != Code.FREE && code != Code.FEW;
        }

        /** Whether so many animals go in against it. */
        public boolean speaksAgainst(int animals) {
            return held() || code == Code.FEW && animals > number;
        }
    }

    private Stocking() {}

    /**
     * @param week of the system's life; empty where nobody knows when it began, so that it is not young
     * @param tests in any order
     * @param source whether there is a source of ammonia in the tank
     * @param there animals in the system
     * @param ofThisWeek those of them that went in within the last seven days
     */
    public static Answer judge(Optional<Long> week, List<Test> tests, boolean source, int there, int ofThisWeek) {
        List<Long> clear = new ArrayList<>();
        Optional<Long> found = Optional.empty();
        for (var day : newestFirst(tests).entrySet()) {
            if (day.getValue().stream().anyMatch(test -> test.finding() == Finding.FOUND)) {
                found = Optional.of(day.getKey());
                break;
            }
            if (saysOfBoth(day.getValue())) {
                clear.add(day.getKey());
            }
        }
        boolean young = week.filter(YoungSystem::isYoung).isPresent();
        if (found.isPresent() && clear.isEmpty()) {
            return new Answer(Code.FOUND, found.get());
        }
        if (!young) {
            return new Answer(Code.FREE, 0);
        }
        if (clear.isEmpty()) {
            boolean settledLongAgo = week.filter(YoungSystem::isRipe).isPresent();
            return settledLongAgo && there > 0 ? few(there, ofThisWeek) : new Answer(Code.NOT_TESTED, 0);
        }
        long first = clear.getLast();
        if (clear.getFirst() - first < APART_DAYS) {
            return new Answer(Code.ONCE, first + APART_DAYS);
        }
        return source ? few(there, ofThisWeek) : new Answer(Code.NO_SOURCE, 0);
    }

    private static Answer few(int there, int ofThisWeek) {
        int most = Math.max(FEW, (there - ofThisWeek) / PER_THERE);
        return new Answer(Code.FEW, Math.max(0, most - ofThisWeek));
    }

    private static SortedMap<Long, List<Test>> newestFirst(List<Test> tests) {
        SortedMap<Long, List<Test>> days = new TreeMap<>(Comparator.reverseOrder());
        tests.forEach(test ->
                days.computeIfAbsent(test.day(), day -> new ArrayList<>()).add(test));
        return days;
    }

    private static boolean saysOfBoth(List<Test> ofDay) {
        return saysOf(ofDay, false) && saysOf(ofDay, true);
    }

    private static boolean saysOf(List<Test> ofDay, boolean nitrite) {
        return ofDay.stream().anyMatch(test -> test.nitrite() == nitrite && test.finding() == Finding.BELOW_DETECTION);
    }
}

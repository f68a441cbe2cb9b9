package app.tankround.purification;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Readings of a water meter. One that shows less than before was exchanged or began anew, and what went through between is
 * not known and counts for nothing. After the last reading as much a day is taken to go through as lately.
 *
 * @param shown oldest first
 */
record WaterMeter(List<Shown> shown) {

    private static final double SECONDS_PER_DAY = 86_400;
    private static final Duration USE_OVER = Duration.ofDays(90);
    private static final Duration SHORTEST_USE = Duration.ofDays(1);

    /** What it showed. */
    record Shown(Instant at, double litres) {}

    WaterMeter {
        shown = List.copyOf(shown);
    }

    OptionalDouble last() {
        return shown.isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(shown.getLast().litres());
    }

    /** Litres between two instants: straight lines between readings, nothing before them, the usual use after them. */
    double madeBetween(Instant from, Instant until) {
        double litres = 0;
        for (int i = 1; i < shown.size(); i++) {
            Shown before = shown.get(i - 1);
            Shown after = shown.get(i);
            double made = Math.max(0, after.litres() - before.litres());
            double seconds = seconds(before.at(), after.at());
            Instant start = before.at().isBefore(from) ? from : before.at();
            Instant end = after.at().isAfter(until) ? until : after.at();
            if (seconds > 0 && start.isBefore(end)) {
                litres += made * seconds(start, end) / seconds;
            }
        }
        return litres + sinceLast(from, until);
    }

    private double sinceLast(Instant from, Instant until) {
        if (shown.isEmpty() || !until.isAfter(shown.getLast().at())) {
            return 0;
        }
        Instant last = shown.getLast().at();
        Instant start = last.isBefore(from) ? from : last;
        return start.isBefore(until) ? perDay().orElse(0) * seconds(start, until) / SECONDS_PER_DAY : 0;
    }

    /** Litres since an instant; empty where it was not read since and nobody knows the usual use. */
    OptionalDouble madeSince(Instant from, Instant now) {
        boolean readSince = !shown.isEmpty() && shown.getLast().at().isAfter(from);
        return readSince || perDay().isPresent() ? OptionalDouble.of(madeBetween(from, now)) : OptionalDouble.empty();
    }

    /** Litres a day over the last three months; empty without two readings a day apart in them. */
    OptionalDouble perDay() {
        if (shown.isEmpty()) {
            return OptionalDouble.empty();
        }
        Instant last = shown.getLast().at();
        Instant first = shown.stream()
                .map(Shown::at)
                .filter(at -> !at.isBefore(last.minus(USE_OVER)))
                .findFirst()
                .orElse(last);
        if (Duration.between(first, last).compareTo(SHORTEST_USE) < 0) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(madeBetween(first, last) / (seconds(first, last) / SECONDS_PER_DAY));
    }

    private static double seconds(Instant from, Instant until) {
        return Duration.between(from, until).toSeconds();
    }
}

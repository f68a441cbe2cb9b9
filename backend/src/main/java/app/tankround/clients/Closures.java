package app.tankround.clients;

import app.tankround.web.FieldRefusal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Closures as stored and exchanged: ISO 8601 intervals, each with its reason, with bars between. */
record Closures(List<Closure> closures) {

    private static final String BETWEEN = " | ";

    Closures {
        closures = List.copyOf(closures);
    }

    /** @throws FieldRefusal at {@code closures} if the text cannot be read */
    static Closures parse(String text) {
        return new Closures(
                text.isBlank()
                        ? List.of()
                        : Arrays.stream(text.split("\\|", -1))
                                .map(Closures::one)
                                .toList());
    }

    private static Closure one(String text) {
        String[] parts = text.strip().split(" ", 2);
        String[] days = parts[0].split("/", -1);
        if (days.length != 2) {
            throw new FieldRefusal("closures", "clients.closure-malformed", text.strip());
        }
        try {
            return new Closure(
                    LocalDate.parse(days[0]),
                    LocalDate.parse(days[1]),
                    parts.length > 1 ? Optional.of(parts[1].strip()) : Optional.empty());
        } catch (DateTimeException malformed) {
            throw new FieldRefusal("closures", "clients.closure-malformed", text.strip());
        }
    }

    @Override
    public String toString() {
        return closures.stream()
                .map(closure -> closure.first() + "/" + closure.last()
                        + closure.reason().map(reason -> " " + reason).orElse(""))
                .collect(Collectors.joining(BETWEEN));
    }
}

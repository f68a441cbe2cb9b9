package app.tankround.clients;

import java.time.LocalDate;
import java.util.Optional;

/**
 * Days on which nobody can come to a site, both of them included.
 *
 * @param reason what for, in a few words without a bar
 */
public record Closure(LocalDate first, LocalDate last, Optional<String> reason) {

    boolean contains(LocalDate day) {
        return !day.isBefore(first) && !day.isAfter(last);
    }
}

package app.tankround.accounts;

import java.time.LocalDate;
import java.util.Optional;
import java.util.UUID;

/**
 * Days on which a person does not work.
 *
 * @param first the first of them
 * @param last the last of them, no earlier
 */
public record Absence(UUID id, PersonId person, LocalDate first, LocalDate last, Optional<String> reason) {

    /** Whether the person is away on that day. */
    public boolean contains(LocalDate day) {
        return !day.isBefore(first) && !day.isAfter(last);
    }
}

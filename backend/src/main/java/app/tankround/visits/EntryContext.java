package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.web.Entry;
import java.time.Instant;
import java.util.Locale;

/**
 * What entries are understood against.
 *
 * @param at when it happened, as far as the server believes the device
 * @param locale of the author, in which numbers were typed
 * @param desk with what the entries before have written
 */
record EntryContext(VisitRow visit, Entry entry, Instant at, Locale locale, VisitDesks.Desk desk) {

    PersonId author() {
        return PersonId.of(entry.author());
    }

    EntryBody body() {
        return new EntryBody(entry.body(), locale);
    }
}

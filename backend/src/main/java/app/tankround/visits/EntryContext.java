package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.readings.DecisionId;
import app.tankround.readings.NewDecision;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.Entry;
import java.time.Instant;
import java.util.List;
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

    /** Names a field of this visit among those of all visits. */
    String place(String field) {
        return visit.id() + "/" + field;
    }

    /** What was measured at this visit is behind it; where nothing was, the last known salinity. */
    NewDecision decision(
            String kind, String code, List<String> args, WaterSystemId system, List<DecisionId> decisions) {
        return new NewDecision(
                kind,
                "water-system",
                system.value(),
                "/visits/" + visit.id(),
                code,
                args,
                desk.behind(visit.id(), system, at).stream()
                        .map(VisitDesks.Taken::id)
                        .toList(),
                decisions);
    }

    EntryBody body() {
        return new EntryBody(entry.body(), locale);
    }
}

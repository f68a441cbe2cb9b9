package app.tankround.visits;

import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.clients.SiteId;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryHandler;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.time.Clock;
import java.time.Instant;
import java.util.Locale;
import java.util.Map;
import org.springframework.stereotype.Component;

/**
 * {@code alone.check-in} and {@code alone.check-out}, whose subject is the stay. Checking in again says that it takes longer.
 * The latest return is counted in minutes from when it was said, so that a tablet's wrong clock moves nothing.
 */
@Component
class AloneEntries implements EntryHandler {

    private static final String IN = "alone.check-in";
    private static final String OUT = "alone.check-out";

    private final LoneWorking alone;
    private final People people;
    private final Clock clock;

    AloneEntries(LoneWorking alone, People people, Clock clock) {
        this.alone = alone;
        this.people = people;
        this.clock = clock;
    }

    @Override
    public boolean handles(String kind) {
        return kind.equals(IN) || kind.equals(OUT);
    }

    @Override
    public EntryAnswer apply(Entry entry) {
        StayId id =
                StayId.of(entry.subject().orElseThrow(() -> new FieldRefusal("subject", "visits.missing", "subject")));
        PersonId author = PersonId.of(entry.author());
        Instant at = entry.happened(clock.instant());
        Locale locale = people.find(author).map(PersonView::locale).orElse(Locale.ENGLISH);
        EntryBody body = new EntryBody(entry.body(), locale);
        if (entry.kind().equals(IN)) {
            StayView stay = alone.checkIn(
                    id,
                    SiteId.of(body.id("site")),
                    author,
                    at,
                    body.whole("minutes", 1, LoneWorking.LONGEST_MINUTES),
                    body.text("because", 500));
            return EntryAnswer.applied(
                    "visits.alone.in", Map.of("until", stay.latestReturn().toString()));
        }
        if (!alone.require(id).personId().equals(author)) {
            throw new NotFound("stay", id);
        }
        alone.checkOut(id, at, author);
        return EntryAnswer.applied("visits.alone.out", Map.of());
    }
}

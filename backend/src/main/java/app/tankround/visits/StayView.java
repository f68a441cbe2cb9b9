package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.clients.SiteId;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * Somebody alone at a site.
 *
 * @param because why whoever is there checks in
 * @param checkedInBy who said so: the person, or whoever took the telephone call
 * @param latestReturn when others are told unless somebody has checked out
 * @param answeredBy who has said that they see to it
 * @param calls who was told, in order
 */
public record StayView(
        StayId id,
        SiteId siteId,
        PersonId personId,
        String because,
        Instant checkedInAt,
        PersonId checkedInBy,
        Instant latestReturn,
        Optional<Instant> checkedOutAt,
        Optional<PersonId> checkedOutBy,
        Optional<Instant> answeredAt,
        Optional<PersonId> answeredBy,
        List<Call> calls) {

    /** @param mailed false where no mail server was set up: then only the first page said it */
    public record Call(PersonId personId, Instant at, boolean mailed) {}

    public StayView {
        calls = List.copyOf(calls);
    }

    public boolean isOpen() {
        return checkedOutAt.isEmpty();
    }

    public boolean isOverdue(Instant now) {
        return isOpen() && !latestReturn.isAfter(now);
    }
}

package app.tankround.rounds;

import app.tankround.accounts.BusinessProfile;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteNeedsService;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.TransactionMemory;
import app.tankround.rounds.LearnedTravel.Trip;
import app.tankround.rounds.solver.TravelEstimate;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** What the trips of past rounds tell: from the end of one visit to the start of the next on the same round. */
@Component
class RecordedTrips {

    /** As many of the last ones as are looked at. */
    private static final int MOST = 1000;

    private static final double SECONDS_PER_MINUTE = 60;

    private final JdbcClient jdbc;
    private final SiteService sites;
    private final SiteNeedsService needs;
    private final BusinessProfile business;

    RecordedTrips(JdbcClient jdbc, SiteService sites, SiteNeedsService needs, BusinessProfile business) {
        this.jdbc = jdbc;
        this.sites = sites;
        this.needs = needs;
        this.business = business;
    }

    private record Raw(SiteId from, SiteId to, Instant left, Instant began) {}

    LearnedTravel learned(TravelEstimate estimate) {
        return TransactionMemory.askedOnce(this, "learned", estimate, () -> LearnedTravel.of(trips(estimate)));
    }

    private List<Trip> trips(TravelEstimate estimate) {
        List<Raw> raw = jdbc.sql("""
                        select from_site, site_id, left_at, started_at
                        from (
                            select s.site_id, s.started_at,
                                   lag(s.site_id) over of_round as from_site,
                                   lag(s.finished_at) over of_round as left_at
                            from round_stop s
                            where s.started_at is not null
                            window of_round as (partition by s.round_id order by s.started_at, s.position)
                        ) as trip
                        where left_at is not null and started_at > left_at
                        order by started_at desc
                        limit :most
                        """)
                .param("most", MOST)
                .query((row, number) -> new Raw(
                        new SiteId(row.getObject("from_site", UUID.class)),
                        new SiteId(row.getObject("site_id", UUID.class)),
                        row.getObject("left_at", OffsetDateTime.class).toInstant(),
                        row.getObject("started_at", OffsetDateTime.class).toInstant()))
                .list();
        Set<SiteId> ends =
                raw.stream().flatMap(trip -> Stream.of(trip.from(), trip.to())).collect(Collectors.toSet());
        Map<SiteId, SiteView> at = sites.find(ends);
        Map<SiteId, Integer> arrivals = needs.arrivalMinutes(ends);
        ZoneId zone = business.current().zone();
        return raw.stream()
                .flatMap(trip -> placed(at, trip.from())
                        .flatMap(from -> placed(at, trip.to())
                                .map(to -> trip(
                                        trip,
                                        SiteTravel.between(estimate, from, to),
                                        arrivals.getOrDefault(trip.to(), 0),
                                        zone)))
                        .stream())
                .toList();
    }

    /** Where a site only may be, its trips tell nothing. */
    private static Optional<SiteView> placed(Map<SiteId, SiteView> at, SiteId id) {
        return Optional.ofNullable(at.get(id)).filter(site -> site.placeGuess().isEmpty());
    }

    private static Trip trip(Raw trip, double guessed, int arrivalMinutes, ZoneId zone) {
        return new Trip(
                trip.left().atZone(zone).getHour(),
                Duration.between(trip.left(), trip.began()).toSeconds() - arrivalMinutes * SECONDS_PER_MINUTE,
                guessed);
    }
}

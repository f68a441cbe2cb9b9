package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.tanks.FirstFood;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.WaterSystemId;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Stream;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/** Looks at animals and what they were offered, at visits and without one. */
@Component
class AnimalRows {

    private final VisitRows visits;
    private final JdbcClient jdbc;

    AnimalRows(VisitRows visits, JdbcClient jdbc) {
        this.visits = visits;
        this.jdbc = jdbc;
    }

    /** The newest first. */
    List<AnimalLook> looks(WaterSystemId system, Instant from) {
        List<AnimalLook> apart = jdbc.sql("""
                        select id, water_system_id, eating, breathing, signs, seen_at, person_id
                        from animal_look where water_system_id = :system and seen_at >= :from
                        """)
                .param("system", system.value())
                .param("from", from.atOffset(ZoneOffset.UTC))
                .query(AnimalRows::look)
                .list();
        Stream<AnimalLook> atVisits = visits.ofSystem(system, List.of(AnimalEntries.WATCH), from).stream()
                .map(entry -> look(entry, system));
        return newestFirst(apart, atVisits, AnimalLook::at);
    }

    /** The newest first. */
    List<AnimalOffer> offers(WaterSystemId system, Instant from) {
        List<AnimalOffer> apart = jdbc.sql("""
                        select id, water_system_id, livestock_id, offer, outcome, offered_at, person_id
                        from animal_offer where water_system_id = :system and offered_at >= :from
                        """)
                .param("system", system.value())
                .param("from", from.atOffset(ZoneOffset.UTC))
                .query(AnimalRows::offer)
                .list();
        Stream<AnimalOffer> atVisits = visits.ofSystem(system, List.of(AnimalEntries.FOOD), from).stream()
                .map(entry -> offer(entry, system));
        return newestFirst(apart, atVisits, AnimalOffer::at);
    }

    private static <T> List<T> newestFirst(List<T> apart, Stream<T> atVisits, Function<T, Instant> at) {
        return Stream.concat(apart.stream(), atVisits)
                .sorted(Comparator.comparing(at).reversed())
                .toList();
    }

    /** @return false where it is there already */
    boolean add(AnimalLook look) {
        return jdbc.sql("""
                        insert into animal_look (id, water_system_id, eating, breathing, signs, seen_at, person_id)
                        values (:id, :system, :eating, :breathing, :signs, :at, :by)
                        on conflict (id) do nothing
                        """)
                        .param("id", look.id())
                        .param("system", look.systemId().value())
                        .param("eating", look.eating().name())
                        .param("breathing", look.breathing().name())
                        .param("signs", look.signs().orElse(null))
                        .param("at", look.at().atOffset(ZoneOffset.UTC))
                        .param("by", look.by().value())
                        .update()
                > 0;
    }

    /** @return false where it is there already */
    boolean add(AnimalOffer offer) {
        return jdbc.sql("""
                        insert into animal_offer (id, water_system_id, livestock_id, offer, outcome, offered_at, person_id)
                        values (:id, :system, :livestock, :offer, :outcome, :at, :by)
                        on conflict (id) do nothing
                        """)
                        .param("id", offer.id())
                        .param("system", offer.systemId().value())
                        .param("livestock", offer.animals().value())
                        .param("offer", offer.offer().name())
                        .param("outcome", offer.outcome().name())
                        .param("at", offer.at().atOffset(ZoneOffset.UTC))
                        .param("by", offer.by().value())
                        .update()
                > 0;
    }

    private static AnimalLook look(VisitEntry entry, WaterSystemId system) {
        JsonNode facts = entry.facts();
        return new AnimalLook(
                entry.id(),
                system,
                AnimalLook.Eating.valueOf(facts.path("eating").asString("")),
                AnimalLook.Breathing.valueOf(facts.path("breathing").asString("")),
                Optional.of(facts.path("signs").asString("")).filter(text -> !text.isEmpty()),
                entry.at(),
                entry.author(),
                Optional.of(entry.visitId()));
    }

    private static AnimalOffer offer(VisitEntry entry, WaterSystemId system) {
        JsonNode facts = entry.facts();
        return new AnimalOffer(
                entry.id(),
                system,
                LivestockId.of(UUID.fromString(facts.path("livestock").asString(""))),
                FirstFood.Offer.valueOf(facts.path("offer").asString("")),
                FirstFood.Outcome.valueOf(facts.path("outcome").asString("")),
                entry.at(),
                entry.author());
    }

    private static AnimalLook look(ResultSet row, int number) throws SQLException {
        return new AnimalLook(
                row.getObject("id", UUID.class),
                WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                AnimalLook.Eating.valueOf(row.getString("eating")),
                AnimalLook.Breathing.valueOf(row.getString("breathing")),
                Optional.ofNullable(row.getString("signs")),
                row.getObject("seen_at", OffsetDateTime.class).toInstant(),
                PersonId.of(row.getObject("person_id", UUID.class)),
                Optional.empty());
    }

    private static AnimalOffer offer(ResultSet row, int number) throws SQLException {
        return new AnimalOffer(
                row.getObject("id", UUID.class),
                WaterSystemId.of(row.getObject("water_system_id", UUID.class)),
                LivestockId.of(row.getObject("livestock_id", UUID.class)),
                FirstFood.Offer.valueOf(row.getString("offer")),
                FirstFood.Outcome.valueOf(row.getString("outcome")),
                row.getObject("offered_at", OffsetDateTime.class).toInstant(),
                PersonId.of(row.getObject("person_id", UUID.class)));
    }
}

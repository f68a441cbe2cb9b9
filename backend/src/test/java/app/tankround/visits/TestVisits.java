package app.tankround.visits;

import app.tankround.accounts.PersonId;
import app.tankround.clients.ClientId;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.Bench;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.WaterSystemId;
import app.tankround.testing.TestBusiness;
import app.tankround.testing.TestClock;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** A visit of today to one system of a client, written entry by entry. */
@Component
class TestVisits {

    private final JdbcClient jdbc;
    private final ReadingService readings;
    private final Bench bench;
    private final TestClock clock;

    TestVisits(JdbcClient jdbc, ReadingService readings, Bench bench, TestClock clock) {
        this.jdbc = jdbc;
        this.readings = readings;
        this.bench = bench;
        this.clock = clock;
    }

    /** A visit with its site's client, its one system and the person who came. */
    final class Case {

        final VisitId id = VisitId.of(Uuids.next(clock.instant()));
        final ClientId client;
        final WaterSystemId system;
        final PersonId person = bench.person();
        final LocalDate day = LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);

        private Case(boolean finished) {
            var business = new TestBusiness(jdbc);
            UUID site = business.site("Bellwether", 52, 5, null, null);
            system = WaterSystemId.of(business.system(site, "Dining room", "HEALTHY"));
            client = ClientId.of(jdbc.sql("select client_id from site where id = :id")
                    .param("id", site)
                    .query(UUID.class)
                    .single());
            jdbc.sql("""
                            insert into target (water_system, quantity, low, high, unit)
                            values (:id, 'TEMPERATURE', 23, 27, 'degC'), (:id, 'SALINITY', 30, 35, 'S'),
                                (:id, 'NITRATE', null, 40, 'mg/L'), (:id, 'AMMONIA', null, 0, 'mg/L'),
                                (:id, 'MAGNESIUM', 1150, null, 'mg/L')
                            """).param("id", system.value()).update();
            jdbc.sql("""
                            insert into visit (id, code, site_id, service_date, technician_id, planned_visits, started_at,
                                finished_at, version)
                            values (:id, :code, :site, :day, :person, cast('{}' as uuid[]), :from,
                                case when :finished then cast(:until as timestamptz) end, 1)
                            """)
                    .param("id", id.value())
                    .param("code", bench.code("V"))
                    .param("site", site)
                    .param("day", day)
                    .param("person", person.value())
                    .param("from", clock.instant().minusSeconds(3600).atOffset(ZoneOffset.UTC))
                    .param("until", clock.instant().atOffset(ZoneOffset.UTC))
                    .param("finished", finished)
                    .update();
        }

        /** @param facts as the projection reads them, in JSON */
        Case entry(String kind, String field, String facts) {
            jdbc.sql("""
                            insert into visit_entry (
                                id, visit_id, kind, field, counts, water_system_id, body, facts, author_id, entered_at,
                                entered_offset, happened_at, received_at)
                            values (:id, :visit, :kind, :field, true, :system, cast(:facts as json), cast(:facts as jsonb),
                                :person,
                                :at, 'Z', :at, :at)
                            """)
                    .param("id", UUID.randomUUID())
                    .param("visit", id.value())
                    .param("kind", kind)
                    .param("field", field)
                    .param("system", system.value())
                    .param("facts", facts)
                    .param("person", person.value())
                    .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                    .update();
            return this;
        }

        /** A reading with a kit whose lot was written down. */
        Case reading(Quantity quantity, String value, Answer answer) {
            readings.record(NewReading.of(
                            ReadingId.of(Uuids.next(clock.instant())),
                            system,
                            quantity,
                            new BigDecimal(value),
                            quantity.units().getFirst(),
                            clock.instant(),
                            person)
                    .withKitLot("K-7")
                    .withAnswer(answer)
                    .atVisit(id.value()));
            return this;
        }

        /** A temperature in °C at a sample point of that name, which is made if there is none. */
        Case temperatureAt(String point, String value, Instant takenAt, boolean atThisVisit) {
            jdbc.sql("""
                            insert into sample_point (id, water_system, position, name)
                            select :id, :system, count(*), :name from sample_point where water_system = :system
                            on conflict (water_system, name) do nothing
                            """)
                    .param("id", UUID.randomUUID())
                    .param("system", system.value())
                    .param("name", point)
                    .update();
            UUID id = jdbc.sql("select id from sample_point where water_system = :system and name = :name")
                    .param("system", system.value())
                    .param("name", point)
                    .query(UUID.class)
                    .single();
            NewReading reading = NewReading.of(
                            ReadingId.of(Uuids.next(clock.instant())),
                            system,
                            Quantity.TEMPERATURE,
                            new BigDecimal(value),
                            MeasurementUnit.DEGREE_CELSIUS,
                            takenAt,
                            person)
                    .withKitLot("K-7")
                    .withSamplePoint(SamplePointId.of(id));
            readings.record(atThisVisit ? reading.atVisit(this.id.value()) : reading);
            return this;
        }

        Case contact(String email, boolean receivesReports) {
            jdbc.sql("""
                            insert into contact (id, code, client_id, name, email, receives_reports, version)
                            values (:id, :code, :client, 'R. Castellane', :email, :receives, 1)
                            """)
                    .param("id", UUID.randomUUID())
                    .param("code", bench.code("P"))
                    .param("client", client.value())
                    .param("email", email)
                    .param("receives", receivesReports)
                    .update();
            return this;
        }
    }

    Case finished() {
        return new Case(true);
    }

    Case open() {
        return new Case(false);
    }
}

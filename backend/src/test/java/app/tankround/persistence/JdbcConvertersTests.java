package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.TankroundApplication;
import app.tankround.testing.IntegrationTest;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.context.TestConfiguration;
import org.springframework.context.annotation.Bean;
import org.springframework.dao.OptimisticLockingFailureException;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.jdbc.repository.config.EnableJdbcRepositories;
import org.springframework.data.repository.ListCrudRepository;
import org.springframework.jdbc.core.simple.JdbcClient;

/** An aggregate of records goes into PostgreSQL and comes back equal. */
@SpringBootTest(
        properties = "spring.flyway.locations=classpath:db/migration,classpath:app/tankround/persistence/sample")
@IntegrationTest
class JdbcConvertersTests {

    @Autowired
    private SampleVats vats;

    @Autowired
    private JdbcClient jdbc;

    @Test
    void keepsAnAggregateOfRecords() {
        SampleVat vat = vat("kept", State.FILLED);

        SampleVat saved = vats.save(vat);

        assertThat(vats.findById(vat.id())).contains(saved);
        assertThat(saved).isEqualTo(vat.withVersion(saved.version()));
        assertThat(saved.sampleVatPart()).extracting(SampleVatPart::label).containsExactly("lid", "pump");
    }

    @Test
    void findsByAConvertedValue() {
        SampleVat empty = vats.save(vat("found", State.EMPTY));

        assertThat(vats.findByStateAndNetVolumeL(State.EMPTY, new Litres(940.5)))
                .containsExactly(empty);
    }

    @Test
    void refusesAStaleVersion() {
        SampleVat saved = vats.save(vat("stale", State.FILLED));
        vats.save(saved);

        assertThatThrownBy(() -> vats.save(saved)).isInstanceOf(OptimisticLockingFailureException.class);
    }

    @Test
    void keepsTheInstantWhateverTheZone() {
        SampleVat saved = vats.save(vat("instant", State.FILLED));

        assertThat(jdbc.sql("select filled_at at time zone 'UTC' || '' from sample_vat where id = :id")
                        .param("id", saved.id().value())
                        .query(String.class)
                        .single())
                .isEqualTo("2026-03-29 01:30:00.123456");
    }

    @Test
    void readsRowsWithRecordIds() {
        SampleVat saved = vats.save(vat("row", State.FILLED));

        assertThat(jdbc.sql("select id, name, price, filled_at, next_clean, state from sample_vat where id = :id")
                        .param("id", saved.id().value())
                        .query(SampleVatRow.class)
                        .single())
                .isEqualTo(new SampleVatRow(
                        saved.id(), "row", new BigDecimal("12.50"), saved.filledAt(), saved.nextClean(), State.FILLED));
    }

    private static SampleVat vat(String name, State state) {
        return new SampleVat(
                new SampleVatId(UUID.randomUUID()),
                0,
                name,
                new Litres(940.5),
                new BigDecimal("12.50"),
                state,
                // In the hour that Europe skips: a zone's local time would lose it.
                Instant.parse("2026-03-29T01:30:00.123456Z"),
                LocalDate.of(2026, 3, 29),
                LocalTime.of(8, 15),
                null,
                List.of(new SampleVatPart("lid"), new SampleVatPart("pump")));
    }

    /** Public as every id is, or JdbcClient's rows cannot call its constructor. */
    public record SampleVatId(UUID value) {}

    record Litres(double value) {}

    enum State {
        EMPTY,
        FILLED
    }

    record SampleVatPart(String label) {}

    record SampleVat(
            @Id SampleVatId id,
            @Version int version,
            String name,
            Litres netVolumeL,
            BigDecimal price,
            State state,
            Instant filledAt,
            LocalDate nextClean,
            LocalTime opens,
            @Nullable String note,
            List<SampleVatPart> sampleVatPart) {

        SampleVat withVersion(int newer) {
            return new SampleVat(
                    id, newer, name, netVolumeL, price, state, filledAt, nextClean, opens, note, sampleVatPart);
        }
    }

    record SampleVatRow(
            SampleVatId id, String name, BigDecimal price, Instant filledAt, LocalDate nextClean, State state) {}

    interface SampleVats extends ListCrudRepository<SampleVat, SampleVatId> {

        List<SampleVat> findByStateAndNetVolumeL(State state, Litres netVolumeL);
    }

    @TestConfiguration(proxyBeanMethods = false)
    // Takes the place of the automatic scan, so it must find the program's own repositories too.
    @EnableJdbcRepositories(considerNestedRepositories = true, basePackageClasses = TankroundApplication.class)
    static class SampleConfiguration {

        @Bean
        JdbcConverters sampleConverters() {
            return JdbcConverters.none()
                    .withId(SampleVatId.class, SampleVatId::new, SampleVatId::value)
                    .with(Litres.class, Double.class, Litres::new, Litres::value);
        }
    }
}

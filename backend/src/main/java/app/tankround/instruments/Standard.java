package app.tankround.instruments;

import app.tankround.chemistry.PhBuffer;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;

/** A row of the list of standards; columns as in {@link StandardView}. */
record Standard(
        @Id StandardId id,
        String code,
        String name,
        StandardKind kind,
        Quantity quantity,
        BigDecimal value,
        MeasurementUnit unit,
        BigDecimal uncertainty,
        @Nullable BigDecimal valueTemperatureC,
        @Nullable PhBuffer buffer,
        @Nullable String lot,
        @Nullable LocalDate openedOn,
        @Nullable LocalDate expiresOn,
        @Nullable Integer openDays,
        @Nullable LocalDate suspiciousSince,
        @Nullable String suspiciousBecause,
        @Version int version) {

    static Standard of(StandardId id, NewStandard stated, int version) {
        return new Standard(
                id,
                stated.code(),
                stated.name(),
                stated.kind(),
                stated.quantity(),
                stated.value(),
                stated.unit(),
                stated.uncertainty(),
                stated.valueTemperature().orElse(null),
                stated.buffer().orElse(null),
                stated.lot().orElse(null),
                stated.openedOn().orElse(null),
                stated.expiresOn().orElse(null),
                stated.openDays().orElse(null),
                stated.suspiciousSince().orElse(null),
                stated.suspiciousBecause().orElse(null),
                version);
    }

    StandardView view() {
        return new StandardView(
                id,
                code,
                name,
                kind,
                quantity,
                value,
                unit,
                uncertainty,
                Optional.ofNullable(valueTemperatureC),
                Optional.ofNullable(buffer),
                Optional.ofNullable(lot),
                Optional.ofNullable(openedOn),
                Optional.ofNullable(expiresOn),
                Optional.ofNullable(openDays),
                Optional.ofNullable(suspiciousSince),
                Optional.ofNullable(suspiciousBecause),
                version);
    }
}

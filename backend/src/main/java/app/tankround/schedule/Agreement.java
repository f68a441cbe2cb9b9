package app.tankround.schedule;

import app.tankround.tanks.WaterSystemId;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.joda.money.CurrencyUnit;
import org.joda.money.Money;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;
import org.springframework.data.relational.core.mapping.MappedCollection;

/**
 * An agreement with its tasks, as one form saves it.
 *
 * @param plannedFrom the first day due visits are made for
 * @param plannedUntil the last day up to which they have been made; null if none yet
 */
record Agreement(
        @Id AgreementId id,
        String code,
        WaterSystemId waterSystemId,
        int everyWeeks,
        Weekdays weekdays,
        LocalDate validFrom,
        @Nullable LocalDate validUntil,
        int minutes,
        BigDecimal price,
        LocalDate plannedFrom,
        @Nullable LocalDate plannedUntil,

        @MappedCollection(idColumn = "agreement", keyColumn = "position")
        List<AgreementTask> tasks,

        @Version int version) {

    /** A new agreement, for which no due visit has been made yet. */
    static Agreement of(AgreementId id, NewAgreement terms, LocalDate plannedFrom) {
        return with(id, terms, plannedFrom, 0);
    }

    /** The same agreement on other terms; its due visits are to be made again from that day on. */
    Agreement on(NewAgreement terms, LocalDate plannedFrom) {
        return with(id, terms, plannedFrom, version);
    }

    private static Agreement with(AgreementId id, NewAgreement terms, LocalDate plannedFrom, int version) {
        return new Agreement(
                id,
                terms.code(),
                terms.waterSystemId(),
                terms.everyWeeks(),
                new Weekdays(terms.weekdays()),
                terms.validFrom(),
                terms.validUntil().orElse(null),
                terms.minutes(),
                terms.price(),
                plannedFrom,
                null,
                terms.tasks().stream().map(AgreementTask::of).toList(),
                version);
    }

    /** Whether these are the terms it has already. */
    boolean says(NewAgreement terms) {
        return with(id, terms, plannedFrom, version)
                .equals(new Agreement(
                        id,
                        code,
                        waterSystemId,
                        everyWeeks,
                        weekdays,
                        validFrom,
                        validUntil,
                        minutes,
                        price,
                        plannedFrom,
                        null,
                        tasks,
                        version));
    }

    VisitRhythm rhythm() {
        return new VisitRhythm(everyWeeks, weekdays.days(), validFrom, Optional.ofNullable(validUntil));
    }

    List<TaskView> taskViews() {
        return tasks.stream().map(AgreementTask::view).toList();
    }

    AgreementView view(CurrencyUnit currency) {
        return new AgreementView(
                id,
                code,
                waterSystemId,
                everyWeeks,
                weekdays.days(),
                validFrom,
                Optional.ofNullable(validUntil),
                minutes,
                Money.of(currency, price, RoundingMode.HALF_EVEN),
                taskViews(),
                version);
    }
}

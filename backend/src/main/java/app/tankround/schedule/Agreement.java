package app.tankround.schedule;

import app.tankround.clients.Weekdays;
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
 * @param everyDays the longest time between two visits, kept because other modules ask for it in SQL; null for fewer than two
 * @param plannedFrom the first day due visits are made for
 * @param plannedUntil a day up to which they have been made, the one before the next of them; null if none yet
 */
record Agreement(
        @Id AgreementId id,
        String code,
        WaterSystemId waterSystemId,
        RecurrenceRule rule,
        Weekdays weekdays,
        LocalDate validFrom,
        @Nullable LocalDate validUntil,
        int toleranceDays,
        Seasons seasons,
        Pauses pauses,
        @Nullable Integer everyDays,
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
        VisitRhythm rhythm = terms.rhythm();
        return new Agreement(
                id,
                terms.code(),
                terms.waterSystemId(),
                rhythm.rule(),
                new Weekdays(rhythm.weekdays()),
                rhythm.validFrom(),
                rhythm.validUntil().orElse(null),
                rhythm.toleranceDays(),
                new Seasons(rhythm.seasons()),
                new Pauses(rhythm.pauses()),
                rhythm.gaps().map(VisitRhythm.Gaps::longest).orElse(null),
                terms.minutes(),
                terms.price(),
                plannedFrom,
                null,
                terms.tasks().stream().map(AgreementTask::of).toList(),
                version);
    }

    /** Whether these are the terms it has already. */
    boolean says(NewAgreement terms) {
        Agreement asked = with(id, terms, plannedFrom, version);
        return asked.equals(new Agreement(
                id,
                code,
                waterSystemId,
                rule,
                weekdays,
                validFrom,
                validUntil,
                toleranceDays,
                seasons,
                pauses,
                asked.everyDays(),
                minutes,
                price,
                plannedFrom,
                null,
                tasks,
                version));
    }

    VisitRhythm rhythm() {
        return new VisitRhythm(
                rule,
                weekdays.days(),
                validFrom,
                Optional.ofNullable(validUntil),
                toleranceDays,
                seasons.seasons(),
                pauses.pauses());
    }

    List<TaskView> taskViews() {
        return tasks.stream().map(AgreementTask::view).toList();
    }

    AgreementView view(CurrencyUnit currency) {
        return new AgreementView(
                id,
                code,
                waterSystemId,
                rhythm(),
                Optional.ofNullable(everyDays),
                plannedFrom,
                minutes,
                Money.of(currency, price, RoundingMode.HALF_EVEN),
                taskViews(),
                version);
    }
}

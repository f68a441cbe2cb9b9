package app.tankround.schedule;

import java.math.BigDecimal;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A task as a row; {@link TaskView} says what the columns mean. */
record AgreementTask(
        TaskKind kind,
        @Nullable BigDecimal amount,
        @Nullable String unit,
        @Nullable String item,
        @Nullable Integer sizeMm,
        @Nullable Integer lengthMm,
        @Nullable Integer finenessUm,
        @Nullable Integer intervalDays) {

    static AgreementTask of(TaskView task) {
        return new AgreementTask(
                task.kind(),
                task.amount().orElse(null),
                task.unit().orElse(null),
                task.item().orElse(null),
                task.sizeMm().orElse(null),
                task.lengthMm().orElse(null),
                task.finenessUm().orElse(null),
                task.intervalDays().orElse(null));
    }

    TaskView view() {
        return new TaskView(
                kind,
                Optional.ofNullable(amount),
                Optional.ofNullable(unit),
                Optional.ofNullable(item),
                Optional.ofNullable(sizeMm),
                Optional.ofNullable(lengthMm),
                Optional.ofNullable(finenessUm),
                Optional.ofNullable(intervalDays));
    }
}

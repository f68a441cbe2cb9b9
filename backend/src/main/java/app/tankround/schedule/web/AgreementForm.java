package app.tankround.schedule.web;

import app.tankround.schedule.AgreementId;
import app.tankround.schedule.AgreementView;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * An agreement as typed. Rows without a kind are empty rows.
 *
 * @param id made when the form is shown, so that sending it twice adds once
 */
record AgreementForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String waterSystem,
        @Nullable String everyWeeks,
        List<String> weekdays,
        @Nullable String validFrom,
        @Nullable String validUntil,
        @Nullable String minutes,
        @Nullable String price,
        List<TaskForm> tasks)
        implements VersionedForm<AgreementForm> {

    private static final LocalDate FIRST_DAY = LocalDate.of(2000, 1, 1);
    private static final LocalDate LAST_DAY = LocalDate.of(2099, 12, 31);
    private static final BigDecimal HIGHEST_PRICE = new BigDecimal("1000000");

    AgreementForm {
        weekdays = weekdays == null ? List.of() : List.copyOf(weekdays);
        tasks = tasks == null ? List.of() : List.copyOf(tasks);
    }

    /** One task as typed; the quantity stands for the item of a test. */
    record TaskForm(
            @Nullable String kind,
            @Nullable String amount,
            @Nullable String unit,
            @Nullable String item,
            @Nullable String quantity,
            @Nullable String sizeMm,
            @Nullable String intervalDays) {

        static TaskForm blank() {
            return new TaskForm(null, null, null, null, null, null, null);
        }

        static TaskForm of(TaskView task, Locale locale) {
            return new TaskForm(
                    task.kind().name(),
                    task.amount().map(amount -> plain(amount, locale)).orElse(null),
                    task.unit().orElse(null),
                    task.kind() == TaskKind.TEST ? null : task.item().orElse(null),
                    task.quantity().map(Quantity::name).orElse(null),
                    task.sizeMm().map(String::valueOf).orElse(null),
                    task.intervalDays().map(String::valueOf).orElse(null));
        }

        /** What was typed, as the comparison of two versions shows it. */
        @Override
        public String toString() {
            return Stream.of(kind, item, quantity, amount, unit, sizeMm, intervalDays)
                    .filter(text -> text != null && !text.isBlank())
                    .collect(Collectors.joining(" "));
        }

        boolean isEmpty() {
            return kind == null || kind.isBlank();
        }

        Optional<TaskView> toTask(String path, FormReader reader) {
            Optional<BigDecimal> read = reader.number(path + "amount", amount);
            Optional<Integer> size = whole(path + "sizeMm", sizeMm, 1000, reader);
            Optional<Integer> days = whole(path + "intervalDays", intervalDays, 3660, reader);
            return reader.choice(path + "kind", kind, TaskKind.class)
                    .map(chosen -> new TaskView(
                            chosen,
                            read,
                            read.flatMap(some -> unitFor(chosen)),
                            chosen == TaskKind.TEST ? Optional.ofNullable(quantity) : Optional.ofNullable(item),
                            size,
                            days));
        }

        private Optional<String> unitFor(TaskKind chosen) {
            return Optional.ofNullable(unit)
                    .filter(written -> !written.isBlank())
                    .or(() -> chosen.units().stream().findFirst());
        }

        private static Optional<Integer> whole(String field, @Nullable String text, int most, FormReader reader) {
            return text == null || text.isBlank() ? Optional.empty() : reader.requiredWhole(field, text, 1, most);
        }
    }

    private static String plain(BigDecimal number, Locale locale) {
        return NumberText.plain(new BigDecimal(number.stripTrailingZeros().toPlainString()), locale);
    }

    static AgreementForm blank(AgreementId id, @Nullable WaterSystemId system, LocalDate today) {
        return new AgreementForm(
                id.toString(),
                0,
                null,
                system == null ? null : system.toString(),
                "1",
                List.of(),
                today.toString(),
                null,
                null,
                null,
                List.of(TaskForm.blank()));
    }

    static AgreementForm of(AgreementView agreement, Locale locale) {
        return new AgreementForm(
                agreement.id().toString(),
                agreement.version(),
                agreement.code(),
                agreement.waterSystemId().toString(),
                String.valueOf(agreement.everyWeeks()),
                agreement.sortedWeekdays().stream().map(DayOfWeek::name).toList(),
                agreement.validFrom().toString(),
                agreement.validUntil().map(LocalDate::toString).orElse(null),
                String.valueOf(agreement.minutes()),
                plain(agreement.price().getAmount(), locale),
                agreement.tasks().stream()
                        .map(task -> TaskForm.of(task, locale))
                        .toList());
    }

    private AgreementForm withTasks(List<TaskForm> others) {
        return new AgreementForm(
                id, version, code, waterSystem, everyWeeks, weekdays, validFrom, validUntil, minutes, price, others);
    }

    @Override
    public AgreementForm withVersion(int newest) {
        return new AgreementForm(
                id, newest, code, waterSystem, everyWeeks, weekdays, validFrom, validUntil, minutes, price, tasks);
    }

    AgreementForm withoutEmptyTasks() {
        return withTasks(tasks.stream().filter(task -> !task.isEmpty()).toList());
    }

    AgreementForm withOneMoreTask() {
        List<TaskForm> more = new ArrayList<>(tasks);
        more.add(TaskForm.blank());
        return withTasks(more);
    }

    AgreementForm withoutTask(int index) {
        List<TaskForm> fewer = new ArrayList<>(tasks);
        if (index >= 0 && index < fewer.size()) {
            fewer.remove(index);
        }
        return withTasks(fewer);
    }

    /** The agreement that is meant; empty if any field cannot be read, which is then shown at it. */
    Optional<NewAgreement> toCommand(FormReader reader) {
        Optional<UUID> system = reader.id("waterSystem", waterSystem);
        Optional<Integer> weeks = reader.requiredWhole("everyWeeks", everyWeeks, 1, 52);
        Optional<LocalDate> from = reader.requiredDate("validFrom", validFrom, FIRST_DAY, LAST_DAY);
        Optional<LocalDate> until = reader.date("validUntil", validUntil, FIRST_DAY, LAST_DAY);
        Optional<Integer> work = reader.requiredWhole("minutes", minutes, 1, 1440);
        Optional<BigDecimal> amount = reader.requiredNumber("price", price, BigDecimal.ZERO, HIGHEST_PRICE);
        Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
        Arrays.stream(DayOfWeek.values())
                .filter(day -> weekdays.contains(day.name()))
                .forEach(days::add);
        List<TaskView> read = new ArrayList<>();
        for (int i = 0; i < tasks.size(); i++) {
            tasks.get(i).toTask("tasks[" + i + "].", reader).ifPresent(read::add);
        }
        if (days.isEmpty()) {
            reader.refuse("weekdays", "schedule.weekday-missing");
        }
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new NewAgreement(
                Objects.requireNonNullElse(code, ""),
                WaterSystemId.of(system.orElseThrow()),
                weeks.orElseThrow(),
                days,
                from.orElseThrow(),
                until,
                work.orElseThrow(),
                amount.orElseThrow(),
                read,
                Optional.empty()));
    }
}

package app.tankround.schedule.web;

import app.tankround.schedule.AgreementId;
import app.tankround.schedule.AgreementView;
import app.tankround.schedule.NewAgreement;
import app.tankround.schedule.Pause;
import app.tankround.schedule.RecurrenceRule;
import app.tankround.schedule.Season;
import app.tankround.schedule.TaskKind;
import app.tankround.schedule.TaskView;
import app.tankround.schedule.VisitRhythm;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.MonthDay;
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
 * @param pattern a {@link VisitRhythm.Pattern}; one visit in so many weeks where it says nothing
 * @param planFrom from when on a change holds; today where it says nothing
 * @param id made when the form is shown, so that sending it twice adds once
 */
record AgreementForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String waterSystem,
        @Nullable String pattern,
        @Nullable String everyWeeks,
        List<String> weekdays,
        @Nullable String rule,
        @Nullable String validFrom,
        @Nullable String validUntil,
        @Nullable String toleranceDays,
        List<SeasonForm> seasons,
        List<PauseForm> pauses,
        @Nullable String planFrom,
        @Nullable String minutes,
        @Nullable String price,
        List<TaskForm> tasks)
        implements VersionedForm<AgreementForm> {

    private static final LocalDate FIRST_DAY = LocalDate.of(2000, 1, 1);
    private static final LocalDate LAST_DAY = LocalDate.of(2099, 12, 31);
    private static final int MOST_WEEKS = 52;

    AgreementForm {
        weekdays = weekdays == null ? List.of() : List.copyOf(weekdays);
        seasons = seasons == null ? List.of() : List.copyOf(seasons);
        pauses = pauses == null ? List.of() : List.copyOf(pauses);
        tasks = tasks == null ? List.of() : List.copyOf(tasks);
    }

    /** A season as typed: in so many weeks, or by a rule. */
    record SeasonForm(
            @Nullable String from,
            @Nullable String until,
            @Nullable String everyWeeks,
            @Nullable String rule) {

        static SeasonForm blank() {
            return new SeasonForm(null, null, null, null);
        }

        static SeasonForm of(Season season, VisitRhythm rhythm) {
            Optional<Integer> weeks = rhythm.everyWeeks(season);
            return new SeasonForm(
                    season.fromText(),
                    season.untilText(),
                    weeks.map(String::valueOf).orElse(null),
                    weeks.isPresent() ? null : season.rule().text());
        }

        boolean isEmpty() {
            return isBlank(from) && isBlank(until) && isBlank(everyWeeks) && isBlank(rule);
        }

        Optional<Season> toSeason(String path, VisitRhythm rhythm, FormReader reader) {
            Optional<MonthDay> first = reader.read(() -> Season.dayOfYear(path + "from", text(from)));
            Optional<MonthDay> last = reader.read(() -> Season.dayOfYear(path + "until", text(until)));
            Optional<RecurrenceRule> comes = isBlank(rule)
                    ? reader.requiredWhole(path + "everyWeeks", everyWeeks, 1, MOST_WEEKS)
                            .map(rhythm::seasonOf)
                    : reader.read(() -> RecurrenceRule.read(path + "rule", text(rule)));
            return first.flatMap(day -> last.flatMap(end -> comes.map(rule -> new Season(day, end, rule))));
        }

        /** What was typed, as the comparison of two versions shows it. */
        @Override
        public String toString() {
            return joined(from, until, everyWeeks, rule);
        }
    }

    /** A pause as typed, both days included. */
    record PauseForm(@Nullable String first, @Nullable String last) {

        static PauseForm blank() {
            return new PauseForm(null, null);
        }

        boolean isEmpty() {
            return isBlank(first) && isBlank(last);
        }

        Optional<Pause> toPause(String path, FormReader reader) {
            Optional<LocalDate> from = reader.requiredDate(path + "first", first, FIRST_DAY, LAST_DAY);
            Optional<LocalDate> until = reader.requiredDate(path + "last", last, FIRST_DAY, LAST_DAY);
            return from.flatMap(day -> until.map(end -> new Pause(day, end)));
        }

        /** What was typed, as the comparison of two versions shows it. */
        @Override
        public String toString() {
            return joined(first, last);
        }
    }

    private static boolean isBlank(@Nullable String text) {
        return text == null || text.isBlank();
    }

    private static String text(@Nullable String text) {
        return Objects.requireNonNullElse(text, "");
    }

    private static String joined(@Nullable String... texts) {
        return Stream.of(texts).filter(text -> !isBlank(text)).collect(Collectors.joining(" "));
    }

    /** One task as typed; the quantity stands for the item of a test. */
    record TaskForm(
            @Nullable String kind,
            @Nullable String amount,
            @Nullable String unit,
            @Nullable String item,
            @Nullable String quantity,
            @Nullable String sizeMm,
            @Nullable String lengthMm,
            @Nullable String finenessUm,
            @Nullable String intervalDays) {

        static TaskForm blank() {
            return new TaskForm(null, null, null, null, null, null, null, null, null);
        }

        static TaskForm of(TaskView task, Locale locale) {
            return new TaskForm(
                    task.kind().name(),
                    task.amount().map(amount -> plain(amount, locale)).orElse(null),
                    task.unit().orElse(null),
                    task.kind() == TaskKind.TEST ? null : task.item().orElse(null),
                    task.quantity().map(Quantity::name).orElse(null),
                    task.sizeMm().map(String::valueOf).orElse(null),
                    task.lengthMm().map(String::valueOf).orElse(null),
                    task.finenessUm().map(String::valueOf).orElse(null),
                    task.intervalDays().map(String::valueOf).orElse(null));
        }

        /** What was typed, as the comparison of two versions shows it. */
        @Override
        public String toString() {
            return joined(kind, item, quantity, amount, unit, sizeMm, lengthMm, finenessUm, intervalDays);
        }

        /** What tells the sizes of socks apart. */
        String size() {
            return Stream.of(sizeMm, lengthMm, finenessUm)
                    .map(part -> text(part).strip())
                    .collect(Collectors.joining("/"));
        }

        boolean isEmpty() {
            return kind == null || kind.isBlank();
        }

        Optional<TaskView> toTask(String path, FormReader reader) {
            Optional<BigDecimal> read = reader.number(path + "amount", amount);
            Optional<Integer> size = whole(path + "sizeMm", sizeMm, 10, 1000, reader);
            Optional<Integer> length = whole(path + "lengthMm", lengthMm, 10, 3000, reader);
            Optional<Integer> fineness = whole(path + "finenessUm", finenessUm, 1, 2000, reader);
            Optional<Integer> days = whole(path + "intervalDays", intervalDays, 1, 3660, reader);
            return reader.choice(path + "kind", kind, TaskKind.class)
                    .map(chosen -> new TaskView(
                            chosen,
                            read,
                            read.flatMap(some -> unitFor(chosen)),
                            chosen == TaskKind.TEST ? Optional.ofNullable(quantity) : Optional.ofNullable(item),
                            size,
                            length,
                            fineness,
                            days));
        }

        private Optional<String> unitFor(TaskKind chosen) {
            return Optional.ofNullable(unit)
                    .filter(written -> !written.isBlank())
                    .or(() -> chosen.units().stream().findFirst());
        }

        private static Optional<Integer> whole(
                String field, @Nullable String text, int least, int most, FormReader reader) {
            return text == null || text.isBlank() ? Optional.empty() : reader.requiredWhole(field, text, least, most);
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
                VisitRhythm.Pattern.ONE_IN_WEEKS.name(),
                "1",
                List.of(),
                null,
                today.toString(),
                null,
                "0",
                List.of(),
                List.of(),
                null,
                null,
                null,
                List.of(TaskForm.blank()));
    }

    static AgreementForm of(AgreementView agreement, LocalDate today, Locale locale) {
        VisitRhythm rhythm = agreement.rhythm();
        VisitRhythm.Pattern written = rhythm.pattern();
        return new AgreementForm(
                agreement.id().toString(),
                agreement.version(),
                agreement.code(),
                agreement.waterSystemId().toString(),
                written.name(),
                rhythm.everyWeeks().map(String::valueOf).orElse(null),
                rhythm.chosenWeekdays().stream().map(DayOfWeek::name).toList(),
                written == VisitRhythm.Pattern.RULE ? rhythm.rule().text() : null,
                agreement.validFrom().toString(),
                agreement.validUntil().map(LocalDate::toString).orElse(null),
                String.valueOf(rhythm.toleranceDays()),
                rhythm.seasons().stream()
                        .map(season -> SeasonForm.of(season, rhythm))
                        .toList(),
                rhythm.pauses().stream()
                        .map(pause -> new PauseForm(
                                pause.first().toString(), pause.last().toString()))
                        .toList(),
                agreement.heldFrom().isAfter(today) ? agreement.heldFrom().toString() : null,
                String.valueOf(agreement.minutes()),
                plain(agreement.price().getAmount(), locale),
                agreement.tasks().stream()
                        .map(task -> TaskForm.of(task, locale))
                        .toList());
    }

    private AgreementForm withRows(List<SeasonForm> otherSeasons, List<PauseForm> otherPauses, List<TaskForm> others) {
        return with(version, otherSeasons, otherPauses, others);
    }

    @Override
    public AgreementForm withVersion(int newest) {
        return with(newest, seasons, pauses, tasks);
    }

    private AgreementForm with(
            int newest, List<SeasonForm> otherSeasons, List<PauseForm> otherPauses, List<TaskForm> others) {
        return new AgreementForm(
                id,
                newest,
                code,
                waterSystem,
                pattern,
                everyWeeks,
                weekdays,
                rule,
                validFrom,
                validUntil,
                toleranceDays,
                otherSeasons,
                otherPauses,
                planFrom,
                minutes,
                price,
                others);
    }

    AgreementForm withoutEmptyRows() {
        return withRows(
                seasons.stream().filter(season -> !season.isEmpty()).toList(),
                pauses.stream().filter(pause -> !pause.isEmpty()).toList(),
                tasks.stream().filter(task -> !task.isEmpty()).toList());
    }

    AgreementForm withOneMoreTask() {
        return withRows(seasons, pauses, oneMore(tasks, TaskForm.blank()));
    }

    AgreementForm withOneMoreSeason() {
        return withRows(oneMore(seasons, SeasonForm.blank()), pauses, tasks);
    }

    AgreementForm withOneMorePause() {
        return withRows(seasons, oneMore(pauses, PauseForm.blank()), tasks);
    }

    /** With so many visits as each of these gaps needs: one on each of some weekdays of every week. */
    AgreementForm withVisitsOn(Set<DayOfWeek> days) {
        return new AgreementForm(
                id,
                version,
                code,
                waterSystem,
                VisitRhythm.Pattern.EACH_WEEKDAY.name(),
                "1",
                days.stream().sorted().map(DayOfWeek::name).toList(),
                null,
                validFrom,
                validUntil,
                toleranceDays,
                seasons,
                pauses,
                planFrom,
                minutes,
                price,
                tasks);
    }

    /** With socks of these sizes left with the client, in place of fewer of them. */
    AgreementForm withSocksLeft(List<TaskView> left, Locale locale) {
        Set<String> sizes =
                left.stream().map(task -> TaskForm.of(task, locale).size()).collect(Collectors.toSet());
        return withRows(
                seasons,
                pauses,
                Stream.concat(
                                tasks.stream()
                                        .filter(task ->
                                                !TaskKind.SOCKS_LEFT.name().equals(task.kind())
                                                        || !sizes.contains(task.size())),
                                left.stream().map(task -> TaskForm.of(task, locale)))
                        .toList());
    }

    private static <T> List<T> oneMore(List<T> rows, T blank) {
        return Stream.concat(rows.stream(), Stream.of(blank)).toList();
    }

    AgreementForm withoutTask(int index) {
        List<TaskForm> fewer = new ArrayList<>(tasks);
        if (index >= 0 && index < fewer.size()) {
            fewer.remove(index);
        }
        return withRows(seasons, pauses, fewer);
    }

    /** The agreement that is meant; empty if any field cannot be read, which is then shown at it. */
    Optional<NewAgreement> toCommand(FormReader reader) {
        Optional<UUID> system = reader.id("waterSystem", waterSystem);
        Optional<VisitRhythm> rhythm = rhythm(reader);
        Optional<LocalDate> holdsFrom = reader.date("planFrom", planFrom, FIRST_DAY, LAST_DAY);
        Optional<Integer> work = reader.requiredWhole("minutes", minutes, 1, 1440);
        Optional<BigDecimal> amount =
                reader.requiredNumber("price", price, BigDecimal.ZERO, NewAgreement.HIGHEST_PRICE);
        List<TaskView> read = new ArrayList<>();
        for (int i = 0; i < tasks.size(); i++) {
            tasks.get(i).toTask("tasks[" + i + "].", reader).ifPresent(read::add);
        }
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new NewAgreement(
                text(code),
                WaterSystemId.of(system.orElseThrow()),
                rhythm.orElseThrow(),
                work.orElseThrow(),
                amount.orElseThrow(),
                read,
                holdsFrom));
    }

    private Optional<VisitRhythm> rhythm(FormReader reader) {
        Optional<LocalDate> from = reader.requiredDate("validFrom", validFrom, FIRST_DAY, LAST_DAY);
        Optional<LocalDate> until = reader.date("validUntil", validUntil, FIRST_DAY, LAST_DAY);
        Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
        Arrays.stream(DayOfWeek.values())
                .filter(day -> weekdays.contains(day.name()))
                .forEach(days::add);
        Optional<VisitRhythm.Pattern> written = isBlank(pattern)
                ? Optional.of(VisitRhythm.Pattern.ONE_IN_WEEKS)
                : reader.choice("pattern", pattern, VisitRhythm.Pattern.class);
        Optional<VisitRhythm> plain = written.flatMap(chosen -> switch (chosen) {
            case ONE_IN_WEEKS, EACH_WEEKDAY -> {
                Optional<Integer> weeks = reader.requiredWhole("everyWeeks", everyWeeks, 1, MOST_WEEKS);
                if (days.isEmpty()) {
                    reader.refuse("weekdays", "schedule.weekday-missing");
                }
                yield days.isEmpty()
                        ? Optional.empty()
                        : from.flatMap(first -> weeks.map(n -> chosen == VisitRhythm.Pattern.ONE_IN_WEEKS
                                ? VisitRhythm.oneInWeeks(n, days, first, until)
                                : VisitRhythm.eachWeekday(n, days, first, until)));
            }
            case ONCE -> from.map(VisitRhythm::once);
            case RULE ->
                from.flatMap(first -> reader.read(() ->
                        VisitRhythm.byRule(text(rule), days.isEmpty() ? VisitRhythm.ANY_DAY : days, first, until)));
        });
        Optional<Integer> tolerance = isBlank(toleranceDays)
                ? Optional.of(0)
                : reader.requiredWhole("toleranceDays", toleranceDays, 0, VisitRhythm.MOST_TOLERANCE_DAYS);
        return plain.map(rhythm -> {
            List<Season> parts = new ArrayList<>();
            for (int i = 0; i < seasons.size(); i++) {
                seasons.get(i).toSeason("seasons[" + i + "].", rhythm, reader).ifPresent(parts::add);
            }
            List<Pause> rests = new ArrayList<>();
            for (int i = 0; i < pauses.size(); i++) {
                pauses.get(i).toPause("pauses[" + i + "].", reader).ifPresent(rests::add);
            }
            return rhythm.within(tolerance.orElse(0)).with(parts, rests);
        });
    }
}

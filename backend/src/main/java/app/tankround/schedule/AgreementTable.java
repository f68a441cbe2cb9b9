package app.tankround.schedule;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.clients.Weekdays;
import app.tankround.persistence.TransactionMemory;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/**
 * {@code agreements.csv}: one row for each task, with the agreement's own columns repeated; an agreement without tasks is
 * one row with an empty task number. Rows of one code must say the same about the agreement.
 */
@Component
class AgreementTable implements CsvTable {

    private static final Map<String, String> COLUMN_OF_FIELD = Map.of(
            "waterSystem", "system",
            "everyWeeks", "every_weeks",
            "validFrom", "valid_from",
            "validUntil", "valid_until",
            "sizeMm", "size_mm",
            "lengthMm", "length_mm",
            "finenessUm", "fineness_um",
            "intervalDays", "interval_days",
            "toleranceDays", "tolerance_days");

    private static final int TASK_COLUMNS = 9;

    private final Agreements agreements;
    private final DueVisits dueVisits;
    private final WaterSystems systems;

    AgreementTable(Agreements agreements, DueVisits dueVisits, WaterSystems systems) {
        this.agreements = agreements;
        this.dueVisits = dueVisits;
        this.systems = systems;
    }

    @Override
    public String name() {
        return "agreements";
    }

    @Override
    public int order() {
        return 130;
    }

    @Override
    public List<String> columns() {
        return List.of(
                "code",
                "system",
                "every_weeks",
                "weekdays",
                "valid_from",
                "valid_until",
                "minutes",
                "price",
                "task",
                "kind",
                "amount",
                "unit",
                "item",
                "size_mm",
                "length_mm",
                "fineness_um",
                "interval_days",
                "rule",
                "seasons",
                "pauses",
                "tolerance_days");
    }

    @Override
    public Set<String> laterColumns() {
        return Set.of("length_mm", "fineness_um", "rule", "seasons", "pauses", "tolerance_days");
    }

    @Override
    public Stream<List<String>> rows() {
        return agreements.all().stream().flatMap(agreement -> {
            List<String> head = head(agreement);
            List<String> days = days(agreement.rhythm());
            return agreement.tasks().isEmpty()
                    ? Stream.of(joined(head, Collections.nCopies(TASK_COLUMNS, ""), days))
                    : IntStream.range(0, agreement.tasks().size())
                            .mapToObj(i ->
                                    joined(head, task(i + 1, agreement.tasks().get(i)), days));
        });
    }

    private List<String> head(AgreementView agreement) {
        return List.of(
                agreement.code(),
                systems.require(agreement.waterSystemId()).code(),
                isPlain(agreement.rhythm())
                        ? agreement.rhythm().everyWeeks().map(String::valueOf).orElseThrow()
                        : "",
                new Weekdays(agreement.rhythm().weekdays()).toString(),
                agreement.validFrom().toString(),
                agreement.validUntil().map(LocalDate::toString).orElse(""),
                String.valueOf(agreement.minutes()),
                plain(agreement.price().getAmount()));
    }

    /** Whether the number of weeks says it all, as every file did before there were rules. */
    private static boolean isPlain(VisitRhythm rhythm) {
        return rhythm.pattern() == VisitRhythm.Pattern.ONE_IN_WEEKS;
    }

    private static List<String> days(VisitRhythm rhythm) {
        return List.of(
                isPlain(rhythm) ? "" : rhythm.rule().text(),
                new Seasons(rhythm.seasons()).toString(),
                new Pauses(rhythm.pauses()).toString(),
                String.valueOf(rhythm.toleranceDays()));
    }

    private static List<String> task(int number, TaskView task) {
        return List.of(
                String.valueOf(number),
                task.kind().name(),
                task.amount().map(AgreementTable::plain).orElse(""),
                task.unit().orElse(""),
                task.item().orElse(""),
                task.sizeMm().map(String::valueOf).orElse(""),
                task.lengthMm().map(String::valueOf).orElse(""),
                task.finenessUm().map(String::valueOf).orElse(""),
                task.intervalDays().map(String::valueOf).orElse(""));
    }

    private static List<String> joined(List<String> head, List<String> task, List<String> days) {
        return Stream.of(head, task, days).flatMap(List::stream).toList();
    }

    private static String plain(BigDecimal number) {
        return number.stripTrailingZeros().toPlainString();
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        String code = row.required("code");
        try {
            return apply(code, row);
        } catch (FieldRefusal refusal) {
            String field = refusal.field()
                    .replaceFirst("^tasks\\[\\d+]\\.", "")
                    .replaceFirst("^(seasons|pauses)\\[\\d+]\\..*", "$1");
            throw new CsvRefusal(
                    COLUMN_OF_FIELD.getOrDefault(field, field),
                    refusal.code(),
                    refusal.args().toArray());
        }
    }

    private CsvOutcome apply(String code, CsvRow row) {
        Optional<AgreementView> stored = agreements.byCode(code);
        List<TaskView> tasks = tasks(row, stored.map(AgreementView::tasks).orElse(List.of()));
        NewAgreement wanted = wanted(code, row, tasks);
        Set<String> seen = seenInThisImport();
        boolean created = seen.contains("created " + code);
        if (stored.isEmpty()) {
            agreements.add(wanted);
            seen.addAll(List.of(code, "created " + code));
            return CsvOutcome.CREATED;
        }
        if (seen.contains(code)) {
            requireSameHead(stored.get(), wanted);
        }
        int before = stored.get().version();
        agreements.change(stored.get().id(), before, wanted);
        seen.add(code);
        if (created) {
            return CsvOutcome.CREATED;
        }
        return agreements.require(stored.get().id()).version() == before ? CsvOutcome.UNCHANGED : CsvOutcome.CHANGED;
    }

    private NewAgreement wanted(String code, CsvRow row, List<TaskView> tasks) {
        String systemCode = row.required("system");
        WaterSystemView system = systems.findByCode(systemCode)
                .orElseThrow(() -> new CsvRefusal("system", "csv.reference-unknown", systemCode));
        Weekdays weekdays;
        try {
            weekdays = Weekdays.parse(row.required("weekdays"));
        } catch (IllegalArgumentException malformed) {
            throw new CsvRefusal("weekdays", "schedule.weekdays-malformed", row.required("weekdays"));
        }
        Optional<String> rule = row.text("rule");
        LocalDate from = row.requiredDate("valid_from");
        Optional<LocalDate> until = row.date("valid_until");
        VisitRhythm rhythm = rule.isPresent()
                ? VisitRhythm.byRule(rule.get(), weekdays.days(), from, until)
                : VisitRhythm.oneInWeeks(row.requiredWhole("every_weeks"), weekdays.days(), from, until);
        return new NewAgreement(
                code,
                system.id(),
                rhythm.within(row.whole("tolerance_days").orElse(0))
                        .with(
                                Seasons.parse(row.text("seasons").orElse("")).seasons(),
                                Pauses.parse(row.text("pauses").orElse("")).pauses()),
                row.requiredWhole("minutes"),
                row.requiredNumber("price"),
                tasks,
                // The rows come one by one: visits of days past would be made before all their tasks are known.
                Optional.of(dueVisits.today()));
    }

    /** The tasks known so far with the one of this row put at its number. */
    private static List<TaskView> tasks(CsvRow row, List<TaskView> known) {
        Optional<Integer> number = row.whole("task");
        List<TaskView> tasks = new ArrayList<>(known);
        if (number.isEmpty()) {
            return tasks;
        }
        if (number.get() < 1 || number.get() > tasks.size() + 1) {
            throw new CsvRefusal("task", "schedule.out-of-range", number.get(), 1, tasks.size() + 1);
        }
        TaskView task = new TaskView(
                row.requiredChoice("kind", TaskKind.class),
                row.number("amount"),
                row.text("unit"),
                row.text("item"),
                row.whole("size_mm"),
                row.whole("length_mm"),
                row.whole("fineness_um"),
                row.whole("interval_days"));
        if (number.get() > tasks.size()) {
            tasks.add(task);
        } else {
            tasks.set(number.get() - 1, task);
        }
        return tasks;
    }

    private static void requireSameHead(AgreementView first, NewAgreement wanted) {
        boolean same = first.waterSystemId().equals(wanted.waterSystemId())
                && first.rhythm().equals(wanted.rhythm())
                && first.minutes() == wanted.minutes()
                && first.price().getAmount().compareTo(wanted.price()) == 0;
        if (!same) {
            throw new CsvRefusal("code", "schedule.rows-disagree", wanted.code());
        }
    }

    /** Codes of the rows read before in the same import, which is one transaction. */
    private Set<String> seenInThisImport() {
        return TransactionMemory.of(this, HashSet::new);
    }
}

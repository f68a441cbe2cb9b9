package app.tankround.schedule;

import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code holidays.csv}: one row with the code of the calendar that is kept, or none where none is. */
@Component
class HolidayTable implements CsvTable {

    private final Holidays holidays;

    HolidayTable(Holidays holidays) {
        this.holidays = holidays;
    }

    @Override
    public String name() {
        return "holidays";
    }

    @Override
    public int order() {
        return 125;
    }

    @Override
    public List<String> columns() {
        return List.of("code");
    }

    @Override
    public Stream<List<String>> rows() {
        return holidays.kept().code().stream().map(List::of);
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        Holidays.Kept before = holidays.kept();
        Optional<String> code = Optional.of(row.required("code"));
        holidays.keep(code, before.version());
        if (before.code().equals(code)) {
            return CsvOutcome.UNCHANGED;
        }
        return before.code().isEmpty() ? CsvOutcome.CREATED : CsvOutcome.CHANGED;
    }
}

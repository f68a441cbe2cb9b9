package app.tankround.tanks;

import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import java.util.Map;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;

/** How tables refer to a system: by its code, in the column {@code system}. */
@Component
class SystemCodes {

    private final WaterSystemRepository systems;
    private final WaterSystemQueries queries;

    SystemCodes(WaterSystemRepository systems, WaterSystemQueries queries) {
        this.systems = systems;
        this.queries = queries;
    }

    Map<WaterSystemId, String> all() {
        return queries.all().stream().collect(Collectors.toMap(WaterSystemView::id, WaterSystemView::code));
    }

    WaterSystemId required(CsvRow row) {
        String code = row.required("system");
        return systems.findIdByCode(code).orElseThrow(() -> new CsvRefusal("system", "csv.reference-unknown", code));
    }
}

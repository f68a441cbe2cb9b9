package app.tankround.clients;

import app.tankround.accounts.CsvCell;
import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code site-safety.csv}: a row for each site of which something was said. */
@Component
class SiteSafetyTable implements CsvTable {

    private final SiteSafeties safeties;
    private final SiteSafetyService service;
    private final SiteService sites;

    SiteSafetyTable(SiteSafeties safeties, SiteSafetyService service, SiteService sites) {
        this.safeties = safeties;
        this.service = service;
        this.sites = sites;
    }

    @Override
    public String name() {
        return "site-safety";
    }

    @Override
    public int order() {
        return 31;
    }

    @Override
    public List<String> columns() {
        return List.of("site", "residual_current_test", "residual_current_note", "check_in_for", "check_in_note");
    }

    @Override
    public Stream<List<String>> rows() {
        return safeties.findAll().stream()
                .map(safety -> List.of(
                        sites.require(safety.siteId()).code(),
                        safety.details().residualCurrentTest().name(),
                        CsvCell.of(safety.details().residualCurrentNote()),
                        safety.details().checkInFor().name(),
                        CsvCell.of(safety.details().checkInNote())))
                .sorted(Comparator.comparing(List::getFirst));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            String code = row.required("site");
            SiteView site =
                    sites.findByCode(code).orElseThrow(() -> new CsvRefusal("site", "csv.reference-unknown", code));
            var details = new SiteSafetyDetails(
                    row.requiredChoice("residual_current_test", ResidualCurrentTest.class),
                    row.text("residual_current_note").orElse(null),
                    row.requiredChoice("check_in_for", LoneHazard.class),
                    row.text("check_in_note").orElse(null));
            SiteSafetyView before = service.of(site.id());
            if (safeties.findById(site.id())
                    .map(SiteSafety::details)
                    .filter(details::equals)
                    .isPresent()) {
                return CsvOutcome.UNCHANGED;
            }
            service.change(site.id(), before.version(), details);
            return before.version() == 0 ? CsvOutcome.CREATED : CsvOutcome.CHANGED;
        });
    }
}

package app.tankround.clients;

import app.tankround.accounts.CsvCell;
import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.web.FieldRefusal;
import java.time.DayOfWeek;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** {@code site-needs.csv}: a row for each site of which something was said. */
@Component
class SiteNeedsTable implements CsvTable {

    private final SiteNeedsRepository needs;
    private final SiteNeedsService service;
    private final SiteService sites;

    SiteNeedsTable(SiteNeedsRepository needs, SiteNeedsService service, SiteService sites) {
        this.needs = needs;
        this.service = service;
        this.sites = sites;
    }

    @Override
    public String name() {
        return "site-needs";
    }

    @Override
    public int order() {
        return 32;
    }

    @Override
    public List<String> columns() {
        return List.of(
                "site",
                "weekdays",
                "closures",
                "arrival_minutes",
                "parking_minutes",
                "key_lead_days",
                "two_people",
                "electrician",
                "diving",
                "lift");
    }

    @Override
    public Stream<List<String>> rows() {
        return needs.findAll().stream()
                .map(site -> List.of(
                        sites.require(site.siteId()).code(),
                        site.weekdays().toString(),
                        site.closures().toString(),
                        CsvCell.of(site.arrivalMinutes()),
                        CsvCell.of(site.parkingMinutes()),
                        CsvCell.of(site.keyLeadDays()),
                        CsvCell.of(site.twoPeople()),
                        CsvCell.of(site.electrician()),
                        CsvCell.of(site.diving()),
                        CsvCell.of(site.lift())))
                .sorted(Comparator.comparing(List::getFirst));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            String code = row.required("site");
            SiteView site =
                    sites.findByCode(code).orElseThrow(() -> new CsvRefusal("site", "csv.reference-unknown", code));
            SiteNeedsDetails details = details(row);
            Optional<SiteNeeds> before = needs.findById(site.id());
            if (before.map(SiteNeeds::details).filter(details::equals).isPresent()) {
                return CsvOutcome.UNCHANGED;
            }
            service.change(site.id(), before.map(SiteNeeds::version).orElse(0), details);
            return before.isEmpty() ? CsvOutcome.CREATED : CsvOutcome.CHANGED;
        });
    }

    private static SiteNeedsDetails details(CsvRow row) {
        try {
            return new SiteNeedsDetails(
                    weekdays(row.required("weekdays")),
                    Closures.parse(row.text("closures").orElse("")).closures(),
                    row.whole("arrival_minutes").orElse(null),
                    row.whole("parking_minutes").orElse(null),
                    row.whole("key_lead_days").orElse(null),
                    row.flag("two_people"),
                    row.flag("electrician"),
                    row.flag("diving"),
                    row.text("lift").orElse(null));
        } catch (FieldRefusal refusal) {
            throw refusal.field().startsWith("closures[")
                    ? new CsvRefusal("closures", refusal.code(), refusal.args().toArray())
                    : refusal;
        }
    }

    private static Set<DayOfWeek> weekdays(String written) {
        try {
            return Weekdays.parse(written).days();
        } catch (IllegalArgumentException malformed) {
            throw new CsvRefusal("weekdays", "clients.needs.weekdays-malformed", written);
        }
    }
}

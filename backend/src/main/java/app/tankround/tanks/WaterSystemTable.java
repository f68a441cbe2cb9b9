package app.tankround.tanks;

import app.tankround.accounts.CsvCell;
import app.tankround.accounts.CsvOutcome;
import app.tankround.accounts.CsvRefusal;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.persistence.Uuids;
import app.tankround.units.Volume;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/**
 * {@code systems.csv}. The names of the sample points stand in one cell, joined by {@code |}, in the order in which they
 * are drawn. Of a calculated volume the net volume may be left out; where it is given, it must be what the rest gives.
 */
@Component
class WaterSystemTable implements CsvTable {

    /** What rounding by hand may make of a sum of three volumes. */
    private static final double ACCEPTED_SHARE_OFF = 0.005;

    private final WaterSystemRepository systems;
    private final WaterSystems service;
    private final SiteService sites;
    private final Clock clock;

    WaterSystemTable(WaterSystemRepository systems, WaterSystems service, SiteService sites, Clock clock) {
        this.systems = systems;
        this.service = service;
        this.sites = sites;
        this.clock = clock;
    }

    @Override
    public String name() {
        return "systems";
    }

    @Override
    public int order() {
        return 50;
    }

    @Override
    public List<String> columns() {
        return List.of(
                "code",
                "site",
                "name",
                "kind",
                "infection_class",
                "class_since",
                "volume_basis",
                "net_volume_l",
                "display_volume_l",
                "displacement_l",
                "sump_volume_l",
                "started_on",
                "evaporation_l_day",
                "sample_points",
                "notes",
                "active");
    }

    @Override
    public Stream<List<String>> rows() {
        Map<SiteId, String> codes = sites.all().stream().collect(Collectors.toMap(SiteView::id, SiteView::code));
        return systems.findAll().stream()
                .sorted(Comparator.comparing(system -> system.details().code()))
                .map(system ->
                        cells(system, CsvCell.of(codes.get(system.details().siteId()))));
    }

    private List<String> cells(WaterSystem system, String site) {
        SystemDetails details = system.details();
        NetVolume volume = details.volume();
        return List.of(
                details.code(),
                site,
                details.name(),
                CsvCell.of(details.kind()),
                CsvCell.of(system.infectionClass()),
                CsvCell.of(system.classSince()),
                CsvCell.of(volume.basis()),
                CsvCell.of(volume.net()),
                CsvCell.of(volume.display()),
                CsvCell.of(volume.displacement()),
                CsvCell.of(volume.sump()),
                CsvCell.of(details.startedOn()),
                CsvCell.of(details.evaporationPerDay()),
                SamplePointNames.joined(service.samplePoints(system.id()).stream()
                        .map(SamplePointView::name)
                        .toList()),
                CsvCell.of(details.notes()),
                CsvCell.of(details.active()));
    }

    @Override
    public CsvOutcome apply(CsvRow row) {
        return CsvCell.atColumn(() -> {
            String site = row.required("site");
            var details = new SystemDetails(
                    row.required("code"),
                    sites.findByCode(site)
                            .map(SiteView::id)
                            .orElseThrow(() -> new CsvRefusal("site", "csv.reference-unknown", site)),
                    row.required("name"),
                    row.requiredChoice("kind", SystemKind.class),
                    volume(row),
                    row.date("started_on").orElse(null),
                    Optional.ofNullable(litres(row, "evaporation_l_day", 0)).orElse(Volume.ofLitres(0)),
                    row.text("notes").orElse(null),
                    row.flag("active"));
            InfectionClass infectionClass = row.requiredChoice("infection_class", InfectionClass.class);
            LocalDate since = row.requiredDate("class_since");
            List<String> points =
                    row.text("sample_points").map(SamplePointNames::split).orElse(List.of());
            Optional<WaterSystemId> stored = systems.findIdByCode(details.code());
            if (stored.isEmpty()) {
                service.add(new NewWaterSystem(
                        WaterSystemId.of(Uuids.next(clock.instant())),
                        details,
                        infectionClass,
                        since,
                        points,
                        List.of()));
                return CsvOutcome.CREATED;
            }
            int before = systems.findById(stored.get()).orElseThrow().version();
            service.restate(stored.get(), details, infectionClass, since, points);
            int after = systems.findById(stored.get()).orElseThrow().version();
            return before == after ? CsvOutcome.UNCHANGED : CsvOutcome.CHANGED;
        });
    }

    private static NetVolume volume(CsvRow row) {
        VolumeBasis basis = row.requiredChoice("volume_basis", VolumeBasis.class);
        Volume net = litres(row, "net_volume_l", NetVolume.SMALLEST_LITRES);
        Volume display = litres(row, "display_volume_l", NetVolume.SMALLEST_LITRES);
        Volume displacement = litres(row, "displacement_l", 0);
        Volume sump = litres(row, "sump_volume_l", 0);
        if (basis == VolumeBasis.STATED) {
            if (net == null) {
                throw new CsvRefusal("net_volume_l", "csv.field-missing");
            }
            return new NetVolume(basis, net, display, displacement, sump);
        }
        if (display == null) {
            throw new CsvRefusal("display_volume_l", "csv.field-missing");
        }
        NetVolume calculated = NetVolume.calculated(display, displacement, sump);
        double expected = calculated.net().litres();
        if (net != null && Math.abs(net.litres() - expected) > expected * ACCEPTED_SHARE_OFF) {
            throw new CsvRefusal("net_volume_l", "tanks.net-volume-differs", net.litres(), expected);
        }
        return calculated;
    }

    private static @Nullable Volume litres(CsvRow row, String column, double smallest) {
        return row.number(column)
                .map(number -> NetVolume.within(column, number.doubleValue(), smallest))
                .orElse(null);
    }
}

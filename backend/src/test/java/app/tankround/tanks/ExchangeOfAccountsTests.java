package app.tankround.tanks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.CsvTable;
import app.tankround.accounts.exchange.BusinessExchange;
import app.tankround.accounts.exchange.ImportOutcome;
import app.tankround.accounts.exchange.ImportProblem;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import app.tankround.web.CsvText;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.transaction.annotation.Transactional;

/** What is kept of clients, sites and systems goes out as CSV, into an empty business, and out again byte for byte. */
@SpringBootTest
@IntegrationTest
@Transactional
class ExchangeOfAccountsTests {

    private static final Set<String> OURS =
            Set.of("clients", "contacts", "sites", "systems", "tanks", "equipment", "livestock", "targets");

    private static final Map<String, String> FILES = files();

    @Autowired
    private List<CsvTable> tables;

    @Autowired
    private BusinessExchange exchange;

    @Autowired
    private JdbcClient jdbc;

    @BeforeEach
    void emptyBusiness() {
        TestBusiness.empty(jdbc, "client, depot, site, water_system");
    }

    @Test
    void exportsWhatItImportedByteForByte() {
        ImportOutcome outcome = exchange.importFile("all.zip", zip(FILES), false);

        assertThat(outcome.errors()).isEmpty();
        assertThat(outcome.created()).isEqualTo(19);
        assertThat(exported()).containsExactlyInAnyOrderEntriesOf(FILES);
    }

    @Test
    void importingTheSameAgainChangesNothing() {
        exchange.importFile("all.zip", zip(FILES), false);

        ImportOutcome again = exchange.importFile("all.zip", zip(FILES), false);

        assertThat(again).isEqualTo(new ImportOutcome(0, 0, 19, List.of()));
    }

    @Test
    void importsIntoAnEmptyBusinessWhatItExported() {
        exchange.importFile("all.zip", zip(FILES), false);
        Map<String, String> first = exported();
        emptyBusiness();

        exchange.importFile("all.zip", zip(first), false);

        assertThat(exported()).isEqualTo(first);
    }

    @Test
    void changesWhatAFileStatesAnew() {
        exchange.importFile("all.zip", zip(FILES), false);
        Map<String, String> changed = new LinkedHashMap<>(FILES);
        changed.replaceAll((name, text) -> text.replace("QUARANTINE,2026-02-10", "TREATMENT,2026-03-01")
                .replace("Display|Sump", "Sump|Overflow")
                .replace("TEMPERATURE,23,27", "TEMPERATURE,22.5,26"));

        ImportOutcome outcome = exchange.importFile("all.zip", zip(changed), false);

        assertThat(outcome.errors()).isEmpty();
        assertThat(outcome.changed()).isEqualTo(3);
        assertThat(exported()).containsExactlyInAnyOrderEntriesOf(changed);
    }

    /** A file knows nothing of the checks that were agreed for the release. */
    @Test
    void endsNoQuarantineByAFile() {
        exchange.importFile("all.zip", zip(FILES), false);
        Map<String, String> released = new LinkedHashMap<>(FILES);
        released.replaceAll((name, text) -> text.replace("QUARANTINE,2026-02-10", "HEALTHY,2026-03-01"));

        ImportOutcome outcome = exchange.importFile("all.zip", zip(released), false);

        assertThat(outcome.errors())
                .singleElement()
                .returns("infection_class", ImportProblem::column)
                .returns("tanks.quarantine.release-needed", ImportProblem::code);
        assertThat(exported()).containsExactlyInAnyOrderEntriesOf(FILES);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            quoteCharacter = '`',
            value = {
                "sites; 52.37,4.9; 52.37,184.9; longitude; web.number-out-of-range",
                "sites; 09:00,17:30; 17:30,09:00; attended_until; clients.attended-until-before-from",
                "sites; S-1,C-1; S-1,C-9; client; csv.reference-unknown",
                "clients; C-2,Marsh Lane Clinic; C-2,; name; csv.field-missing",
                "systems; STATED,400.5; STATED,-5; net_volume_l; web.number-out-of-range",
                "systems; 600,72,110; 600,720,110; displacement; tanks.displacement-fills-display",
                "systems; CALCULATED,638; CALCULATED,700; net_volume_l; tanks.net-volume-differs",
                "systems; 2024-05-01; 20225-05-01; started_on; csv.date-malformed",
                "sites; true,false,37.5; true,false,0; refill_litres; clients.refill-out-of-range",
                "sites; true,false,37.5; false,false,37.5; refill_litres; clients.refill-without-own-water",
                "tanks; ACRYLIC; PLASTIC; material; csv.choice-unknown",
                "livestock; ,7,; ,-7,; quantity; web.number-out-of-range",
                "targets; 1.023,1.026; 1.026,1.023; high; tanks.target-upside-down",
                "targets; SG,20/20; SG,; gravity_reference; tanks.gravity-reference-missing"
            })
    void refusesAFileWithABadValueAndKeepsNothingOfIt(
            String file, String good, String bad, String column, String code) {
        assertThat(FILES.get(file)).contains(good);
        Map<String, String> files = new LinkedHashMap<>(FILES);
        files.replaceAll((name, text) -> name.equals(file) ? text.replace(good, bad) : text);

        ImportOutcome outcome = exchange.importFile("all.zip", zip(files), true);

        assertThat(outcome.created()).isZero();
        assertThat(outcome.errors().stream().filter(problem -> problem.file().equals(file + ".csv")))
                .extracting(ImportProblem::column, ImportProblem::code)
                .contains(tuple(column, code));
    }

    private Map<String, String> exported() {
        return tables.stream()
                .filter(table -> OURS.contains(table.name()))
                .sorted(Comparator.comparingInt(CsvTable::order))
                .collect(Collectors.toMap(
                        CsvTable::name,
                        table -> CsvText.line(table.columns())
                                + table.rows().map(CsvText::line).collect(Collectors.joining()),
                        (first, second) -> first,
                        LinkedHashMap::new));
    }

    private static byte[] zip(Map<String, String> files) {
        var bytes = new ByteArrayOutputStream();
        try (var zip = new ZipOutputStream(bytes)) {
            for (var file : files.entrySet()) {
                zip.putNextEntry(new ZipEntry(file.getKey() + ".csv"));
                zip.write(file.getValue().getBytes(StandardCharsets.UTF_8));
                zip.closeEntry();
            }
        } catch (IOException impossible) {
            throw new AssertionError(impossible);
        }
        return bytes.toByteArray();
    }

    private static Map<String, String> files() {
        Map<String, String> files = new LinkedHashMap<>();
        files.put("clients", """
                code,name,billing_address,email,phone,notes
                C-1,"Bellwether, Restaurant","1 Quay
                Marlow",office@bellwether.example,0555 010 200,"Says ""never on Mondays"", pays late"
                C-2,Marsh Lane Clinic,,,,
                """);
        files.put("contacts", """
                code,client,name,role,phone,email,receives_reports
                P-1,C-1,Renée Castellane,Chef,0555 010 201,renee@bellwether.example,true
                P-2,C-2,O. Brandt,,,,false
                """);
        files.put("sites", """
                code,client,name,street,postal_code,locality,latitude,longitude,access_notes,attended_from,attended_until,own_tap,own_drain,own_ro_di,mixing_barrel,refill_litres
                D-1,,Yard,,,,-33.4567891,0.000123,,,,true,true,true,true,
                S-1,C-1,Dining room,1 Quay,1011 AB,Marlow,52.37,4.9,"Ring twice, then wait",09:00,17:30,true,false,true,false,37.5
                """);
        files.put("systems", """
                code,site,name,kind,infection_class,class_since,volume_basis,net_volume_l,display_volume_l,displacement_l,sump_volume_l,started_on,evaporation_l_day,sample_points,notes,active
                W-1,S-1,Reef wall,REEF,HEALTHY,2024-05-01,CALCULATED,638,600,72,110,2024-05-01,4.25,Display|Sump,,true
                W-2,S-1,Quarantine,FISH_ONLY,QUARANTINE,2026-02-10,STATED,400.5,,,,,0,,Own nets,true
                W-3,D-1,RO plant,SUPPLY,HEALTHY,2023-01-01,STATED,1000,,,,,0,After the carbon|Permeate|After the resin,,false
                """);
        files.put("tanks", """
                code,system,name,material,volume_l
                T-1,W-1,Display,ACRYLIC,600
                T-2,W-2,Box,GLASS,
                """);
        files.put("equipment", """
                code,system,kind,name,installed_on,notes
                E-1,W-1,Return pump,P 4000,2024-05-01,
                E-2,W-3,Membrane,"Stage 2, left",,Change in two years
                """);
        files.put("livestock", """
                code,system,common_name,scientific_name,quantity,added_on,will_be_eaten
                L-1,W-2,Clownfish,Amphiprion ocellaris,7,2026-02-20,false
                L-2,W-1,Lobster,,0,,true
                """);
        files.put("targets", """
                system,quantity,low,high,unit,gravity_reference
                W-1,TEMPERATURE,24,27,degC,
                W-1,SALINITY,1.023,1.026,SG,20/20
                W-2,TEMPERATURE,23,27,degC,
                W-3,DISSOLVED_SOLIDS,,2,mg/L,
                """);
        files.replaceAll((name, text) -> text.lines().collect(Collectors.joining("\r\n", "", "\r\n")));
        // Inside a field a line end is \n, whatever ends the rows.
        files.computeIfPresent("clients", (name, text) -> text.replace("Quay\r\n", "Quay\n"));
        return files;
    }
}

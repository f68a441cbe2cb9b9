package app.tankround.accounts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import app.tankround.accounts.exchange.BusinessExchange;
import app.tankround.accounts.exchange.ImportOutcome;
import app.tankround.accounts.exchange.ImportProblem;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestPeople;
import app.tankround.units.Volume;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;

@SpringBootTest
@IntegrationTest
class ExchangeIntegrationTests {

    private static final String HEADER =
            "code,name,depot,payload_kg,fixed_load_kg,drum_l,drum_empty_kg,technician,leaves_at\r\n";

    @Autowired
    private BusinessExchange exchange;

    @Autowired
    private Fleet fleet;

    @Autowired
    private People people;

    @Autowired
    private TestPeople business;

    @BeforeEach
    void setUpDepot() {
        business.person(Role.OWNER);
        fleet.ensureDepot("DEPOT", "Slip Road");
    }

    private ImportOutcome imported(String csv, boolean dryRun) {
        return exchange.importFile("vans.csv", csv.getBytes(StandardCharsets.UTF_8), dryRun);
    }

    private static Map<String, String> files(byte[] zip) throws IOException {
        var files = new LinkedHashMap<String, String>();
        try (var in = new ZipInputStream(new ByteArrayInputStream(zip))) {
            for (ZipEntry entry = in.getNextEntry(); entry != null; entry = in.getNextEntry()) {
                files.put(entry.getName(), new String(in.readAllBytes(), StandardCharsets.UTF_8));
            }
        }
        return files;
    }

    @Test
    void countsWhatIsNewChangedAndAsItWas() {
        String rows = "XA,Van A,DEPOT,650,144,25,1.2,,07:20\r\nXB,\"Van, B\",DEPOT,700.5,100,25,1.2,,07:30\r\n";

        assertThat(imported(HEADER + rows, false))
                .extracting(ImportOutcome::created)
                .isEqualTo(2);
        assertThat(imported(HEADER + rows, false))
                .extracting(ImportOutcome::unchanged)
                .isEqualTo(2);
        assertThat(imported(HEADER + rows.replace("700.5", "700"), false))
                .isEqualTo(new ImportOutcome(0, 1, 1, List.of()));
        assertThat(fleet.vanByCode("XB").orElseThrow().name()).isEqualTo("Van, B");
    }

    /** A file from another installation names people whom this one does not know. */
    @Test
    void keepsAPersonWhomItDoesNotKnowAsOneWhoMayNotSignIn() {
        imported(HEADER + "PEOPLE,Van,DEPOT,650,144,25,1.2,noor.a,07:20\r\n", false);

        var person = people.findBySignInName("noor.a").orElseThrow();
        assertThat(person.active()).isFalse();
        assertThat(person.role()).isEqualTo(Role.TECHNICIAN);
        assertThat(fleet.vanByCode("PEOPLE").orElseThrow().technician()).contains(person.id());
    }

    /** Cut off before the second file, and within the first. */
    @ParameterizedTest
    @ValueSource(doubles = {0.01, 0.5, 0.9})
    void refusesAZipThatWasCutOffInsteadOfTakingHalfOfIt(double share) {
        byte[] whole = exchange.export();
        byte[] cut = Arrays.copyOf(whole, (int) (whole.length * share) + 4);

        assertThat(exchange.importFile("business.zip", cut, false).errors())
                .extracting(ImportProblem::code)
                .containsExactly("csv.zip-broken");
        assertThat(exchange.importFile("business.zip", whole, false).errors()).isEmpty();
    }

    @Test
    void changesNothingOnATrialRun() {
        assertThat(imported(HEADER + "TRIAL,Van,DEPOT,650,144,25,1.2,,07:20\r\n", true)
                        .created())
                .isEqualTo(1);
        assertThat(fleet.vanByCode("TRIAL")).isEmpty();
    }

    @Test
    void importsNothingWhenOneRowIsRefusedAndNamesThePlaceOfEach() {
        var outcome = imported(
                HEADER
                        + "GOOD,Van,DEPOT,650,144,25,1.2,,07:20\r\n"
                        + "BAD1,\"Two\r\nlines\",DEPOT,-5,144,25,1.2,,07:20\r\n"
                        + "BAD2,Van,NOWHERE,650,144,25,1.2,,7 o'clock\r\n",
                false);

        assertThat(outcome.created()).isZero();
        assertThat(outcome.errors())
                .extracting(ImportProblem::line, ImportProblem::column, ImportProblem::code)
                .containsExactly(
                        tuple(3, "payload_kg", "csv.number-negative"), tuple(5, "depot", "csv.reference-unknown"));
        assertThat(fleet.vanByCode("GOOD")).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "payload_kg | NaN  | csv.number-malformed",
                "payload_kg | 1e9  | csv.number-malformed",
                "payload_kg | 6,5  | csv.number-malformed",
                "payload_kg | 900000000 | accounts.mass-range",
                "payload_kg | ''   | csv.field-missing",
                "leaves_at  | 25:00 | csv.time-malformed",
                "name       | ' '  | csv.field-missing",
                "drum_l     | 0    | accounts.drum-range",
            })
    void refusesAFieldWithItsReason(String column, String value, String code) {
        var fields = new LinkedHashMap<>(Map.of(
                "code",
                "F",
                "name",
                "Van",
                "depot",
                "DEPOT",
                "payload_kg",
                "650",
                "fixed_load_kg",
                "144",
                "drum_l",
                "25",
                "drum_empty_kg",
                "1.2",
                "technician",
                "",
                "leaves_at",
                "07:20"));
        fields.put(column, '"' + value + '"');
        var row = new StringBuilder();
        for (String name : HEADER.strip().split(",")) {
            row.append(row.isEmpty() ? "" : ",").append(fields.get(name));
        }

        assertThat(imported(HEADER + row + "\r\n", false).errors())
                .extracting(ImportProblem::code)
                .containsExactly(code);
        assertThat(fleet.vanByCode("F")).isEmpty();
    }

    @Test
    void takesTheRoomForDrumsAndFilesOfBeforeThereWasOne() {
        String with = HEADER.replace("drum_l", "room_l,drum_l");
        imported(with + "ROOM,Van,DEPOT,650,144,800,25,1.2,,07:20\r\n", false);
        assertThat(fleet.vanByCode("ROOM").orElseThrow().room()).contains(Volume.ofLitres(800));
        assertThat(imported(with + "ROOM,Van,DEPOT,650,144,0,25,1.2,,07:20\r\n", false)
                        .errors())
                .extracting(ImportProblem::code)
                .containsExactly("accounts.room-range");
        imported(HEADER + "ROOMLESS,Van,DEPOT,650,144,25,1.2,,07:20\r\n", false);
        assertThat(fleet.vanByCode("ROOMLESS").orElseThrow().room()).isEmpty();
    }

    @Test
    void refusesAnotherEncoding() {
        byte[] latin = (HEADER + "L,Fähre,DEPOT,650,144,25,1.2,,07:20\r\n").getBytes(Charset.forName("ISO-8859-1"));

        assertThat(exchange.importFile("vans.csv", latin, false).errors())
                .extracting(ImportProblem::code)
                .containsExactly("csv.not-utf8");
        byte[] sixteen = HEADER.getBytes(StandardCharsets.UTF_16);
        assertThat(exchange.importFile("vans.csv", sixteen, false).errors()).isNotEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "code,name | csv.column-missing",
                "code,name,colour | csv.column-unknown",
                "code,code | csv.column-twice",
            })
    void refusesAHeaderThatDoesNotFit(String header, String code) {
        assertThat(imported(header + "\r\n", false).errors())
                .extracting(ImportProblem::code)
                .contains(code);
    }

    @Test
    void takesAFileWrittenBeforeAColumnWasAdded() {
        String old = """
                code,name,quantity,value,unit,uncertainty,value_temperature_c,lot,opened_on,expires_on
                OLD-35,Standard from before,SALINITY,35,S,0.1,20,L-1,2026-01-15,2026-12-31
                """;

        ImportOutcome outcome = exchange.importFile("standards.csv", old.getBytes(StandardCharsets.UTF_8), false);

        assertThat(outcome.errors()).isEmpty();
        assertThat(outcome.created()).isEqualTo(1);
    }

    @Test
    void refusesAnUnknownFileAndABrokenZip() throws IOException {
        var bytes = new ByteArrayOutputStream();
        try (var zip = new ZipOutputStream(bytes)) {
            zip.putNextEntry(new ZipEntry("recipes.csv"));
            zip.write("code\r\n".getBytes(StandardCharsets.UTF_8));
        }
        assertThat(exchange.importFile("all.zip", bytes.toByteArray(), false).errors())
                .extracting(ImportProblem::code)
                .containsExactly("csv.file-unknown");
        assertThat(exchange.importFile("all.zip", new byte[] {'P', 'K', 3, 4, 5}, false)
                        .errors())
                .extracting(ImportProblem::code)
                .containsExactly("csv.zip-broken");
    }

    @Test
    void exportsTheSameBytesForTheSameDataAndTakesThemBackUnchanged() throws IOException {
        imported(HEADER + "EX,\"A \"\"quoted\"\" van\",DEPOT,650.25,144,25,1.2,technician,07:20\r\n", false);
        byte[] first = exchange.export();

        var outcome = exchange.importFile("business.zip", first, false);

        assertThat(outcome.errors()).isEmpty();
        assertThat(outcome.created() + outcome.changed()).isZero();
        assertThat(exchange.export()).isEqualTo(first);
        assertThat(files(first).get("vans.csv")).contains("EX,\"A \"\"quoted\"\" van\",DEPOT,650.25,144,,25,1.2,");
    }

    @Test
    void runsTwoImportsAtOnceOneAfterTheOther() throws Exception {
        String row = HEADER + "TWICE,Van,DEPOT,650,144,25,1.2,,07:20\r\n";
        Callable<ImportOutcome> work = () -> imported(row, false);
        try (var threads = Executors.newFixedThreadPool(2)) {
            var outcomes = threads.invokeAll(List.of(work, work));
            int created = 0;
            for (var outcome : outcomes) {
                assertThat(outcome.get().errors()).isEmpty();
                created += outcome.get().created();
            }
            assertThat(created).isEqualTo(1);
        }
    }
}

package app.tankround.stock;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.readings.Bench;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

@SpringBootTest
@IntegrationTest
@AutoConfigureMockMvc
@Import({Bench.class, PageTester.class})
class BatchPagesTests {

    @Autowired
    Bench bench;

    @Autowired
    PageTester pages;

    @Autowired
    WaterBatches batches;

    @Autowired
    JdbcClient jdbc;

    @Test
    void isWrittenDownMeasuredAndReleasedByATechnician() {
        new TestBusiness(jdbc);
        WaterSystemId vat = bench.vat();
        InstrumentId instrument = bench.refractometer();
        StandardId standard = bench.salinityStandard("35");
        bench.check(instrument, standard, bench.daysAgo(5), "1.0266", "1.0266");
        String blank = pages.page(Role.TECHNICIAN, "/stock/batches/new");
        Map<String, String> form = new HashMap<>(Map.of(
                "id", PageTester.value(blank, "id"),
                "madeIn", vat.toString(),
                "container", "drum 4",
                "litres", "0",
                "saltKg", "6.9",
                "targetLow", "34",
                "targetHigh", "36"));

        assertThat(PageTester.refusal(
                        PageTester.body(pages.post(Role.TECHNICIAN, "/stock/batches/new", form)), "litres"))
                .isEqualTo("0 is not accepted: above 0, up to 100000.");
        form.put("litres", "180");
        assertThat(pages.post(Role.TECHNICIAN, "/stock/batches/new", form)).hasStatus3xxRedirection();

        WaterBatchView batch = batches.all(1).getFirst();
        String path = "/stock/batches/" + batch.id();
        String open = pages.page(Role.TECHNICIAN, path);
        assertThat(open).contains("Not released", "180 L", "S 34 to 36");
        Map<String, String> release = new HashMap<>(Map.of(
                "id", PageTester.value(open, "id"),
                "version", PageTester.value(open, "version"),
                "instrumentId", instrument.toString(),
                "value", "1.020"));
        assertThat(pages.post(Role.TECHNICIAN, path, release)).hasStatus3xxRedirection();
        String off = pages.page(Role.TECHNICIAN, path);
        assertThat(off)
                .contains("Not released", "It is off its salinity", "1.020 SG 20/20")
                .doesNotContain("Release it unmeasured");
        release.put("id", value(off, path, "id"));
        release.put("version", value(off, path, "version"));
        release.put("value", "1.0266");
        assertThat(pages.post(Role.TECHNICIAN, path, release)).hasStatus3xxRedirection();
        assertThat(pages.page(Role.TECHNICIAN, path))
                .contains("1.0266 SG 20/20")
                .contains("No change of water names this batch yet.")
                .doesNotContain("Not released");
        assertThat(pages.page(Role.OFFICE, "/stock/batches")).contains("Batch " + batch.number());
        assertThat(PageTester.body(pages.get(Role.TECHNICIAN, path + "/label"))).startsWith("%PDF-");
        assertThat(PageTester.body(pages.get(Role.TECHNICIAN, "/stock/batches/labels")))
                .startsWith("%PDF-");
    }

    /** Of the form that releases it, behind the one that corrects it. */
    private static String value(String page, String path, String field) {
        return PageTester.value(page.substring(page.indexOf("action=\"" + path + "\"")), field);
    }
}

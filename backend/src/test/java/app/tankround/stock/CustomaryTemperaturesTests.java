package app.tankround.stock;

import static app.tankround.tanks.web.PageTester.body;
import static app.tankround.tanks.web.PageTester.refusal;
import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.Role;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardRegister;
import app.tankround.instruments.StandardView;
import app.tankround.readings.Bench;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.web.PageTester;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestBusiness;
import java.math.BigDecimal;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A business with US customary units types degrees Fahrenheit wherever a temperature is asked for; °F = °C × 9/5 + 32. */
@SpringBootTest
@AutoConfigureMockMvc
@IntegrationTest
@Import({Bench.class, PageTester.class})
class CustomaryTemperaturesTests {

    @Autowired
    Bench bench;

    @Autowired
    PageTester pages;

    @Autowired
    StandardRegister standards;

    @Autowired
    ReadingService readings;

    @Autowired
    WaterBatches batches;

    @Autowired
    JdbcClient jdbc;

    @BeforeEach
    void setUp() {
        new TestBusiness(jdbc);
        jdbc.sql("update business set unit_system = 'US_CUSTOMARY'").update();
    }

    @AfterEach
    void leaveMetric() {
        jdbc.sql("update business set unit_system = 'METRIC'").update();
    }

    @Test
    void takesTheTemperatureOfAStandardAndLeavesWhatNobodyChanged() {
        StandardId odd = bench.salinityStandard("35");
        jdbc.sql("update standard set value_temperature_c = 18.33 where id = :id")
                .param("id", odd.value())
                .update();
        String path = "/standards/" + odd;
        String open = body(pages.get(Role.OFFICE, path));
        // 18.33 °C is 64.994 °F.
        assertThat(PageTester.value(open, "valueTemperature")).isEqualTo("65");
        assertThat(open).contains("class=\"unit\">\u00b0F<").doesNotContain("class=\"unit\">\u00b0C<");

        Map<String, String> form = form(standards.require(odd));
        form.put("valueTemperature", "65");
        form.put("name", "Renamed");
        assertThat(pages.post(Role.OFFICE, path, form)).hasStatus3xxRedirection();
        assertThat(standards.require(odd).name()).isEqualTo("Renamed");
        assertThat(standards.require(odd).valueTemperature()).contains(new BigDecimal("18.33"));

        form = form(standards.require(odd));
        form.put("valueTemperature", "77");
        assertThat(pages.post(Role.OFFICE, path, form)).hasStatus3xxRedirection();
        assertThat(standards.require(odd).valueTemperature().orElseThrow()).isEqualByComparingTo("25");

        form = form(standards.require(odd));
        form.put("valueTemperature", "300");
        assertThat(refusal(body(pages.post(Role.OFFICE, path, form)), "valueTemperature"))
                .contains("300 is not accepted: it must be from 23 to 140");
        assertThat(standards.require(odd).valueTemperature().orElseThrow()).isEqualByComparingTo("25");
    }

    /** 10.012 at 25 °C, as in the table of the carbonate buffer. */
    @Test
    void namesTheTemperatureOfABufferInFahrenheit() {
        Map<String, String> form = new HashMap<>(Map.of(
                "code", bench.code("B"),
                "name", "Buffer",
                "kind", "PH_BUFFER",
                "quantity", "PH",
                "value", "9.18",
                "unit", "PH_UNIT",
                "uncertainty", "0.02",
                "valueTemperature", "77",
                "buffer", "CARBONATE",
                "version", "0"));

        assertThat(refusal(body(pages.post(Role.OFFICE, "/standards/new", form)), "value"))
                .contains("9.18 is not what this buffer has at 77 \u00b0F: it must be from 9.91 to 10.11");
    }

    @Test
    void takesTheTemperatureOfASampleOfAReadingAndOfItsCorrection() {
        WaterSystemId system = bench.marineSystem();
        String path = "/systems/" + system + "/readings/new";
        String blank = body(pages.get(Role.OFFICE, path));
        assertThat(blank).contains("class=\"unit\">\u00b0F<").doesNotContain("class=\"unit\">\u00b0C<");
        Map<String, String> form = new HashMap<>(Map.of(
                "id", PageTester.value(blank, "id"),
                "quantity", "SALINITY",
                "answer", "VALUE",
                "value", "1.025",
                "unit", "SPECIFIC_GRAVITY",
                "gravityReference", "20/20",
                "sampleTemperature", "300",
                "takenOn", "2026-03-01",
                "at", "09:00"));
        assertThat(refusal(body(pages.post(Role.OFFICE, path, form)), "sampleTemperature"))
                .contains("300\u00b0 is not accepted", "from 28.4\u00b0 to 104\u00b0");
        assertThat(readings.bySystem(system, 1)).isEmpty();
        form.put("sampleTemperature", "76.1");
        assertThat(pages.post(Role.OFFICE, path, form)).hasStatus3xxRedirection();
        ReadingView stored = readings.bySystem(system, 1).getFirst();
        assertThat(stored.sampleTemperature().orElseThrow()).isEqualByComparingTo("24.5");

        String correcting = "/readings/" + stored.id() + "/correct";
        String open = body(pages.get(Role.OFFICE, correcting));
        assertThat(PageTester.value(open, "sampleTemperature")).isEqualTo("76.1");
        form.put("id", PageTester.value(open, "id"));
        form.put("value", "1.026");
        form.put("reason", "misread");
        assertThat(pages.post(Role.OFFICE, correcting, form)).hasStatus3xxRedirection();
        assertThat(readings.bySystem(system, 1).getFirst().sampleTemperature()).isEqualTo(stored.sampleTemperature());
    }

    @Test
    void takesTheTemperatureOfASampleOfABatch() {
        WaterSystemId vat = bench.vat();
        InstrumentId instrument = bench.refractometer();
        bench.check(instrument, bench.salinityStandard("35"), bench.daysAgo(5), "1.0266", "1.0266");
        String blank = pages.page(Role.TECHNICIAN, "/stock/batches/new");
        assertThat(pages.post(
                        Role.TECHNICIAN,
                        "/stock/batches/new",
                        Map.of(
                                "id", PageTester.value(blank, "id"),
                                "madeIn", vat.toString(),
                                "container", "drum 4",
                                "litres", "40",
                                "saltKg", "12",
                                "targetLow", "34",
                                "targetHigh", "36")))
                .hasStatus3xxRedirection();
        String path = "/stock/batches/" + batches.all(1).getFirst().id();
        String open = pages.page(Role.TECHNICIAN, path);
        assertThat(open).contains("class=\"unit\">\u00b0F<").doesNotContain("class=\"unit\">\u00b0C<");
        Map<String, String> release = new HashMap<>(Map.of(
                "id", PageTester.value(open, "id"),
                "version", PageTester.value(open, "version"),
                "instrumentId", instrument.toString(),
                "value", "1.0266",
                "sampleTemperature", "200"));

        assertThat(refusal(body(pages.post(Role.TECHNICIAN, path, release)), "sampleTemperature"))
                .contains("200\u00b0 is not accepted", "from 28.4\u00b0 to 104\u00b0");
        release.put("sampleTemperature", "68");
        assertThat(pages.post(Role.TECHNICIAN, path, release)).hasStatus3xxRedirection();
        assertThat(readings.bySystem(vat, 1).getFirst().sampleTemperature().orElseThrow())
                .isEqualByComparingTo("20");
    }

    private static Map<String, String> form(StandardView stored) {
        return new HashMap<>(Map.of(
                "code", stored.code(),
                "name", stored.name(),
                "kind", stored.kind().name(),
                "quantity", stored.quantity().name(),
                "value", stored.value().toPlainString(),
                "unit", stored.unit().name(),
                "uncertainty", stored.uncertainty().toPlainString(),
                "version", Integer.toString(stored.version())));
    }
}

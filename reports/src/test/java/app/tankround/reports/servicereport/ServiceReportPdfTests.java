package app.tankround.reports.servicereport;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.reports.Conformance;
import app.tankround.reports.Picture;
import app.tankround.reports.ReadPdf;
import app.tankround.reports.ReadPdf.Element;
import app.tankround.reports.UnreadablePictureException;
import app.tankround.reports.servicereport.Measurement.Axis;
import app.tankround.reports.servicereport.Measurement.DoubtMark;
import app.tankround.reports.servicereport.Measurement.InDoubt;
import app.tankround.reports.servicereport.Measurement.Mark;
import app.tankround.reports.servicereport.Measurement.Plain;
import app.tankround.reports.servicereport.Measurement.State;
import app.tankround.reports.servicereport.Measurement.Verdict;
import app.tankround.reports.servicereport.ServiceReport.Photo;
import app.tankround.reports.servicereport.WaterSystem.ReadingLine;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ServiceReportPdfTests {

    private final ServiceReportPdf writer = new ServiceReportPdf(TestReports.ENGLISH);

    @Test
    void conformsToPdfA3aAndPdfUa1() throws IOException {
        byte[] pdf = writer.write(TestReports.full());

        Files.write(Path.of("target", "service-report.pdf"), pdf);
        Conformance.assertConforms(pdf);
    }

    @Test
    void readsFromTopToBottom() {
        byte[] pdf = writer.write(TestReports.full());

        assertThat(ReadPdf.text(pdf))
                .containsSubsequence(
                        "Lantern Quay Aquaria",
                        "Report V-2290 Version 2",
                        "Your aquariums on 19 November",
                        "For Bellwether Restaurant Site 4 Mill Lane, Ossmouth",
                        "Technician Noor Achterberg Met R. Castellane",
                        "The fish look well and eat.",
                        "Dining room marine, with reef · 640 L",
                        "What we measured Reading This visit Last visit Against the target Target",
                        "Temperature 25.4 °C 25.1 °C Inside 23 to 27 °C",
                        "Ammonia, total under 0.05 mg/L Not measured Inside up to 0.1 mg/L",
                        "Nitrate 38 mg/L 34 mg/L Cannot tell up to 40 mg/L",
                        "Phosphate 0.61 mg/L 0.44 mg/L Above up to 0.5 mg/L",
                        "What it means",
                        "About the salt",
                        "What was read 1.025 SG 25/25",
                        "What it really was 1.033 SG 25/25, give or take 0.001",
                        "What we did not do, and why",
                        "Back to the target, step by step 1.033 SG 25/25 19 November 1.031 SG 25/25 23 November",
                        "What we did Changed 65 L of water, matched to 1.033 SG 25/25 Emptied",
                        "Animals Animal Seen Lost Remark Yellow tang 2 0 Green chromis about 20 1 One found dead",
                        "Entrance freshwater, planted · 180 L",
                        "pH 6.3 Below 6.5 to 7.5",
                        "For the whole site",
                        "Photos Whole tank, 11:26",
                        "What you can do 1. Feed half",
                        "Next visit Monday 23 November, 11:15 to 12:30 Salinity down",
                        "For your safety Water and electricity",
                        "For Bellwether Restaurant: R. Castellane");
    }

    @Test
    void readsAloudInTheSameOrder() {
        List<Element> structure = ReadPdf.structure(writer.write(TestReports.full()));

        assertThat(structure)
                .filteredOn(element -> element.type().matches("H\\d"))
                .extracting(element -> element.type() + " " + element.text())
                .containsExactly(
                        "H1 Your aquariums on 19 November",
                        "H2 Dining room",
                        "H3 What we measured",
                        "H3 What it means",
                        "H3 About the salt",
                        "H3 What we did",
                        "H3 Animals",
                        "H2 Entrance",
                        "H3 What we measured",
                        "H3 What it means",
                        "H3 What we did",
                        "H2 For the whole site",
                        "H2 Photos",
                        "H2 What you can do",
                        "H2 Next visit",
                        "H2 For your safety");
        assertThat(structure)
                .filteredOn(element -> element.type().equals("Figure"))
                .extracting(element -> element.source().getAlternateDescription())
                .containsExactly(
                        "Whole tank, fish in open water",
                        "Sump seen from the front",
                        "Two clean filter socks",
                        "Signature of R. Castellane");
        assertThat(structure).extracting(Element::text).doesNotContain("?");
    }

    @Test
    void neverPrintsAReadingInDoubtAsAValue() {
        var inDoubt = new InDoubt("7.77 dKH", null, State.OPEN, null);
        WaterSystem system = withReadings(
                List.of(new ReadingLine("Alkalinity", inDoubt, inDoubt, "7 to 12 dKH")), TestReports.saltNotice());

        String text = ReadPdf.text(writer.write(TestReports.bare(List.of(system))));

        assertThat(text).contains("Alkalinity Read: 7.77 dKH Really: not known Not trusted Not trusted 7 to 12 dKH");
        assertThat(Pattern.compile("7\\.77").matcher(text).results()).hasSize(1);
    }

    @ParameterizedTest
    @EnumSource(Verdict.class)
    void saysEveryVerdictInWords(Verdict verdict) {
        var mark = new Mark(new Axis(0, 10, 3.0, 7.0), 12, 1.0, -4.0);
        WaterSystem system =
                withReadings(List.of(new ReadingLine("Nitrate", new Plain("12 mg/L", verdict, mark), null, null)));

        byte[] pdf = writer.write(TestReports.bare(List.of(system)));

        assertThat(ReadPdf.text(pdf))
                .contains("Nitrate 12 mg/L "
                        + switch (verdict) {
                            case INSIDE -> "Inside";
                            case CANNOT_TELL -> "Cannot tell";
                            case ABOVE -> "Above";
                            case BELOW -> "Below";
                            case NO_TARGET -> "No target";
                        });
    }

    @Test
    void drawsDoubtOfUnknownSize() {
        var doubt = new InDoubt("8.0", null, State.SETTLED, new DoubtMark(new Axis(5, 9, null, null), 8.0, null, null));
        WaterSystem system = withReadings(List.of(new ReadingLine("pH", doubt, null, null)), TestReports.saltNotice());

        byte[] pdf = writer.write(TestReports.bare(List.of(system)));

        assertThat(ReadPdf.text(pdf)).contains("pH Read: 8.0 Really: not known Not trusted");
        Conformance.assertConforms(pdf);
    }

    @Test
    void saysThatNothingWasMeasuredAndLeavesEmptySectionsOut() {
        byte[] pdf = writer.write(TestReports.bare(List.of(TestReports.emptySystem())));

        assertThat(ReadPdf.pages(pdf)).isEqualTo(1);
        assertThat(ReadPdf.text(pdf))
                .contains("Nothing was measured at this visit.")
                .doesNotContain("What we did", "Photos", "Next visit", "Met", "Animals", "What it means");
        Conformance.assertConforms(pdf);
    }

    @Test
    void writesAReportWithoutWaterSystems() {
        Conformance.assertConforms(writer.write(TestReports.bare(List.of())));
    }

    @Test
    void breaksThirtyReadingsOverPagesUnderARepeatedHeader() {
        var mark = new Mark(new Axis(0, 40, 5.0, 35.0), 17, 1.0, 15.0);
        WaterSystem system = withReadings(IntStream.rangeClosed(1, 30)
                .mapToObj(i -> new ReadingLine(
                        "Element " + i, new Plain(i + " mg/L", Verdict.INSIDE, mark), null, "5 to 35 mg/L"))
                .toList());

        byte[] pdf = writer.write(TestReports.bare(List.of(system)));

        assertThat(ReadPdf.pages(pdf)).isEqualTo(2);
        assertThat(ReadPdf.text(pdf, 2)).startsWith("Reading This visit Against the target Target Element");
        assertThat(ReadPdf.structure(pdf))
                .filteredOn(element -> element.type().equals("TR"))
                .hasSize(31);
        Conformance.assertConforms(pdf);
    }

    @Test
    void refusesADamagedPhotoByName() {
        ServiceReport full = TestReports.full();
        var damaged = new ServiceReport(
                full.language(),
                full.issuedAt(),
                full.title(),
                full.business(),
                full.visit(),
                full.correction(),
                full.summary(),
                full.waterSystems(),
                full.siteWork(),
                List.of(new Photo(new Picture(new byte[] {1, 2, 3}, "The sump"), "Sump")),
                full.advice(),
                full.nextVisit(),
                full.cautions(),
                full.signatures());

        assertThatExceptionOfType(UnreadablePictureException.class)
                .isThrownBy(() -> writer.write(damaged))
                .satisfies(refused -> assertThat(refused.alternativeText()).isEqualTo("The sump"));
    }

    @Test
    void writesSeveralReportsAtOnce() {
        ServiceReport report = TestReports.full();
        String alone = ReadPdf.text(writer.write(report));

        List<String> together = IntStream.range(0, 8)
                .parallel()
                .mapToObj(i -> ReadPdf.text(writer.write(report)))
                .toList();

        assertThat(together).containsOnly(alone);
    }

    private static WaterSystem withReadings(List<ReadingLine> readings, DoubtNotice... notices) {
        return new WaterSystem(
                "Dining room", "marine", "640 L", readings, List.of(), List.of(notices), List.of(), List.of());
    }
}

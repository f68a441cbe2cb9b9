package app.tankround.reports.servicereport;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.reports.Conformance;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class ServiceReportPdfTests {

    private final ServiceReportPdf writer = new ServiceReportPdf(TestReports.ENGLISH);

    @Test
    void conformsToPdfA3aAndPdfUa1() throws Exception {
        byte[] pdf = writer.write(TestReports.full());
        Files.write(Path.of("/tmp/pdfwork/full.pdf"), pdf);
        assertThat(pdf).isNotEmpty();

        Conformance.assertConforms(pdf);
    }
}

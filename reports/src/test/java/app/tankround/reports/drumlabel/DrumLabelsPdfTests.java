package app.tankround.reports.drumlabel;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.reports.PdfDocument.Particular;
import app.tankround.reports.ReadPdf;
import app.tankround.reports.drumlabel.DrumLabels.Label;
import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.LuminanceSource;
import com.google.zxing.NotFoundException;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.Result;
import com.google.zxing.common.GlobalHistogramBinarizer;
import com.google.zxing.multi.qrcode.QRCodeMultiReader;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.junit.jupiter.api.Test;

/** The codes are written by one library and read by another (ZXing), from the page as it is printed at 300 dots an inch. */
class DrumLabelsPdfTests {

    private static Label label(int number) {
        return new Label(
                "Batch " + number,
                List.of("Salt water, salinity 35", "300 L in drum " + number),
                List.of(
                        new Particular("Measured", "1.0266 SG 20/20, R-02"),
                        new Particular("Made", "30 Nov 2026, Noor"),
                        new Particular("Released", "1 Dec 2026, Noor"),
                        new Particular("Use by", "15 Dec 2026")),
                address(number),
                "Scan to open batch " + number);
    }

    private static String address(int number) {
        return "https://depot.example:8443/stock/batches/0193a1b2-0000-7000-8000-00000000000" + number;
    }

    private static byte[] labels(int count) {
        return DrumLabelsPdf.write(new DrumLabels(
                "Drum labels",
                Locale.UK,
                "Skerry Water Care",
                Instant.parse("2026-12-01T08:00:00Z"),
                (page, pages) -> page + " of " + pages,
                IntStream.rangeClosed(1, count)
                        .mapToObj(DrumLabelsPdfTests::label)
                        .toList()));
    }

    private static List<String> codes(byte[] pdf) {
        return ReadPdf.with(pdf, document -> {
            try {
                BufferedImage page = new PDFRenderer(document).renderImageWithDPI(0, 300);
                int[] pixels = page.getRGB(0, 0, page.getWidth(), page.getHeight(), null, 0, page.getWidth());
                LuminanceSource source = new RGBLuminanceSource(page.getWidth(), page.getHeight(), pixels);
                Result[] found = new QRCodeMultiReader()
                        .decodeMultiple(
                                new BinaryBitmap(new GlobalHistogramBinarizer(source)),
                                Map.of(DecodeHintType.TRY_HARDER, true));
                return Arrays.stream(found).map(Result::getText).sorted().toList();
            } catch (NotFoundException none) {
                return List.of();
            } catch (IOException unreadable) {
                throw new UncheckedIOException(unreadable);
            }
        });
    }

    @Test
    void saysWhatIsInTheDrumAndOpensItsPage() {
        byte[] pdf = labels(1);
        assertThat(ReadPdf.text(pdf)).contains("Batch 1", "Salt water, salinity 35", "R-02", "Use by", "15 Dec 2026");
        assertThat(codes(pdf)).containsExactly(address(1));
    }

    @Test
    void putsSeveralOnAPage() {
        byte[] pdf = labels(3);
        assertThat(ReadPdf.pages(pdf)).isEqualTo(1);
        assertThat(codes(pdf)).containsExactly(address(1), address(2), address(3));
    }
}

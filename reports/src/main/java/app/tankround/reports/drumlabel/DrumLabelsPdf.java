package app.tankround.reports.drumlabel;

import app.tankround.reports.Drawing;
import app.tankround.reports.PdfDocument;
import app.tankround.reports.PdfDocument.KeyEntry;
import app.tankround.reports.PdfDocument.Properties;
import app.tankround.reports.Pen;
import io.nayuki.qrcodegen.QrCode;
import java.awt.Color;
import java.util.List;

/** Writes {@link DrumLabels} as PDF, each label in a frame of its own, with a QR code (ISO/IEC 18004) that holds its page. */
public final class DrumLabelsPdf {

    /** A camera reads three centimetres from an arm's length; common practice, no source. */
    private static final float CODE_POINTS = 85;

    /** The light margin that ISO/IEC 18004 asks for, in modules. */
    private static final int QUIET = 4;

    private DrumLabelsPdf() {}

    public static byte[] write(DrumLabels labels) {
        var document = new PdfDocument(
                new Properties(labels.title(), labels.language(), labels.business(), labels.issuedAt()),
                labels.business(),
                labels.page());
        document.title(labels.title());
        labels.labels()
                .forEach(label -> document.notice(false, () -> {
                    document.band(label.headline(), label.says());
                    document.particulars(label.facts());
                    document.key(List.of(new KeyEntry(code(label.address()), label.scan())));
                }));
        return document.toBytes();
    }

    private static Drawing code(String address) {
        QrCode code = QrCode.encodeText(address, QrCode.Ecc.MEDIUM);
        return new Drawing(CODE_POINTS, CODE_POINTS, pen -> paint(code, pen));
    }

    /** Each row by its dark stretches. */
    private static void paint(QrCode code, Pen pen) {
        float module = CODE_POINTS / (code.size + 2 * QUIET);
        for (int y = 0; y < code.size; y++) {
            float middle = (QUIET + y + 0.5f) * module;
            int x = 0;
            while (x < code.size) {
                int end = x;
                while (end < code.size && code.getModule(end, y)) {
                    end++;
                }
                if (end > x) {
                    pen.line((QUIET + x) * module, middle, (QUIET + end) * module, middle, module, Color.BLACK);
                }
                x = end + 1;
            }
        }
    }
}

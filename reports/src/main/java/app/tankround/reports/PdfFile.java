package app.tankround.reports;

import app.tankround.reports.PdfDocument.Properties;
import java.awt.color.ColorSpace;
import java.awt.color.ICC_Profile;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.ZoneOffset;
import java.util.GregorianCalendar;
import java.util.List;
import org.openpdf.text.Document;
import org.openpdf.text.PageSize;
import org.openpdf.text.Rectangle;
import org.openpdf.text.pdf.PdfBoolean;
import org.openpdf.text.pdf.PdfDate;
import org.openpdf.text.pdf.PdfDictionary;
import org.openpdf.text.pdf.PdfName;
import org.openpdf.text.pdf.PdfOutline;
import org.openpdf.text.pdf.PdfString;
import org.openpdf.text.pdf.PdfStructureElement;
import org.openpdf.text.pdf.PdfWriter;

/** The file: what it says of itself, as PDF/A and tagged PDF want it, and its A4 pages. */
final class PdfFile {

    static final Rectangle PAGE = PageSize.A4;
    static final float MARGIN = 40;
    private static final float TOP = 42;
    private static final float BOTTOM = 56;

    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    private final Document document;
    private final PdfWriter writer;
    private final PdfStructureElement root;

    /** Draws what stands at the foot of every page. */
    @FunctionalInterface
    interface Foot {
        void paint(Canvas canvas, int page, int pages);
    }

    PdfFile(Properties properties) {
        document = new Document(PAGE, MARGIN, MARGIN, TOP, BOTTOM);
        writer = PdfWriter.getInstance(document, bytes);
        declare(properties);
        root = new PdfStructureElement(writer.getStructureTreeRoot(), new PdfName("Document"));
    }

    /** The element of the structure that holds all others. */
    PdfStructureElement root() {
        return root;
    }

    PdfOutline outline() {
        return writer.getDirectContent().getRootOutline();
    }

    private void declare(Properties properties) {
        String producer = "Tankround";
        writer.setPdfVersion(PdfWriter.VERSION_1_7);
        writer.setTagged();
        writer.addViewerPreference(PdfName.DISPLAYDOCTITLE, PdfBoolean.PDFTRUE);
        writer.setXmpMetadata(Xmp.of(properties, producer));
        document.open();
        writer.getExtraCatalog()
                .put(PdfName.LANG, new PdfString(properties.language().toLanguageTag()));
        PdfDictionary info = writer.getInfo();
        var created = new PdfDate(GregorianCalendar.from(properties.createdAt().atZone(ZoneOffset.UTC)));
        info.put(PdfName.TITLE, new PdfString(properties.title(), PdfString.TEXT_UNICODE));
        info.put(PdfName.AUTHOR, new PdfString(properties.author(), PdfString.TEXT_UNICODE));
        info.put(PdfName.CREATIONDATE, created);
        info.put(PdfName.MODDATE, created);
        info.put(PdfName.PRODUCER, new PdfString(producer));
        try {
            writer.setOutputIntents(
                    "Custom",
                    "",
                    "http://www.color.org",
                    "sRGB IEC61966-2.1",
                    ICC_Profile.getInstance(ColorSpace.CS_sRGB));
            // OpenPDF writes an intent for PDF/X unless it is told to write PDF/A-1.
            writer.getExtraCatalog()
                    .getAsArray(PdfName.OUTPUTINTENTS)
                    .getAsDict(0)
                    .put(PdfName.S, PdfName.GTS_PDFA1);
        } catch (IOException e) {
            throw new UncheckedIOException("The colour profile cannot be written", e);
        }
    }

    /** Breaks the strips into pages and ends the file. */
    byte[] write(List<Strip> strips, Foot foot) {
        List<List<Strip>> pages = Paginator.paginate(strips, PAGE.getHeight() - TOP - BOTTOM);
        var canvas = new Canvas(writer.getDirectContent(), PAGE.getHeight());
        for (int i = 0; i < pages.size(); i++) {
            if (i > 0) {
                document.newPage();
            }
            float top = TOP;
            for (Strip strip : pages.get(i)) {
                strip.painter().paint(canvas, top);
                top += strip.height();
            }
            foot.paint(canvas, i + 1, pages.size());
            writer.setPageEmpty(false);
        }
        document.close();
        return bytes.toByteArray();
    }
}

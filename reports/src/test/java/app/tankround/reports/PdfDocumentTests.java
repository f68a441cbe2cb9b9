package app.tankround.reports;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import app.tankround.reports.PdfDocument.Figure;
import app.tankround.reports.PdfDocument.Particular;
import app.tankround.reports.PdfDocument.Properties;
import app.tankround.reports.ReadPdf.Element;
import app.tankround.reports.Table.Align;
import app.tankround.reports.Table.Cell;
import app.tankround.reports.Table.Column;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import java.util.stream.StreamSupport;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PdfDocumentTests {

    private static final Column LEFT = new Column("Name", 1, Align.LEFT);
    private static final Column RIGHT = new Column("Amount", 1, Align.RIGHT);

    private final PdfDocument document = document("Test sheet", Locale.UK);

    private static PdfDocument document(String title, Locale language) {
        return new PdfDocument(
                new Properties(title, language, "Lantern Quay Aquaria", Instant.parse("2026-11-19T13:05:00Z")),
                "Lantern Quay Aquaria",
                (page, pages) -> page + "/" + pages);
    }

    @Test
    void saysTitleLanguageAndAuthor() {
        PdfDocument german = document("Bericht <1> & \"Ende\"", Locale.GERMANY);
        german.title("Bericht");

        byte[] pdf = german.toBytes();

        ReadPdf.with(pdf, file -> {
            assertThat(file.getDocumentInformation().getTitle()).isEqualTo("Bericht <1> & \"Ende\"");
            assertThat(file.getDocumentInformation().getAuthor()).isEqualTo("Lantern Quay Aquaria");
            assertThat(file.getDocumentInformation().getCreationDate().toInstant())
                    .isEqualTo(Instant.parse("2026-11-19T13:05:00Z"));
            assertThat(file.getDocumentCatalog().getLanguage()).isEqualTo("de-DE");
            assertThat(file.getDocumentCatalog().getViewerPreferences().displayDocTitle())
                    .isTrue();
            return null;
        });
        Conformance.assertConforms(pdf);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "≤ ≥ ± ° × − € ‰ “quoted” – dash…",
                "NO\u2083\u207B → ✓ ▲ ▼ \u2011",
                "Ελληνικά",
                "Аквариум у входа",
                "Żółw Ćma Ștefan Ångström"
            })
    void printsCharactersThatTheFaceLacksInAnotherFont(String text) {
        document.paragraph(text);

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.text(pdf)).contains(text);
        Conformance.assertConforms(pdf);
    }

    @Test
    void writesTheMicroSignAsMu() {
        document.paragraph("410 \u00B5S");

        assertThat(ReadPdf.text(document.toBytes())).contains("410 \u03BCS");
    }

    @Test
    void keepsTheTextOfCharactersThatNoFontHas() {
        document.paragraph("Tank of \u6C34\u69FD \uD83D\uDC20 and\u0007 more");

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.structure(pdf))
                .extracting(Element::text)
                .contains("Tank of \u6C34\u69FD \uD83D\uDC20 and more");
        Conformance.assertConforms(pdf);
    }

    @Test
    void embedsEveryFont() {
        document.title("Title");
        document.paragraph("Text Ω →");

        List<PDFont> fonts = ReadPdf.with(document.toBytes(), file -> {
            var resources = file.getPage(0).getResources();
            return StreamSupport.stream(resources.getFontNames().spliterator(), false)
                    .map((COSName name) -> {
                        try {
                            return resources.getFont(name);
                        } catch (IOException e) {
                            throw new UncheckedIOException(e);
                        }
                    })
                    .toList();
        });

        assertThat(fonts).hasSizeGreaterThanOrEqualTo(3).allMatch(PDFont::isEmbedded);
    }

    @Test
    void repeatsTheTableHeaderOnEveryPageButTagsItOnce() {
        document.title("Long table");
        document.table(new Table(
                List.of(LEFT, RIGHT),
                IntStream.rangeClosed(1, 120)
                        .mapToObj(row -> List.of(Cell.of("Row " + row), Cell.of(row + " L")))
                        .toList()));

        byte[] pdf = document.toBytes();

        int pages = ReadPdf.pages(pdf);
        assertThat(pages).isGreaterThan(2);
        for (int page = 1; page <= pages; page++) {
            assertThat(ReadPdf.text(pdf, page)).contains("Name Amount Row");
        }
        List<Element> structure = ReadPdf.structure(pdf);
        assertThat(structure)
                .filteredOn(element -> element.type().equals("Table"))
                .hasSize(1);
        assertThat(structure).filteredOn(element -> element.type().equals("TR")).hasSize(121);
        assertThat(structure)
                .filteredOn(element -> scope(element).equals("Column"))
                .extracting(Element::text)
                .containsExactly("Name", "Amount");
        assertThat(structure)
                .filteredOn(element -> scope(element).equals("Row"))
                .hasSize(120)
                .last()
                .extracting(Element::text)
                .isEqualTo("Row 120");
        Conformance.assertConforms(pdf);
    }

    private static String scope(Element element) {
        if (!element.type().equals("TH")) {
            return "";
        }
        var attributes = element.source().getCOSObject().getCOSDictionary(COSName.A);
        return attributes == null ? "" : attributes.getNameAsString("Scope", "");
    }

    @Test
    void breaksARowHigherThanAPage() {
        String text = "word ".repeat(2000) + "end";
        document.table(new Table(List.of(LEFT, RIGHT), List.of(List.of(Cell.of("Row"), Cell.of(text)))));

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.pages(pdf)).isGreaterThan(1);
        assertThat(ReadPdf.structure(pdf))
                .filteredOn(element -> element.type().equals("TD"))
                .extracting(Element::text)
                .containsExactly(text);
        Conformance.assertConforms(pdf);
    }

    @Test
    void breaksANoticeHigherThanAPage() {
        document.title("Title");
        document.heading("Section", "");
        document.notice(true, () -> {
            document.subheading("Notice");
            IntStream.range(0, 80).forEach(i -> document.paragraph("Sentence " + i));
        });

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.pages(pdf)).isGreaterThan(1);
        assertThat(ReadPdf.text(pdf)).contains("Sentence 0").contains("Sentence 79");
        Conformance.assertConforms(pdf);
    }

    @Test
    void movesAHeadingToThePageOfItsText() {
        document.title("Title");
        document.space(660);
        document.heading("Moved", "");
        document.paragraph("Text of one line");

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.text(pdf, 1)).contains("Title").doesNotContain("Moved");
        assertThat(ReadPdf.text(pdf, 2)).contains("Moved Text of one line");
    }

    @Test
    void cutsAWordWiderThanThePage() {
        String word = "x".repeat(400);
        document.paragraph(word);

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.structure(pdf)).extracting(Element::text).contains(word);
        assertThat(ReadPdf.text(pdf)).doesNotContain(word);
    }

    @Test
    void keepsWordsApartWhereALineBreaks() {
        document.paragraph("several words that go on ".repeat(20));

        assertThat(ReadPdf.structure(document.toBytes()))
                .extracting(Element::text)
                .contains("several words that go on ".repeat(20).strip());
    }

    @Test
    void writesABookmarkForEveryHeading() {
        document.title("Title");
        document.heading("First", "");
        document.subheading("Part");
        document.heading("Second", "");

        ReadPdf.with(document.toBytes(), file -> {
            PDOutlineItem title = file.getDocumentCatalog().getDocumentOutline().getFirstChild();
            PDOutlineItem first = title.getFirstChild();
            assertThat(title.getTitle()).isEqualTo("Title");
            assertThat(first.getTitle()).isEqualTo("First");
            assertThat(first.getFirstChild().getTitle()).isEqualTo("Part");
            assertThat(first.getNextSibling().getTitle()).isEqualTo("Second");
            return null;
        });
    }

    @Test
    void numbersPagesOutsideTheContent() {
        document.paragraph("Text");

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.text(pdf)).contains("1/1");
        assertThat(ReadPdf.structure(pdf)).extracting(Element::text).doesNotContain("1/1");
    }

    @Test
    void leavesEmptyPartsOut() {
        document.title("Title");
        document.bullets(List.of());
        document.numbered(List.of());
        document.checklist(List.of());
        document.particulars(List.of());
        document.steps(List.of());
        document.figures(List.of());
        document.key(List.of());
        document.signatures(List.of());
        document.table(new Table(List.of(LEFT), List.of()));

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.pages(pdf)).isEqualTo(1);
        assertThat(ReadPdf.structure(pdf)).extracting(Element::type).containsExactly("Document", "H1");
        Conformance.assertConforms(pdf);
    }

    @Test
    void putsFiveParticularsInARow() {
        document.particulars(IntStream.rangeClosed(1, 7)
                .mapToObj(i -> new Particular("Label " + i, "Value " + i))
                .toList());

        assertThat(ReadPdf.text(document.toBytes())).contains("Label 1 Value 1").contains("Label 7 Value 7");
    }

    @Test
    void givesFiguresTheirAlternativeText() {
        document.figures(List.of(
                new Figure(TestPictures.jpeg(400, 300, "Tang in open water"), "Tang"),
                new Figure(TestPictures.png(300, 400, "Sump"), "Sump, 11:28")));

        byte[] pdf = document.toBytes();

        assertThat(ReadPdf.structure(pdf))
                .filteredOn(element -> element.type().equals("Figure"))
                .extracting(element -> element.source().getAlternateDescription())
                .containsExactly("Tang in open water", "Sump");
        Conformance.assertConforms(pdf);
    }

    @Test
    void refusesARowOfAnotherLength() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Table(List.of(LEFT, RIGHT), List.of(List.of(Cell.of("alone")))))
                .withMessage("A row has 1 cells, the table 2 columns");
    }

    @Test
    void refusesAHeadingThatSkipsALevel() {
        assertThatIllegalStateException().isThrownBy(() -> document.heading("Section", ""));
        document.title("Title");
        assertThatIllegalStateException()
                .isThrownBy(() -> document.subheading("Part"))
                .withMessage("H3 \"Part\" needs a heading of level 2 before it");
    }

    @Test
    void refusesANoticeWithoutContent() {
        assertThatIllegalArgumentException().isThrownBy(() -> document.notice(false, () -> {}));
    }

    @Test
    void refusesToEndTwice() {
        document.toBytes();

        assertThatIllegalStateException().isThrownBy(document::toBytes);
    }
}

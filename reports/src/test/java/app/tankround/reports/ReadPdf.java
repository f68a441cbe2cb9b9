package app.tankround.reports;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDMarkedContentReference;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureElement;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.PDStructureNode;
import org.apache.pdfbox.pdmodel.documentinterchange.markedcontent.PDMarkedContent;
import org.apache.pdfbox.text.PDFMarkedContentExtractor;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.jspecify.annotations.Nullable;

/** Reads a file back with PDFBox. */
public final class ReadPdf {

    private ReadPdf() {}

    /** An element of the structure tree with the text a screen reader says for it. */
    public record Element(String type, String text, PDStructureElement source) {}

    public static <T extends @Nullable Object> T with(byte[] pdf, Function<PDDocument, T> question) {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return question.apply(document);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Text in the order in which it was drawn, with single spaces. */
    public static String text(byte[] pdf) {
        return with(pdf, document -> strip(document, 1, document.getNumberOfPages()));
    }

    /** @param page from 1 */
    public static String text(byte[] pdf, int page) {
        return with(pdf, document -> strip(document, page, page));
    }

    public static int pages(byte[] pdf) {
        return with(pdf, PDDocument::getNumberOfPages);
    }

    private static String strip(PDDocument document, int from, int to) {
        try {
            var stripper = new PDFTextStripper();
            stripper.setStartPage(from);
            stripper.setEndPage(to);
            return stripper.getText(document).replaceAll("[\\s\u00A0]+", " ").strip();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The elements in the order of the structure tree, which is the order of reading aloud. */
    public static List<Element> structure(byte[] pdf) {
        return with(pdf, document -> {
            Map<PDPage, Map<Integer, String>> texts = new HashMap<>();
            List<Element> elements = new ArrayList<>();
            walk(document.getDocumentCatalog().getStructureTreeRoot(), texts, elements);
            return elements;
        });
    }

    private static void walk(PDStructureNode node, Map<PDPage, Map<Integer, String>> texts, List<Element> elements) {
        for (Object kid : node.getKids()) {
            if (kid instanceof PDStructureElement element) {
                elements.add(new Element(element.getStructureType(), spoken(element, texts), element));
                walk(element, texts, elements);
            }
        }
    }

    private static String spoken(PDStructureElement element, Map<PDPage, Map<Integer, String>> texts) {
        var spoken = new StringBuilder();
        for (Object kid : element.getKids()) {
            if (kid instanceof Integer mark) {
                spoken.append(texts(element.getPage(), texts).getOrDefault(mark, "?"));
            } else if (kid instanceof PDMarkedContentReference reference) {
                spoken.append(texts(reference.getPage(), texts).getOrDefault(reference.getMCID(), "?"));
            }
        }
        return spoken.toString().replace('\u00A0', ' ');
    }

    private static Map<Integer, String> texts(PDPage page, Map<PDPage, Map<Integer, String>> texts) {
        return texts.computeIfAbsent(page, key -> {
            try {
                var extractor = new PDFMarkedContentExtractor();
                extractor.processPage(key);
                Map<Integer, String> byMark = new HashMap<>();
                for (PDMarkedContent content : extractor.getMarkedContents()) {
                    if (content.getMCID() >= 0) {
                        byMark.merge(content.getMCID(), spoken(content), String::concat);
                    }
                }
                return byMark;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        });
    }

    private static String spoken(PDMarkedContent content) {
        if (content.getActualText() != null) {
            return content.getActualText();
        }
        var spoken = new StringBuilder();
        for (Object part : content.getContents()) {
            if (part instanceof TextPosition position) {
                spoken.append(position.getUnicode());
            } else if (part instanceof PDMarkedContent nested) {
                spoken.append(spoken(nested));
            }
        }
        return spoken.toString();
    }
}

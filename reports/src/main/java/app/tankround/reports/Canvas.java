package app.tankround.reports;

import app.tankround.reports.Fonts.Run;
import app.tankround.reports.Typesetter.Line;
import java.awt.Color;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.openpdf.text.Image;
import org.openpdf.text.pdf.PdfArray;
import org.openpdf.text.pdf.PdfContentByte;
import org.openpdf.text.pdf.PdfDictionary;
import org.openpdf.text.pdf.PdfName;
import org.openpdf.text.pdf.PdfNumber;
import org.openpdf.text.pdf.PdfString;
import org.openpdf.text.pdf.PdfStructureElement;

/** A page to draw on. Whatever is drawn is either content of a structure element or an artifact, never neither. */
final class Canvas {

    /** Print is black on white. */
    static final Color INK = Color.BLACK;

    static final Color SLATE = new Color(0x40, 0x48, 0x54);
    static final Color HAIR = new Color(0x9a, 0x9f, 0xa6);
    static final Color SIGNAL = new Color(0xb9, 0x3a, 0x0b);

    private static final PdfName ARTIFACT = new PdfName("Artifact");

    private final PdfContentByte content;
    private final float pageHeight;

    Canvas(PdfContentByte content, float pageHeight) {
        this.content = content;
        this.pageHeight = pageHeight;
    }

    /** Draws content of a structure element; an artifact if there is none. */
    void content(@Nullable PdfStructureElement element, Runnable drawing) {
        if (element == null) {
            artifact(drawing);
        } else {
            content.beginMarkedContentSequence(element);
            drawing.run();
            content.endMarkedContentSequence();
        }
    }

    /** Draws what readers skip: rules, frames, marks, page numbers. */
    void artifact(Runnable drawing) {
        content.beginMarkedContentSequence(ARTIFACT);
        drawing.run();
        content.endMarkedContentSequence();
    }

    /** @param top upper edge of the line */
    void text(Line line, float x, float top) {
        float y = pageHeight - top - line.type().baseline();
        for (Run run : line.runs()) {
            String actual = run.actual();
            if (actual != null) {
                var properties = new PdfDictionary();
                properties.put(PdfName.ACTUALTEXT, new PdfString(actual, PdfString.TEXT_UNICODE));
                content.beginMarkedContentSequence(new PdfName("Span"), properties, true);
            }
            content.beginText();
            content.setColorFill(line.type().color());
            content.setFontAndSize(run.font(), line.type().size());
            content.setTextMatrix(x, y);
            content.showText(run.text());
            content.endText();
            if (actual != null) {
                content.endMarkedContentSequence();
            }
            x += run.width(line.type().size());
        }
    }

    void lines(List<Line> lines, float x, float top) {
        for (Line line : lines) {
            text(line, x, top);
            top += line.type().leading();
        }
    }

    void rule(float x1, float x2, float y, float width, Color color) {
        stroke(x1, y, x2, y, width, color);
    }

    void stroke(float x1, float y1, float x2, float y2, float width, Color color) {
        content.saveState();
        content.setLineWidth(width);
        content.setColorStroke(color);
        content.moveTo(x1, pageHeight - y1);
        content.lineTo(x2, pageHeight - y2);
        content.stroke();
        content.restoreState();
    }

    void image(Image image, PdfStructureElement figure, float x, float top, float width, float height) {
        float y = pageHeight - top - height;
        var box = new PdfArray(new float[] {x, y, x + width, y + height});
        var layout = new PdfDictionary();
        layout.put(PdfName.O, new PdfName("Layout"));
        layout.put(PdfName.BBOX, box);
        layout.put(new PdfName("Placement"), new PdfName("Block"));
        layout.put(PdfName.WIDTH, new PdfNumber(width));
        layout.put(PdfName.HEIGHT, new PdfNumber(height));
        figure.put(PdfName.A, layout);
        content(figure, () -> content.addImage(image, width, 0, 0, height, x, y));
    }

    void drawing(Drawing drawing, float x, float top) {
        artifact(() -> drawing.painter().paint(new BoxPen(x, top)));
    }

    private final class BoxPen implements Pen {
        private final float left;
        private final float top;

        BoxPen(float left, float top) {
            this.left = left;
            this.top = top;
        }

        @Override
        public void line(float x1, float y1, float x2, float y2, float width, Color color) {
            stroke(left + x1, top + y1, left + x2, top + y2, width, color);
        }

        @Override
        public void dashes(float x1, float y1, float x2, float y2, float width, Color color) {
            content.saveState();
            content.setLineDash(2, 1.5f, 0);
            line(x1, y1, x2, y2, width, color);
            content.restoreState();
        }

        @Override
        public void disc(float x, float y, float radius, Color color) {
            content.saveState();
            content.setColorFill(color);
            content.circle(left + x, pageHeight - top - y, radius);
            content.fill();
            content.restoreState();
        }

        @Override
        public void ring(float x, float y, float radius, float width, Color color) {
            content.saveState();
            content.setColorFill(Color.WHITE);
            content.setColorStroke(color);
            content.setLineWidth(width);
            content.circle(left + x, pageHeight - top - y, radius);
            content.fillStroke();
            content.restoreState();
        }

        @Override
        public void leftHalfDisc(float x, float y, float radius, Color color) {
            float centreX = left + x;
            float centreY = pageHeight - top - y;
            content.saveState();
            content.setColorFill(color);
            content.arc(centreX - radius, centreY - radius, centreX + radius, centreY + radius, 90, 180);
            content.closePath();
            content.fill();
            content.restoreState();
        }

        @Override
        public void diamond(float x, float y, float radius, Color color) {
            float centreX = left + x;
            float centreY = pageHeight - top - y;
            content.saveState();
            content.setColorFill(color);
            content.moveTo(centreX, centreY + radius);
            content.lineTo(centreX + radius, centreY);
            content.lineTo(centreX, centreY - radius);
            content.lineTo(centreX - radius, centreY);
            content.closePath();
            content.fill();
            content.restoreState();
        }
    }
}

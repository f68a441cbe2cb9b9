package app.tankround.reports;

import app.tankround.reports.PdfDocument.Figure;
import app.tankround.reports.PdfDocument.SignatureField;
import app.tankround.reports.Typesetter.Line;
import java.util.ArrayList;
import java.util.List;
import org.openpdf.text.Image;
import org.openpdf.text.pdf.PdfName;
import org.openpdf.text.pdf.PdfString;
import org.openpdf.text.pdf.PdfStructureElement;

/** Pictures with captions, and signatures, in rows. */
final class Figures {

    private final Flow flow;

    Figures(Flow flow) {
        this.flow = flow;
    }

    void add(List<Figure> figures) {
        int perRow = figures.size() <= 2 ? 2 : 3;
        float cellWidth = (flow.width() - (perRow - 1) * Flow.GUTTER) / perRow;
        for (int from = 0; from < figures.size(); from += perRow) {
            List<PlacedFigure> row = new ArrayList<>();
            float imageHeight = 0;
            float captionHeight = 0;
            for (Figure figure : figures.subList(from, Math.min(from + perRow, figures.size()))) {
                PlacedFigure placed = place(figure.picture(), figure.caption(), cellWidth, cellWidth);
                row.add(placed);
                imageHeight = Math.max(imageHeight, placed.height());
                captionHeight = Math.max(captionHeight, Flow.heightOf(placed.caption()));
            }
            float captionTop = imageHeight + 3;
            float x = flow.left();
            flow.add(Strip.of(captionTop + captionHeight + 10, (canvas, top) -> {
                for (int i = 0; i < row.size(); i++) {
                    PlacedFigure figure = row.get(i);
                    float cellLeft = x + i * (cellWidth + Flow.GUTTER);
                    figure.paintImage(canvas, cellLeft, top);
                    canvas.content(
                            figure.captionElement(),
                            () -> canvas.lines(figure.caption(), cellLeft, top + figure.height() + 3));
                }
            }));
        }
    }

    private PlacedFigure place(Picture picture, String caption, float maxWidth, float maxHeight) {
        Image image = Pictures.open(picture);
        float scale = Math.min(maxWidth / image.getWidth(), maxHeight / image.getHeight());
        PdfStructureElement figure = flow.element("Figure");
        figure.put(PdfName.ALT, new PdfString(picture.alternativeText(), PdfString.TEXT_UNICODE));
        return new PlacedFigure(
                figure,
                image,
                image.getWidth() * scale,
                image.getHeight() * scale,
                flow.element("P"),
                flow.wrap(caption, Type.LABEL, maxWidth));
    }

    private record PlacedFigure(
            PdfStructureElement figure,
            Image image,
            float width,
            float height,
            PdfStructureElement captionElement,
            List<Line> caption) {

        void paintImage(Canvas canvas, float x, float top) {
            canvas.image(image, figure, x, top, width, height);
        }
    }

    void signatures(List<SignatureField> fields) {
        float gutter = 24;
        float fieldWidth = (flow.width() - gutter) / 2;
        float room = 44;
        for (int from = 0; from < fields.size(); from += 2) {
            float x = flow.left();
            for (int i = from; i < Math.min(from + 2, fields.size()); i++) {
                SignatureField field = fields.get(i);
                float fieldLeft = x + (i - from) * (fieldWidth + gutter);
                PlacedFigure signature = place(field.image(), field.caption(), fieldWidth * 0.7f, room);
                PdfStructureElement caption = signature.captionElement();
                List<Line> lines = flow.wrap(field.caption(), Type.LABEL, fieldWidth);
                boolean rowEnds = i == from + 1 || i == fields.size() - 1;
                flow.add(new Strip(
                        rowEnds ? room + 5 + 2 * Type.LABEL.leading() : 0, !rowEnds, false, null, (canvas, top) -> {
                            signature.paintImage(canvas, fieldLeft, top + room - signature.height());
                            canvas.artifact(() ->
                                    canvas.rule(fieldLeft, fieldLeft + fieldWidth, top + room + 2, 0.75f, Canvas.INK));
                            canvas.content(caption, () -> canvas.lines(lines, fieldLeft, top + room + 5));
                        }));
            }
        }
    }
}

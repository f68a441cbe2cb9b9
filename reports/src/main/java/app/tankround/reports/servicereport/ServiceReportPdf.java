package app.tankround.reports.servicereport;

import app.tankround.reports.Drawing;
import app.tankround.reports.PdfDocument;
import app.tankround.reports.PdfDocument.Figure;
import app.tankround.reports.PdfDocument.KeyEntry;
import app.tankround.reports.PdfDocument.Particular;
import app.tankround.reports.PdfDocument.Properties;
import app.tankround.reports.PdfDocument.SignatureField;
import app.tankround.reports.Table;
import app.tankround.reports.Table.Align;
import app.tankround.reports.Table.Cell;
import app.tankround.reports.Table.Column;
import app.tankround.reports.Table.Part;
import app.tankround.reports.Table.Tone;
import app.tankround.reports.servicereport.Measurement.Axis;
import app.tankround.reports.servicereport.Measurement.DoubtMark;
import app.tankround.reports.servicereport.Measurement.InDoubt;
import app.tankround.reports.servicereport.Measurement.Mark;
import app.tankround.reports.servicereport.Measurement.NotMeasured;
import app.tankround.reports.servicereport.Measurement.Plain;
import app.tankround.reports.servicereport.Measurement.State;
import app.tankround.reports.servicereport.Measurement.Verdict;
import app.tankround.reports.servicereport.ServiceReport.Correction;
import app.tankround.reports.servicereport.ServiceReport.NextVisit;
import app.tankround.reports.servicereport.ServiceReport.Visit;
import app.tankround.reports.servicereport.WaterSystem.LivestockLine;
import app.tankround.reports.servicereport.WaterSystem.ReadingLine;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Writes a {@link ServiceReport} as PDF/A-3a and PDF/UA-1. Safe for use by several threads. */
public final class ServiceReportPdf {

    private final Labels labels;

    /** @param labels in the language of the reports to be written */
    public ServiceReportPdf(Labels labels) {
        this.labels = labels;
    }

    /**
     * @return the PDF file
     * @throws app.tankround.reports.UnreadablePictureException if a photo or signature cannot be opened
     */
    public byte[] write(ServiceReport report) {
        Visit visit = report.visit();
        String number = labels.head().report() + " " + visit.number();
        String version = labels.head().version() + " " + visit.version();
        var properties = new Properties(
                report.title() + ", " + visit.client(),
                report.language(),
                report.business().name(),
                report.issuedAt());
        var document = new PdfDocument(
                properties,
                String.join(" · ", report.business().name(), number, version),
                labels.foot().page());
        document.letterhead(report.business().name(), report.business().contact(), List.of(number, version));
        document.title(report.title());
        document.particulars(particulars(visit));
        Correction correction = report.correction();
        if (correction != null) {
            document.notice(false, () -> correction(document, correction));
        }
        report.summary().forEach(document::voice);
        boolean keyDue = true;
        for (WaterSystem system : report.waterSystems()) {
            document.heading(system.name(), system.kind() + " · " + system.volume());
            readings(document, system);
            if (keyDue && hasMark(system)) {
                document.key(key(report.waterSystems()));
                keyDue = false;
            }
            rest(document, system);
        }
        closing(document, report);
        return document.toBytes();
    }

    private static void correction(PdfDocument document, Correction correction) {
        document.label(correction.heading());
        document.bullets(correction.changes());
    }

    private List<Particular> particulars(Visit visit) {
        List<Particular> particulars = new ArrayList<>();
        particulars.add(new Particular(labels.head().client(), visit.client()));
        particulars.add(new Particular(labels.head().site(), visit.site()));
        particulars.add(new Particular(labels.head().date(), visit.date()));
        particulars.add(new Particular(labels.head().technician(), visit.technician()));
        String met = visit.met();
        if (met != null) {
            particulars.add(new Particular(labels.head().met(), met));
        }
        return particulars;
    }

    private void readings(PdfDocument document, WaterSystem system) {
        document.subheading(labels.readings().heading());
        if (system.readings().isEmpty()) {
            document.paragraph(labels.readings().none());
            return;
        }
        boolean withBefore = system.readings().stream().anyMatch(line -> line.before() != null);
        List<Column> columns = new ArrayList<>();
        columns.add(new Column(labels.readings().quantity(), 21, Align.LEFT));
        columns.add(new Column(labels.readings().now(), 25, Align.RIGHT));
        if (withBefore) {
            columns.add(new Column(labels.readings().before(), 17, Align.RIGHT));
        }
        columns.add(new Column(labels.readings().verdict(), 37, Align.LEFT));
        columns.add(new Column(labels.readings().target(), 19, Align.LEFT));
        List<List<Cell>> rows = new ArrayList<>();
        for (ReadingLine line : system.readings()) {
            List<Cell> row = new ArrayList<>();
            row.add(Cell.of(line.quantity()));
            row.add(new Cell(value(line.now()), null));
            if (withBefore) {
                row.add(before(line.before()));
            }
            row.add(verdict(line.now()));
            String target = line.target();
            row.add(Cell.of(target == null ? "" : unbroken(target)));
            rows.add(row);
        }
        document.table(new Table(columns, rows));
    }

    private List<Part> value(Measurement measurement) {
        return switch (measurement) {
            case Plain plain -> List.of(new Part(unbroken(plain.value()), Tone.STRONG));
            case InDoubt doubt ->
                List.of(
                        new Part(labels.doubt().cellAsRead() + ": " + unbroken(doubt.asRead()), Tone.QUIET),
                        new Part(labels.doubt().cellReal() + ": " + unbroken(real(doubt.real())), Tone.STRONG));
            case NotMeasured missing -> List.of(new Part(missing.reason(), Tone.QUIET));
        };
    }

    /** Keeps what reads as one on one line: a value with its uncertainty, and SG with its reference. */
    private static String unbroken(String value) {
        return value.replace(" ± ", "\u00A0±\u00A0").replace("SG ", "SG\u00A0");
    }

    private String real(@Nullable String real) {
        return real == null ? labels.doubt().realUnknown() : real;
    }

    /** Of a value in doubt only the doubt is said: there is no room here to explain a number. */
    private Cell before(@Nullable Measurement measurement) {
        return switch (measurement) {
            case null -> Cell.of("");
            case Plain plain -> Cell.of(unbroken(plain.value()), Tone.QUIET);
            case InDoubt doubt -> Cell.of(labels.verdicts().notTrusted(), Tone.QUIET);
            case NotMeasured missing -> Cell.of(labels.verdicts().notMeasured(), Tone.QUIET);
        };
    }

    private Cell verdict(Measurement measurement) {
        return switch (measurement) {
            case Plain plain -> {
                Mark mark = plain.mark();
                yield cell(
                        word(plain.verdict()),
                        isOutside(plain.verdict()) ? Tone.STRONG : Tone.PLAIN,
                        mark == null ? null : VerdictMarks.of(mark, plain.verdict()));
            }
            case InDoubt doubt -> {
                DoubtMark mark = doubt.mark();
                yield cell(
                        labels.verdicts().notTrusted(),
                        doubt.state() == State.OPEN ? Tone.SIGNAL : Tone.STRONG,
                        mark == null ? null : VerdictMarks.of(mark, doubt.state()));
            }
            case NotMeasured missing -> cell(labels.verdicts().notMeasured(), Tone.QUIET, null);
        };
    }

    private static Cell cell(String word, Tone tone, @Nullable Drawing drawing) {
        return new Cell(List.of(new Part(word, tone)), drawing);
    }

    private static boolean isOutside(Verdict verdict) {
        return verdict == Verdict.ABOVE || verdict == Verdict.BELOW;
    }

    private String word(Verdict verdict) {
        return switch (verdict) {
            case INSIDE -> labels.verdicts().inside();
            case CANNOT_TELL -> labels.verdicts().cannotTell();
            case ABOVE -> labels.verdicts().above();
            case BELOW -> labels.verdicts().below();
            case NO_TARGET -> labels.verdicts().noTarget();
        };
    }

    private static boolean hasMark(WaterSystem system) {
        return system.readings().stream().anyMatch(line -> switch (line.now()) {
            case Plain plain -> plain.mark() != null;
            case InDoubt doubt -> doubt.mark() != null;
            case NotMeasured missing -> false;
        });
    }

    /** Only the shapes that the report shows. */
    private List<KeyEntry> key(List<WaterSystem> systems) {
        var axis = new Axis(0, 10, 3.0, 7.0);
        boolean inside = false;
        boolean cannotTell = false;
        boolean outside = false;
        boolean doubted = false;
        boolean previous = false;
        for (WaterSystem system : systems) {
            for (ReadingLine line : system.readings()) {
                if (line.now() instanceof Plain plain && plain.mark() != null) {
                    inside |= plain.verdict() == Verdict.INSIDE;
                    cannotTell |= plain.verdict() == Verdict.CANNOT_TELL;
                    outside |= isOutside(plain.verdict());
                    previous |= plain.mark().previous() != null;
                } else if (line.now() instanceof InDoubt doubt && doubt.mark() != null) {
                    doubted = true;
                }
            }
        }
        List<KeyEntry> entries = new ArrayList<>();
        if (inside) {
            entries.add(new KeyEntry(
                    VerdictMarks.of(new Mark(axis, 5, 1.0, null), Verdict.INSIDE),
                    labels.readings().keyInside()));
        }
        if (cannotTell) {
            entries.add(new KeyEntry(
                    VerdictMarks.of(new Mark(axis, 7, 1.0, null), Verdict.CANNOT_TELL),
                    labels.readings().keyCannotTell()));
        }
        if (outside) {
            entries.add(new KeyEntry(
                    VerdictMarks.of(new Mark(axis, 8.5, 0.9, null), Verdict.ABOVE),
                    labels.readings().keyOutside()));
        }
        if (doubted) {
            entries.add(new KeyEntry(
                    VerdictMarks.of(new DoubtMark(axis, 4, 8.5, 0.9), State.SETTLED),
                    labels.readings().keyNotTrusted()));
        }
        if (previous) {
            entries.add(new KeyEntry(
                    VerdictMarks.of(new Mark(axis, 5.5, null, 4.0), Verdict.INSIDE),
                    labels.readings().keyPrevious()));
        }
        return entries;
    }

    private void rest(PdfDocument document, WaterSystem system) {
        if (!system.meaning().isEmpty()) {
            document.subheading(labels.sections().meaning());
            system.meaning().forEach(document::paragraph);
        }
        for (DoubtNotice notice : system.doubts()) {
            document.notice(notice.state() == State.OPEN, () -> notice(document, notice));
        }
        if (!system.done().isEmpty()) {
            document.subheading(labels.sections().done());
            document.checklist(system.done());
        }
        if (!system.livestock().isEmpty()) {
            document.subheading(labels.livestock().heading());
            document.table(livestock(system.livestock()));
        }
    }

    private void notice(PdfDocument document, DoubtNotice notice) {
        document.subheading(notice.heading());
        notice.explanation().forEach(document::paragraph);
        document.space(4);
        document.contrast(List.of(
                new Particular(labels.doubt().asRead(), notice.asRead()),
                new Particular(labels.doubt().real(), real(notice.real()))));
        if (!notice.notDone().isEmpty()) {
            document.label(labels.doubt().notDone());
            document.bullets(notice.notDone());
        }
        if (!notice.ramp().isEmpty()) {
            document.label(labels.doubt().ramp());
            document.steps(notice.ramp().stream()
                    .map(step -> new Particular(step.when(), step.value()))
                    .toList());
        }
    }

    private Table livestock(List<LivestockLine> lines) {
        List<Column> columns = List.of(
                new Column(labels.livestock().animal(), 34, Align.LEFT),
                new Column(labels.livestock().seen(), 12, Align.RIGHT),
                new Column(labels.livestock().lost(), 12, Align.RIGHT),
                new Column(labels.livestock().remark(), 42, Align.LEFT));
        List<List<Cell>> rows = new ArrayList<>();
        for (LivestockLine line : lines) {
            String remark = line.remark();
            rows.add(List.of(
                    Cell.of(line.animal()),
                    Cell.of(line.seen(), Tone.STRONG),
                    Cell.of(line.lost(), Tone.STRONG),
                    Cell.of(remark == null ? "" : remark)));
        }
        return new Table(columns, rows);
    }

    private void closing(PdfDocument document, ServiceReport report) {
        if (!report.siteWork().isEmpty()) {
            document.heading(labels.sections().siteWork(), "");
            document.checklist(report.siteWork());
        }
        if (!report.photos().isEmpty()) {
            document.heading(labels.sections().photos(), "");
            document.figures(report.photos().stream()
                    .map(photo -> new Figure(photo.picture(), photo.caption()))
                    .toList());
        }
        if (!report.advice().isEmpty()) {
            document.heading(labels.sections().advice(), "");
            document.numbered(report.advice());
        }
        NextVisit next = report.nextVisit();
        if (next != null) {
            document.heading(labels.sections().nextVisit(), "");
            document.band(next.when(), next.plan());
        }
        if (!report.cautions().isEmpty()) {
            document.heading(labels.sections().cautions(), "");
            report.cautions().forEach(document::fine);
        }
        List<SignatureField> drawn = report.signatures().stream()
                .flatMap(signature -> Stream.ofNullable(signature.image())
                        .map(image -> new SignatureField(image, signature.caption())))
                .toList();
        if (!drawn.isEmpty()) {
            document.space(14);
            document.signatures(drawn);
        }
        report.signatures().stream()
                .filter(signature -> signature.image() == null)
                .forEach(signature -> document.fine(signature.caption()));
    }
}

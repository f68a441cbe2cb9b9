package app.tankround.visits.report;

import app.tankround.reports.servicereport.Labels;
import app.tankround.reports.servicereport.Measurement;
import app.tankround.reports.servicereport.WaterSystem;
import app.tankround.schedule.TaskView;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.visits.VisitInWords;
import app.tankround.visits.VisitView;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;

/** The words of one report, in its language and with the units of the business. */
final class ReportWords {

    /** Below this many litres or gallons a tenth matters. */
    private static final double TENTHS_BELOW = 20;

    private final MessageSource messages;
    private final Locale locale;
    private final ZoneId zone;
    private final UnitSystem units;

    ReportWords(MessageSource messages, Locale locale, ZoneId zone, UnitSystem units) {
        this.messages = messages;
        this.locale = locale;
        this.zone = zone;
        this.units = units;
    }

    Locale locale() {
        return locale;
    }

    String text(String code, Object... args) {
        return messages.getMessage("report." + code, args, locale);
    }

    String quantity(Quantity quantity) {
        return messages.getMessage("quantity." + quantity.name(), null, locale);
    }

    /** Such as 19 November. */
    String day(LocalDate day) {
        return DateTimeFormatter.ofLocalizedPattern("MMMMd").withLocale(locale).format(day);
    }

    String weekday(LocalDate day) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.FULL)
                .withLocale(locale)
                .format(day);
    }

    String dayWithYear(LocalDate day) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.LONG)
                .withLocale(locale)
                .format(day);
    }

    String time(Instant instant) {
        return DateTimeFormatter.ofLocalizedTime(FormatStyle.SHORT)
                .withLocale(locale)
                .withZone(zone)
                .format(instant);
    }

    private String dateAndTime(Instant instant) {
        return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT)
                .withLocale(locale)
                .withZone(zone)
                .format(instant);
    }

    /** In litres or US gallons, as the business counts. */
    String volume(Volume volume) {
        boolean metric = units == UnitSystem.METRIC;
        double amount = metric ? volume.litres() : volume.inUsGallons();
        return text(metric ? "volume.litres" : "volume.gallons", number(amount, amount < TENTHS_BELOW ? 1 : 0));
    }

    String number(BigDecimal amount) {
        return number(
                amount.doubleValue(), Math.max(0, amount.stripTrailingZeros().scale()));
    }

    private String number(double amount, int decimals) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(decimals);
        return format.format(amount);
    }

    /** A number with that many decimals, no fewer. */
    String fixed(double amount, int decimals) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setGroupingUsed(false);
        format.setMinimumFractionDigits(decimals);
        format.setMaximumFractionDigits(decimals);
        return format.format(amount);
    }

    /** What a task is, such as "Change 15 % of the water". */
    String task(TaskView task) {
        String amount = task.amount().map(this::number).orElse("");
        String unit = task.unit().filter(code -> !code.equals("count")).orElse("");
        String item = task.quantity().map(this::quantity).or(task::item).orElse("");
        String size = task.sockSize().map(SockSize::text).orElse("");
        String quantified = task.amount().isPresent() ? "" : ".plain";
        Optional<Volume> litres = task.unit()
                .filter(code -> code.equals("L"))
                .flatMap(code -> task.amount())
                .map(number -> Volume.ofLitres(number.doubleValue()));
        String much = litres.map(this::volume).orElseGet(() -> (amount + " " + unit).strip());
        return text("task." + task.kind().name() + quantified, much, item, size);
    }

    String departure(VisitView.Departure line) {
        String what = text("departure." + line.line().name());
        return line.answer()
                        .filter(answer -> answer == VisitView.DepartureAnswer.NO)
                        .isPresent()
                ? text("departure.not", what, line.because().orElse(""))
                : what;
    }

    /** What was left running or off on purpose. */
    Optional<String> leftSo(VisitView.Running running, String system) {
        return running.until()
                .map(until -> text(
                        "running." + running.thing(),
                        system,
                        dateAndTime(until),
                        running.because().orElse("")));
    }

    /** What was found and done at a water system, without its drawings. */
    VisitInWords.SystemInWords inWords(WaterSystem system) {
        return new VisitInWords.SystemInWords(
                system.name(),
                system.readings().stream().map(this::reading).toList(),
                Stream.concat(
                                system.meaning().stream(),
                                system.doubts().stream()
                                        .flatMap(doubt ->
                                                Stream.concat(doubt.explanation().stream(), doubt.notDone().stream())))
                        .toList(),
                system.done(),
                system.livestock().stream().map(this::animals).toList());
    }

    private VisitInWords.ReadingInWords reading(WaterSystem.ReadingLine line) {
        String standing = switch (line.now()) {
            case Measurement.Plain plain -> {
                String verdict = text(verdict(plain.verdict()));
                yield line.target() == null ? verdict : text("in-words.against", verdict, line.target());
            }
            case Measurement.InDoubt doubt ->
                text("in-words.not-trusted", Optional.ofNullable(doubt.real()).orElseGet(() -> text("doubt.unknown")));
            case Measurement.NotMeasured missing -> "";
        };
        String value = switch (line.now()) {
            case Measurement.Plain plain -> plain.value();
            case Measurement.InDoubt doubt -> doubt.asRead();
            case Measurement.NotMeasured missing -> text("in-words.not-measured", missing.reason());
        };
        return new VisitInWords.ReadingInWords(line.quantity(), value, standing);
    }

    private static String verdict(Measurement.Verdict verdict) {
        return switch (verdict) {
            case INSIDE -> "verdict.inside";
            case CANNOT_TELL -> "verdict.cannot-tell";
            case ABOVE -> "verdict.above";
            case BELOW -> "verdict.below";
            case NO_TARGET -> "verdict.no-target";
        };
    }

    private String animals(WaterSystem.LivestockLine line) {
        String counted = text("in-words.animals", line.animal(), line.seen(), line.lost());
        return line.remark() == null ? counted : counted + "; " + line.remark();
    }

    Labels labels() {
        return new Labels(
                new Labels.Head(
                        text("label.report"),
                        text("label.version"),
                        text("label.client"),
                        text("label.site"),
                        text("label.visit"),
                        text("label.technician"),
                        text("label.met")),
                new Labels.Readings(
                        text("label.measured"),
                        text("label.reading"),
                        text("label.now"),
                        text("label.before"),
                        text("label.against"),
                        text("label.target"),
                        text("label.nothing-measured"),
                        text("label.key.inside"),
                        text("label.key.cannot-tell"),
                        text("label.key.outside"),
                        text("label.key.not-trusted"),
                        text("label.key.previous")),
                new Labels.Verdicts(
                        text("verdict.inside"),
                        text("verdict.cannot-tell"),
                        text("verdict.above"),
                        text("verdict.below"),
                        text("verdict.no-target"),
                        text("verdict.not-trusted"),
                        text("verdict.not-measured")),
                new Labels.Doubt(
                        text("doubt.cell-read"),
                        text("doubt.cell-real"),
                        text("doubt.unknown"),
                        text("doubt.as-read"),
                        text("doubt.real"),
                        text("doubt.not-done"),
                        text("doubt.ramp")),
                new Labels.Livestock(
                        text("livestock"),
                        text("livestock.animal"),
                        text("livestock.seen"),
                        text("livestock.lost"),
                        text("livestock.remark")),
                new Labels.Sections(
                        text("section.meaning"),
                        text("section.done"),
                        text("section.site"),
                        text("section.photos"),
                        text("section.advice"),
                        text("section.next"),
                        text("section.cautions")),
                new Labels.Foot((page, pages) -> text("page", page, pages)));
    }
}

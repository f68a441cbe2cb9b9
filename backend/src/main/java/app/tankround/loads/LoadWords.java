package app.tankround.loads;

import app.tankround.accounts.BusinessSettings;
import app.tankround.units.Hardness;
import app.tankround.units.Mass;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.MassText;
import app.tankround.web.VolumeText;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.Currency;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;

/** Puts a load sheet into words and into the units that the business reads. */
record LoadWords(MessageSource messages, Locale locale, UnitSystem units, ZoneId zone, Currency currency) {

    private static final double CENTIMETRES_PER_INCH = 2.54;

    static LoadWords of(BusinessSettings settings, MessageSource messages, Locale locale) {
        return new LoadWords(
                messages,
                locale,
                settings.unitSystem(),
                settings.zone(),
                Currency.getInstance(settings.currency().getCode()));
    }

    String word(String key, Object... args) {
        return messages.getMessage(key, args, locale);
    }

    String say(LoadText text) {
        return word(text.code(), text.args().stream().map(this::argument).toArray());
    }

    private Object argument(Object argument) {
        return switch (argument) {
            case LoadText text -> say(text);
            case Mass mass -> mass(mass);
            case Volume volume -> volume(volume);
            case Salinity salinity -> number(salinity.practical(), 1);
            case Temperature temperature -> temperature(temperature);
            case Hardness hardness -> hardness(hardness);
            case BigDecimal number -> number(number);
            case Quantity quantity -> word("quantity." + quantity);
            case LoadUnit unit -> unit(unit, 2);
            case LocalDate date -> date(date);
            case Instant instant -> date(LocalDate.ofInstant(instant, zone));
            case Enum<?> code -> word("loads.code." + code.name());
            default -> argument;
        };
    }

    /** What the number of a line counts, such as {@code drums of 25 L}; empty where the thing names itself. */
    String measure(LoadLine line) {
        return measure(line, line.amount());
    }

    private String measure(LoadLine line, BigDecimal amount) {
        int count = amount.compareTo(BigDecimal.ONE) > 0 ? 2 : 1;
        return switch (line.unit()) {
            case DRUM ->
                line.container().isPresent()
                        ? numbered(line, line.container().get())
                        : word(
                                line.each().isPresent() ? "loads.unit.drums" : "loads.unit.drum-with",
                                count,
                                argument(line.item().args().getFirst()));
            case PIECE ->
                switch (line.group()) {
                    case SOCKS -> word("loads.unit.socks", count);
                    case INSTRUMENTS, SINGLE_WORK, TOOLS -> "";
                    default -> unit(line.unit(), count);
                };
            default -> unit(line.unit(), count);
        };
    }

    /** The same of a row; of several containers the size and the mark that they share. */
    String measure(LoadRow row) {
        LoadedContainer container = row.first().container().orElse(null);
        if (container == null || !row.isSeveral()) {
            return measure(row.first());
        }
        if (!row.first().group().isWater()) {
            return word("loads.unit.containers", volume(container.size()));
        }
        return container.isFull()
                ? word("loads.unit.containers-full", volume(container.size()))
                : word("loads.unit.containers-to", volume(container.size()), volume(container.level()));
    }

    /** The numbers of several containers; empty for everything else. */
    String numbers(LoadRow row) {
        return row.isSeveral() ? ContainerNumbers.ofContainers(row.lines()) : "";
    }

    /** A container by its number, with the mark to which it is filled. */
    private String numbered(LoadLine line, LoadedContainer container) {
        if (!line.group().isWater()) {
            return word("loads.unit.container", container.number(), volume(container.size()));
        }
        return container.isFull()
                ? word("loads.unit.container-full", container.number(), volume(container.size()))
                : word(
                        "loads.unit.container-to",
                        container.number(),
                        volume(container.size()),
                        volume(container.level()));
    }

    String unit(LoadUnit unit, int count) {
        boolean customary = units == UnitSystem.US_CUSTOMARY;
        return switch (unit) {
            case KILOGRAM -> customary ? "lb" : "kg";
            case LITRE -> customary ? "gal" : "L";
            case GRAM -> "g";
            case MILLILITRE -> "mL";
            case DRUM -> word("loads.unit.drum", count);
            case PIECE -> word("loads.unit.pieces", count);
            case SET -> word("loads.unit.sets", count);
        };
    }

    /** The number of a line, in the unit that {@link #measure} names. */
    String take(LoadLine line) {
        return inUnit(line.amount(), line.unit());
    }

    String take(LoadRow row) {
        return inUnit(row.amount(), row.first().unit());
    }

    /** So much of what a line is of, such as {@code 3 drums of 25 L}. */
    String amount(LoadLine line, BigDecimal amount) {
        return inUnit(amount, line.unit()) + " " + measure(line, amount);
    }

    /** Such as {@code 12.5 L} or {@code 3 pieces}. */
    String amount(BigDecimal amount, LoadUnit unit) {
        return inUnit(amount, unit) + " " + unit(unit, amount.compareTo(BigDecimal.ONE) == 0 ? 1 : 2);
    }

    /** How many of a line's own unit one is of the unit in which it is shown, such as kilograms in a pound. */
    BigDecimal shownUnit(LoadUnit unit) {
        if (units == UnitSystem.US_CUSTOMARY) {
            if (unit == LoadUnit.KILOGRAM) {
                return BigDecimal.valueOf(Mass.ofPounds(1).kilograms());
            }
            if (unit == LoadUnit.LITRE) {
                return BigDecimal.valueOf(Volume.ofUsGallons(1).litres());
            }
        }
        return BigDecimal.ONE;
    }

    private String inUnit(BigDecimal amount, LoadUnit unit) {
        if (units == UnitSystem.US_CUSTOMARY) {
            if (unit == LoadUnit.KILOGRAM) {
                return number(Mass.ofKilograms(amount.doubleValue()).inPounds(), 2);
            }
            if (unit == LoadUnit.LITRE) {
                return number(Volume.ofLitres(amount.doubleValue()).inUsGallons(), 1);
            }
        }
        return number(amount);
    }

    /** What one stop gets of a row, and of which lines. */
    private record Part(StopShare share, List<LoadLine> lines) {}

    /** The stops that need a row, in the order of the round. */
    private static List<Part> parts(LoadRow row) {
        Map<Integer, Part> parts = new TreeMap<>();
        row.lines()
                .forEach(line -> line.stops()
                        .forEach(share -> parts.merge(
                                share.position(),
                                new Part(share, List.of(line)),
                                (had, more) -> new Part(
                                        new StopShare(
                                                share.position(),
                                                share.siteName(),
                                                had.share()
                                                        .amount()
                                                        .add(more.share().amount())),
                                        Stream.concat(had.lines().stream(), more.lines().stream())
                                                .toList()))));
        return List.copyOf(parts.values());
    }

    /** Who needs how much of a row, and out of which containers where there are several. */
    String stops(LoadRow row) {
        List<Part> parts = parts(row);
        if (parts.isEmpty()) {
            return word("loads.every-stop");
        }
        return parts.stream()
                .map(part -> {
                    String who =
                            part.share().position() + "\u00a0" + part.share().siteName();
                    String amount = amount(row.first(), part.share());
                    String what = amount.isEmpty() ? who : who + " " + amount;
                    return parts.size() > 1 && row.isSeveral() ? what + " " + outOf(part) : what;
                })
                .collect(Collectors.joining(" \u00b7 "));
    }

    private String outOf(Part part) {
        return "(" + ContainerNumbers.ofContainers(part.lines()) + ")";
    }

    /**
     * The same by the positions of the stops alone.
     *
     * @param stops of the round
     */
    String stopsShort(LoadRow row, int stops) {
        List<Part> parts = parts(row);
        if (parts.stream().allMatch(part -> amount(row.first(), part.share()).isEmpty())) {
            return parts.isEmpty() || parts.size() == stops
                    ? word("loads.every-stop")
                    : parts.stream()
                            .map(part -> String.valueOf(part.share().position()))
                            .collect(Collectors.joining(", "));
        }
        return parts.stream()
                .map(part -> {
                    // The unit of everything but drums stands before it.
                    String amount = row.first().unit() == LoadUnit.DRUM
                            ? amount(row.first(), part.share())
                            : inUnit(part.share().amount(), row.first().unit());
                    String what = part.share().position() + ":\u00a0" + amount;
                    return parts.size() > 1 && row.isSeveral() ? what + " " + outOf(part) : what;
                })
                .collect(Collectors.joining(" \u00b7 "));
    }

    /** How much of a line a stop needs; empty where it just needs it. */
    private String amount(LoadLine line, StopShare stop) {
        return switch (line.unit()) {
            case DRUM ->
                line.holdsWater()
                        ? volume(Volume.ofLitres(stop.amount().doubleValue())).replace(' ', '\u00a0')
                        : number(stop.amount());
            case SET -> "";
            case PIECE ->
                switch (line.group()) {
                    case TOOLS, INSTRUMENTS, SINGLE_WORK -> "";
                    default -> number(stop.amount());
                };
            case KILOGRAM, GRAM, LITRE, MILLILITRE ->
                inUnit(stop.amount(), line.unit()) + "\u00a0" + unit(line.unit(), 2);
        };
    }

    String mass(Mass mass) {
        return masses().of(mass);
    }

    String massNumber(Mass mass) {
        return masses().number(mass);
    }

    double massValue(Mass mass) {
        return masses().value(mass);
    }

    String massUnit() {
        return masses().unit();
    }

    private MassText masses() {
        return new MassText(locale, units);
    }

    String volume(Volume volume) {
        return new VolumeText(locale, units).of(volume);
    }

    private String temperature(Temperature temperature) {
        return units == UnitSystem.US_CUSTOMARY
                ? number(temperature.inFahrenheit(), 0) + "\u00a0°F"
                : number(temperature.celsius(), 1) + "\u00a0°C";
    }

    private String hardness(Hardness hardness) {
        return units == UnitSystem.US_CUSTOMARY
                ? word("loads.hardness.customary", number(hardness.inMilligramsPerLitreCalciumCarbonate(), 0))
                : word("loads.hardness.metric", number(hardness.inDgh(), 1));
    }

    String litres(BigDecimal litres) {
        return volume(Volume.ofLitres(litres.doubleValue()));
    }

    /** What something costs, or saves. */
    String price(BigDecimal price) {
        if (price.signum() == 0) {
            return word("loads.remedy.free");
        }
        NumberFormat format = NumberFormat.getCurrencyInstance(locale);
        format.setCurrency(currency);
        return word(price.signum() < 0 ? "loads.remedy.saves" : "loads.remedy.costs", format.format(price.abs()));
    }

    /** In centimetres or inches. */
    String length(double centimetres) {
        return units == UnitSystem.US_CUSTOMARY
                ? number(centimetres / CENTIMETRES_PER_INCH, 0) + " in"
                : number(centimetres, 0) + " cm";
    }

    String number(BigDecimal number) {
        return number(number.doubleValue(), 3);
    }

    String number(double number, int decimals) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(decimals);
        return format.format(number);
    }

    String date(LocalDate date) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.FULL)
                .withLocale(locale)
                .format(date);
    }

    String shortDate(LocalDate date) {
        return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
                .withLocale(locale)
                .format(date);
    }

    /** The time of day, with its date only where that is not {@code day}. */
    String moment(Instant instant, LocalDate day) {
        DateTimeFormatter format = LocalDate.ofInstant(instant, zone).equals(day)
                ? DateTimeFormatter.ofLocalizedTime(FormatStyle.SHORT)
                : DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT);
        return format.withLocale(locale).withZone(zone).format(instant);
    }
}

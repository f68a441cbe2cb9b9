package app.tankround.loads.web;

import app.tankround.loads.WaterPlan;
import app.tankround.purification.PlantFigures;
import app.tankround.purification.PlantProduction;
import app.tankround.stock.VatRole;
import app.tankround.stock.VatView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.UnitConversions;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.MassText;
import app.tankround.web.VolumeText;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;

/**
 * A water plan in words and in the units of the business.
 *
 * @param missing says what is missing and for when; null where nothing is
 * @param ways what could be done then
 */
record WaterPlanPage(
        String depot,
        String say,
        @Nullable String missing,
        List<String> ways,
        List<Plant> plants,
        List<Vat> vats,
        List<Day> days,
        List<Run> runs,
        List<Order> orders,
        List<Drums> drums,
        List<String> onHand) {

    record Plant(String id, String name, String gives, String facts) {}

    record Vat(String id, String name, String role, String level, String facts) {}

    record Day(String day, String salt, String purified, String estimated) {}

    record Run(String from, String until, String made) {}

    /** @param missing null where nothing is */
    record Order(
            String what,
            String takers,
            String product,
            String water,
            String vat,
            String fill,
            String salt,
            String heat,
            String circulate,
            String measure,
            String ready,
            @Nullable String missing) {}

    /** @param missing null where nothing is */
    record Drums(
            String volume,
            String by,
            String takers,
            @Nullable String missing) {}

    static WaterPlanPage of(WaterPlan plan, MessageSource messages, Locale locale, UnitSystem units, ZoneId zone) {
        return new Words(plan, messages, locale, units, zone).page();
    }

    private static final class Words {

        private static final double PERCENT = 100;

        private final WaterPlan plan;
        private final MessageSource messages;
        private final Locale locale;
        private final VolumeText volumes;
        private final MassText masses;
        private final PlantFigures figures;
        private final DateTimeFormatter weekday;
        private final DateTimeFormatter time;

        Words(WaterPlan plan, MessageSource messages, Locale locale, UnitSystem units, ZoneId zone) {
            this.plan = plan;
            this.messages = messages;
            this.locale = locale;
            volumes = new VolumeText(locale, units);
            masses = new MassText(locale, units);
            figures = new PlantFigures(units, locale);
            weekday = DateTimeFormatter.ofPattern("EEE d", locale).withZone(zone);
            time = DateTimeFormatter.ofLocalizedTime(FormatStyle.SHORT)
                    .withLocale(locale)
                    .withZone(zone);
        }

        WaterPlanPage page() {
            Optional<LocalDate> shortOn = plan.shortOn();
            return new WaterPlanPage(
                    plan.depot().name(),
                    say(),
                    shortOn.map(day -> word("loads.plant.short", day(day), volumes.of(plan.missing())))
                            .orElse(null),
                    plan.remedies().stream().map(this::way).toList(),
                    plan.plants().stream().map(this::plant).toList(),
                    plan.vats().stream().map(this::vat).toList(),
                    plan.days().stream()
                            .map(each -> new Day(
                                    day(each.day()),
                                    amount(each.salt()),
                                    amount(each.purified()),
                                    amount(each.estimated())))
                            .toList(),
                    plan.runs().stream()
                            .map(run -> new Run(moment(run.from()), moment(run.until()), volumes.of(run.made())))
                            .toList(),
                    plan.orders().stream().map(this::order).toList(),
                    plan.drums().stream()
                            .map(each -> new Drums(
                                    volumes.of(each.volume()),
                                    moment(each.by()),
                                    takers(each.rounds(), each.rounds().isEmpty()),
                                    missing(each.missing(), Optional.of(WaterPlan.Cause.WATER))))
                            .toList(),
                    Stream.concat(
                                    plan.onHand().stream().map(this::onHand),
                                    plan.inDrums().stream().map(this::inDrums))
                            .toList());
        }

        private String say() {
            if (plan.orders().isEmpty() && plan.drums().isEmpty()) {
                return word("loads.plant.nothing");
            }
            return plan.orders().stream()
                    .filter(order -> order.missing().litres() == 0)
                    .findFirst()
                    .map(order -> word("loads.plant.next", moment(order.fillFrom()), what(order)))
                    .orElseGet(() -> word("loads.plant.drums-only"));
        }

        private String word(String key, Object... args) {
            return messages.getMessage(key, args, locale);
        }

        private String day(LocalDate day) {
            return weekday.format(day) + " "
                    + DateTimeFormatter.ofPattern("MMM", locale).format(day);
        }

        private String moment(Instant at) {
            return (weekday.format(at) + ", " + time.format(at))
                    .replace(' ', '\u00a0')
                    .replace(",\u00a0", ", ");
        }

        private String amount(Volume volume) {
            return volume.litres() > 0 ? volumes.of(volume) : "\u2013";
        }

        private String way(WaterPlan.Remedy remedy) {
            String number = remedy.way() == WaterPlan.Way.BUY
                    ? volumes.of(Volume.ofLitres(remedy.number()))
                    : figures.number(remedy.number());
            String gives = remedy.missing().litres() > 0
                    ? word("loads.plant.way.still", volumes.of(remedy.missing()))
                    : word("loads.plant.way.enough");
            return word("loads.plant.way." + remedy.way(), number) + " " + gives;
        }

        private Plant plant(WaterPlan.Plant plant) {
            return new Plant(
                    plant.id().toString(),
                    plant.name(),
                    plant.production()
                            .map(gives -> word("loads.plant.per-hour", figures.volume(gives.litresPerHour())))
                            .orElseGet(() -> word("loads.plant.unknown")),
                    plant.production().map(this::basis).orElseGet(() -> word("loads.plant.unknown.facts")));
        }

        private String basis(PlantProduction gives) {
            String key = gives.measured() ? "loads.plant.measured" : "loads.plant.rated";
            String warmth = figures.number(UnitConversions.convert(
                            gives.feedCelsius(), MeasurementUnit.DEGREE_CELSIUS, figures.temperatureUnit()))
                    + "\u00a0"
                    + figures.temperatureUnit().symbol();
            String said =
                    word(key, warmth, figures.number(gives.correction()), figures.number(PERCENT * gives.ageShare()));
            return gives.feedAssumed() ? said + " " + word("loads.plant.feed-assumed") : said;
        }

        private Vat vat(VatView vat) {
            List<String> facts = new ArrayList<>();
            vat.content()
                    .ifPresentOrElse(
                            content -> facts.add(word(
                                    content.workedOut() ? "loads.plant.worked-out" : "loads.plant.seen",
                                    moment(content.since()))),
                            () -> facts.add(word("loads.plant.never-looked")));
            return new Vat(
                    vat.id().toString(),
                    vat.name(),
                    word("stock.vat.role." + vat.role().orElse(VatRole.PURIFIED)),
                    word("loads.plant.level", volumes.of(vat.level()), volumes.of(vat.volume())),
                    String.join(" ", facts));
        }

        private String what(WaterPlan.Order order) {
            return word(
                    "loads.plant.what",
                    volumes.of(order.volume()),
                    figures.number(order.salinity().practical()));
        }

        private String takers(List<String> rounds, boolean estimated) {
            List<String> all = new ArrayList<>(rounds);
            if (estimated) {
                all.add(word("loads.plant.no-round-yet"));
            }
            return String.join(", ", all);
        }

        private Order order(WaterPlan.Order order) {
            return new Order(
                    what(order),
                    word(
                            "loads.plant.for",
                            day(order.day()),
                            takers(order.rounds(), order.estimated().litres() > 0)),
                    masses.of(order.product()),
                    volumes.of(order.water()),
                    order.vat().orElseGet(() -> word("loads.plant.no-vat")),
                    moment(order.fillFrom()),
                    moment(order.saltFrom()),
                    moment(order.heatFrom()),
                    moment(order.circulateFrom()),
                    moment(order.measureFrom()),
                    moment(order.readyBy()),
                    missing(order.missing(), order.cause()));
        }

        private @Nullable String missing(Volume missing, Optional<WaterPlan.Cause> cause) {
            return missing.litres() > 0
                    ? word("loads.plant.missing." + cause.orElse(WaterPlan.Cause.WATER), volumes.of(missing))
                    : null;
        }

        private String inDrums(WaterPlan.InDrums waiting) {
            return word(
                    "loads.plant.in-drums",
                    waiting.kept()
                            .salinity()
                            .map(salinity -> word("loads.plant.of-salinity", salinity.practical()))
                            .orElseGet(() -> word("loads.plant.purified")),
                    volumes.of(waiting.served()));
        }

        private String onHand(WaterPlan.OnHand held) {
            String number = Integer.toString(held.batch().orElse(0));
            String said = word("loads.plant.on-hand", held.vat(), number, volumes.of(held.served()));
            if (!held.released()) {
                said += " " + word("loads.plant.on-hand.unreleased");
            }
            return held.left().litres() > 0
                    ? said + " " + word("loads.plant.on-hand.left", volumes.of(held.left()))
                    : said;
        }
    }
}

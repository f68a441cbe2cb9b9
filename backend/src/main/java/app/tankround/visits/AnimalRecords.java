package app.tankround.visits;

import app.tankround.accounts.Days;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.tanks.EquipmentView;
import app.tankround.tanks.FirstFood;
import app.tankround.tanks.FirstFood.Feeder;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.QuarantineService;
import app.tankround.tanks.ReleaseHindrances;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What visits tell of animals that are kept apart or have just come. */
@Service
@Transactional(readOnly = true)
public class AnimalRecords implements ReleaseHindrances {

    /** After that an animal counts as settled, whatever was written down: own choice. */
    private static final int NEW_DAYS = 21;

    /** Days without a sign before a quarantine ends: common practice, no source. */
    private static final int QUIET_DAYS = 14;

    /** Somebody has looked within so many days: own choice. */
    private static final int WATCHED_DAYS = 3;

    private static final Duration REMEMBERED = Duration.ofDays(120);

    private static final Pattern TOOL =
            Pattern.compile("(?i).*\\b(net|bucket|siphon|syphon|scraper|tongs|tools?)s?\\b.*");

    /**
     * A look at a system, as it is shown.
     *
     * @param page of the visit; empty where there was none
     */
    public record Watch(LocalDate day, String moment, String by, AnimalLook look, Optional<String> page) {}

    /** New animals with what they were offered, the newest first. */
    public record Fed(LivestockView animals, FirstFood.Standing standing, String words, List<Meal> meals) {

        public Fed {
            meals = List.copyOf(meals);
        }
    }

    public record Meal(String moment, String offer, String outcome) {}

    private final AnimalRows rows;
    private final WaterSystems systems;
    private final QuarantineService quarantine;
    private final People people;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    AnimalRecords(
            AnimalRows rows,
            WaterSystems systems,
            QuarantineService quarantine,
            People people,
            Days days,
            MessageSource messages,
            Clock clock) {
        this.rows = rows;
        this.systems = systems;
        this.quarantine = quarantine;
        this.people = people;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    /** The looks at a system since its class began, the newest first. */
    public List<Watch> watches(WaterSystemView system, Locale locale) {
        Instant from = system.classSince().atStartOfDay(days.zone()).toInstant();
        return rows.looks(system.id(), from).stream()
                .map(look -> new Watch(
                        days.of(look.at()),
                        days.moment(look.at(), locale),
                        people.find(look.by()).map(PersonView::name).orElse(""),
                        look,
                        look.visitId().map(visit -> "/visits/" + visit)))
                .toList();
    }

    /** New animals of a system that must be brought to eat. */
    public List<Fed> fed(WaterSystemView system, Locale locale) {
        LocalDate today = systems.today();
        boolean apart = system.infectionClass() == InfectionClass.QUARANTINE;
        Map<LivestockId, List<AnimalOffer>> offered = offers(system.id());
        return systems.livestock(system.id()).stream()
                .filter(animals -> animals.quantity() > 0)
                .filter(animals -> animals.addedOn()
                        .filter(day -> apart || day.isAfter(today.minusDays(NEW_DAYS)))
                        .isPresent())
                .filter(animals -> Feeder.of(animals.commonName()) != Feeder.NEEDS_NONE)
                .map(animals -> fed(animals, offered.getOrDefault(animals.id(), List.of()), locale))
                .toList();
    }

    private Fed fed(LivestockView animals, List<AnimalOffer> offers, Locale locale) {
        FirstFood.Standing standing = standing(animals, offers);
        return new Fed(
                animals,
                standing,
                words(
                        offers.isEmpty() && standing.worries()
                                ? "UNKNOWN"
                                : standing.state().name(),
                        animals,
                        standing,
                        locale),
                offers.stream()
                        .map(offer -> new Meal(
                                days.moment(offer.at(), locale),
                                text("visits.food.offer." + offer.offer(), locale),
                                text("visits.food.outcome." + offer.outcome(), locale)))
                        .toList());
    }

    private Map<LivestockId, List<AnimalOffer>> offers(WaterSystemId system) {
        return rows.offers(system, clock.instant().minus(REMEMBERED)).stream()
                .collect(Collectors.groupingBy(AnimalOffer::animals, LinkedHashMap::new, Collectors.toList()));
    }

    /** How animals stand with their food now. */
    FirstFood.Standing standing(LivestockView animals) {
        return standing(animals, offers(animals.systemId()).getOrDefault(animals.id(), List.of()));
    }

    private FirstFood.Standing standing(LivestockView animals, List<AnimalOffer> offers) {
        Instant came = animals.addedOn()
                .map(day -> day.atStartOfDay(days.zone()).plusHours(12).toInstant())
                .orElse(clock.instant());
        List<FirstFood.Offered> given = offers.stream()
                .map(offer -> new FirstFood.Offered(offer.at(), offer.outcome()))
                .toList();
        return FirstFood.judge(Feeder.of(animals.commonName()), came, given, clock.instant());
    }

    String words(LivestockView animals, FirstFood.Standing standing, Locale locale) {
        return words(standing.state().name(), animals, standing, locale);
    }

    /** @param state UNKNOWN where nobody wrote down that anything was offered, which says nothing of what they ate */
    private String words(String state, LivestockView animals, FirstFood.Standing standing, Locale locale) {
        return text(
                "visits.food.state." + state,
                locale,
                standing.hours(),
                standing.hours() / 24,
                Feeder.of(animals.commonName()).worryDays());
    }

    @Override
    public List<Hindrance> of(WaterSystemView system) {
        Locale locale = Locale.ROOT;
        LocalDate today = systems.today();
        List<Watch> watches = watches(system, locale);
        List<Hindrance> found = new ArrayList<>();
        boolean lately = watches.stream().anyMatch(watch -> watch.day().isAfter(today.minusDays(WATCHED_DAYS)));
        if (!lately) {
            found.add(new Hindrance("visits.release.not-watched", List.of(Integer.toString(WATCHED_DAYS))));
        }
        watches.stream()
                .filter(watch -> watch.look().worries() && watch.day().isAfter(today.minusDays(QUIET_DAYS)))
                .findFirst()
                .ifPresent(watch -> found.add(new Hindrance(
                        "visits.release.signs",
                        List.of(
                                watch.day().toString(),
                                watch.look().signs().orElse(""),
                                Integer.toString(QUIET_DAYS)))));
        watches.stream()
                .findFirst()
                .filter(watch -> watch.look().eating() != AnimalLook.Eating.ALL)
                .ifPresent(watch -> found.add(new Hindrance("visits.release.not-eating", List.of())));
        fed(system, locale).stream()
                .filter(each -> each.standing().worries() && !each.meals().isEmpty())
                .findFirst()
                .ifPresent(each -> found.add(new Hindrance(
                        "visits.release.does-not-eat", List.of(each.animals().commonName()))));
        return found;
    }

    /** What the visit page says of the animals of a system, as JSON-friendly values. */
    public Map<String, Object> told(WaterSystemView system, LocalDate today, Locale locale) {
        Map<String, Object> told = new LinkedHashMap<>();
        told.put("watch", system.infectionClass().isSick());
        quarantine.of(system, today).ifPresent(state -> told.put("quarantine", quarantine(state, today, locale)));
        if (system.infectionClass().isSick()) {
            told.put("tools", tools(system, locale));
        }
        told.put("fallow", fallow(system, today, locale));
        told.put(
                "food",
                fed(system, locale).stream()
                        .map(each -> Map.of(
                                "livestock",
                                each.animals().id().toString(),
                                "name",
                                each.animals().commonName(),
                                "words",
                                each.words(),
                                "worry",
                                each.standing().worries(),
                                "offers",
                                Feeder.of(each.animals().commonName()).offers().stream()
                                        .map(offer -> Map.of(
                                                "code",
                                                offer.name(),
                                                "text",
                                                text("visits.food.offer." + offer, locale)))
                                        .toList()))
                        .toList());
        return told;
    }

    private List<String> quarantine(QuarantineService.State state, LocalDate today, Locale locale) {
        List<String> lines = new ArrayList<>();
        lines.add(
                state.complete()
                        ? text("visits.quarantine.over", locale, Days.day(state.over(), locale))
                        : text(
                                "visits.quarantine.day",
                                locale,
                                state.day(),
                                state.days(),
                                Days.day(state.over(), locale)));
        lines.add(text("visits.quarantine.restarts", locale));
        state.display().ifPresent(display -> lines.add(displayWords(display, today, locale)));
        return lines;
    }

    /** What happens in the display meanwhile. */
    public String displayWords(QuarantineService.Display display, LocalDate today, Locale locale) {
        if (display.fallowUntil().isEmpty()) {
            return text("visits.quarantine.display", locale, display.system().name());
        }
        String until = Days.day(display.fallowUntil().get(), locale);
        return display.isFallow(today)
                ? text(
                        "visits.quarantine.fallow",
                        locale,
                        display.system().name(),
                        display.weeksGone(today),
                        display.weeks(),
                        until)
                : text("visits.quarantine.fallow-over", locale, display.system().name(), until);
    }

    /** Of a display that must stay without fish. */
    private List<String> fallow(WaterSystemView display, LocalDate today, Locale locale) {
        return quarantine.quarantinesOf(display.id()).stream()
                .flatMap(from -> quarantine.display(from.id()).stream())
                .filter(each -> each.isFallow(today))
                .map(each -> text(
                        "visits.quarantine.no-fish",
                        locale,
                        Days.day(each.fallowUntil().orElseThrow(), locale),
                        each.weeksGone(today),
                        each.weeks()))
                .toList();
    }

    /** Nets, buckets and siphons that serve this system alone, by what is written down of its equipment. */
    private String tools(WaterSystemView system, Locale locale) {
        String own = systems.equipment(system.id()).stream()
                .filter(device -> TOOL.matcher(device.kind()).matches()
                        || TOOL.matcher(device.name()).matches())
                .map(EquipmentView::name)
                .collect(Collectors.joining(", "));
        return own.isEmpty() ? text("visits.tools.none", locale) : text("visits.tools.own", locale, own);
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}

package app.tankround.socks.web;

import app.tankround.accounts.Days;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.socks.SockForecast;
import app.tankround.socks.SockPool;
import app.tankround.socks.SockWash;
import app.tankround.socks.SockWayOut;
import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockBalance;
import app.tankround.stock.StockPlaces;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.Choice;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** The forecast of the socks in words. */
@Component
class SockWords {

    /**
     * One size.
     *
     * @param shortOn when it runs short and by how many; empty where there are always enough
     */
    record Size(SockForecast forecast, Optional<String> shortOn, List<Way> ways) {}

    /**
     * What can be done.
     *
     * @param solves whether nothing is missing any more
     * @param systems where it would be done, if it is about some
     */
    record Way(String title, String effect, boolean solves, List<Place> systems, Optional<String> caution) {}

    /** A system with its site. */
    record Place(WaterSystemId id, String name) {}

    /** A day of the forecast. */
    record Day(String date, int atLoading, int needed, int missing, int washed) {}

    /**
     * A load in the machine or drying.
     *
     * @param since when it went in, or came out
     */
    record Load(SockWash wash, String since, List<String> lines) {}

    /** How many were washed so often. */
    record Age(String text, int count) {}

    /** Where some of an item are. */
    record At(String where, BigDecimal count, String code) {}

    /** A list of two dozen numbers says less than some ranges. */
    private static final int RANGES = 4;

    private final WaterSystems systems;
    private final SiteService sites;
    private final StockPlaces stockPlaces;
    private final Days days;
    private final MessageSource messages;

    SockWords(WaterSystems systems, SiteService sites, StockPlaces stockPlaces, Days days, MessageSource messages) {
        this.systems = systems;
        this.sites = sites;
        this.stockPlaces = stockPlaces;
        this.days = days;
        this.messages = messages;
    }

    Size size(SockForecast forecast, int otherMissing, Locale locale) {
        return new Size(
                forecast,
                forecast.shortOn().map(day -> text("socks.short", locale, day(day, locale), forecast.missing())),
                forecast.waysOut().stream()
                        .map(way -> way(way, otherMissing, locale))
                        .toList());
    }

    Load load(SockWash wash, Locale locale) {
        return new Load(
                wash,
                days.moment(wash.washedAt().orElse(wash.startedAt()), locale),
                wash.lines().stream()
                        .map(line -> line.count() + " × " + line.item().title())
                        .toList());
    }

    /** Where the socks of an item are, place by place. */
    List<At> at(SockPool pool, Locale locale) {
        return pool.balances().stream()
                .filter(balance -> balance.account().kind().isPlace())
                .sorted(Comparator.comparing(balance -> balance.account().kind()))
                .map(balance -> new At(
                        stockPlaces.say(balance.account(), locale),
                        balance.amount(),
                        new SocksAt(pool.item().id(), balance.account()).code()))
                .toList();
    }

    /** How often they were washed, in ranges up to the most that is allowed, and beyond; those without any left out. */
    List<Age> ages(SockPool pool, int most, Locale locale) {
        List<Age> ages = new ArrayList<>();
        int step = Math.ceilDiv(most, RANGES);
        for (int from = 0; from < most; from += step) {
            int until = Math.min(from + step, most);
            int count = pool.ages().washedAtLeast(from) - pool.ages().washedAtLeast(until);
            ages.add(new Age(text("socks.washes", locale, from, until - 1), count));
        }
        ages.add(new Age(text("socks.washes.worn", locale, most), pool.worn()));
        return ages.stream().filter(age -> age.count() > 0).toList();
    }

    /**
     * Places of all items to choose from.
     *
     * @param empty whether also the depot's where there are none, or fewer than none
     */
    List<Choice> places(List<SockPool> pools, boolean empty, Locale locale) {
        return pools.stream()
                .flatMap(pool -> Stream.concat(
                                pool.balances().stream()
                                        .filter(balance ->
                                                balance.account().kind().isPlace())
                                        .filter(balance ->
                                                empty || balance.amount().signum() > 0)
                                        .map(StockBalance::account)
                                        .sorted(Comparator.comparing(StockAccount::kind)),
                                empty
                                        ? Stream.of(
                                                StockAccount.depot(),
                                                StockAccount.of(StockAccountKind.DIRTY),
                                                StockAccount.of(StockAccountKind.DIRTY_APART))
                                        : Stream.of())
                        .distinct()
                        .map(account -> new Choice(
                                new SocksAt(pool.item().id(), account).code(),
                                pool.item().title() + " – " + stockPlaces.say(account, locale) + ": "
                                        + there(pool, account))))
                .toList();
    }

    private static String there(SockPool pool, StockAccount account) {
        return pool.balances().stream()
                .filter(balance -> balance.account().equals(account))
                .map(StockBalance::amount)
                .reduce(BigDecimal.ZERO, BigDecimal::add)
                .toPlainString();
    }

    /** Days on which anything happens. */
    List<Day> dates(SockForecast forecast, Locale locale) {
        return forecast.days().stream()
                .filter(day -> day.needed() > 0 || day.washed() > 0)
                .map(day ->
                        new Day(day(day.date(), locale), day.atLoading(), day.needed(), day.missing(), day.washed()))
                .toList();
    }

    private Way way(SockWayOut way, int otherMissing, Locale locale) {
        SockWayOut.Effect effect = way.effect();
        String left = effect.shortOn()
                .map(day -> text("socks.effect.left", locale, effect.missing(), day(day, locale)))
                .orElseGet(() -> text("socks.effect.none", locale));
        int elsewhere = effect.missingElsewhere() - otherMissing;
        String said = elsewhere == 0
                ? left
                : left + " "
                        + (elsewhere < 0
                                ? text("socks.effect.others-fewer", locale, -elsewhere)
                                : text("socks.effect.others-more", locale, elsewhere));
        boolean solves = effect.missing() == 0;
        return switch (way) {
            case SockWayOut.Wash wash ->
                new Way(
                        text("socks.way.wash", locale, day(wash.day(), locale), wash.socks()),
                        said,
                        solves,
                        List.of(),
                        Optional.empty());
            case SockWayOut.Buy buy ->
                new Way(
                        text("socks.way.buy", locale, buy.count(), day(buy.hereOn(), locale)),
                        said,
                        solves,
                        List.of(),
                        Optional.empty());
            case SockWayOut.Stretch stretch ->
                new Way(
                        text("socks.way.stretch", locale, stretch.systems().size(), stretch.skipped()),
                        said,
                        solves,
                        places(stretch.systems()),
                        Optional.of(text("socks.way.stretch.caution", locale, stretch.longestDays())));
        };
    }

    private List<Place> places(List<WaterSystemId> ids) {
        Map<WaterSystemId, WaterSystemView> found = systems.find(ids);
        return ids.stream()
                .flatMap(id -> Optional.ofNullable(found.get(id)).stream())
                .map(system -> new Place(
                        system.id(),
                        sites.find(system.siteId()).map(SiteView::name).orElse("") + ", " + system.name()))
                .toList();
    }

    /** A day of the weeks ahead, such as Tue, 1 Dec. */
    String day(LocalDate day, Locale locale) {
        return DateTimeFormatter.ofLocalizedPattern("MMMEd").withLocale(locale).format(day);
    }

    private String text(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}

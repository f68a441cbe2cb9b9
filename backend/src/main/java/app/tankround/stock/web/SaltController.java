package app.tankround.stock.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.stock.SaltLotView;
import app.tankround.stock.SaltYields;
import java.text.NumberFormat;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** What lots of salt yield. */
@Controller
class SaltController {

    private static final int YIELD_DIGITS = 3;
    private static final double DAYS_PER_WEEK = 7;

    private final SaltYields yields;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    SaltController(SaltYields yields, BusinessProfile business, Days days, MessageSource messages, Clock clock) {
        this.yields = yields;
        this.business = business;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    /** A lot of salt in words. */
    record SaltLot(String lot, String batches, String yield, String drift, String others, boolean apart) {}

    /** What lots of salt yield, by the batches made of them. */
    @GetMapping("/stock/salt")
    String salt(Model model, Locale locale) {
        model.addAttribute(
                "lots", yields.lots().stream().map(lot -> saltLot(lot, locale)).toList());
        model.addAttribute("stated", decimals(business.current().saltYield(), locale));
        model.addAttribute("now", decimals(yields.toWeigh(days.of(clock.instant())), locale));
        return "stock/salt";
    }

    private SaltLot saltLot(SaltLotView lot, Locale locale) {
        double weeks = ChronoUnit.DAYS.between(lot.opened(), lot.last()) / DAYS_PER_WEEK;
        return new SaltLot(
                lot.lot(),
                messages.getMessage(
                        "stock.salt.batches",
                        new Object[] {lot.batches(), days.day(lot.opened(), locale), days.day(lot.last(), locale)},
                        locale),
                messages.getMessage(
                        "stock.salt.yield",
                        new Object[] {
                            decimals(lot.yield().after(weeks), locale),
                            decimals(2 * lot.yield().deviationAfter(weeks), locale)
                        },
                        locale),
                messages.getMessage(
                        "stock.salt.drift",
                        new Object[] {
                            decimals(lot.yield().weekly(), locale),
                            decimals(2 * Math.sqrt(lot.yield().weeklyVariance()), locale)
                        },
                        locale),
                messages.getMessage(
                        "stock.salt.others",
                        new Object[] {decimals(lot.own(), locale), decimals(lot.others(), locale)},
                        locale),
                lot.outOfFamily());
    }

    private static String decimals(double number, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMinimumFractionDigits(YIELD_DIGITS);
        format.setMaximumFractionDigits(YIELD_DIGITS);
        return format.format(number);
    }
}

package app.tankround.rounds.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.rounds.DayAgainst;
import app.tankround.rounds.WeekReasons;
import app.tankround.rounds.solver.FleetReasons.Constraint;
import app.tankround.rounds.solver.FleetReasons.Shortage;
import app.tankround.units.Mass;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.MassText;
import app.tankround.web.VolumeText;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.ListFormat;
import java.text.NumberFormat;
import java.util.Currency;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** Puts what a plan says of a place into words. */
@Component
class PlanWords {

    /** The planner's costs are in thousandths of a cent. */
    private static final int COSTS_PER_UNIT_DIGITS = 5;

    private static final int SECONDS_PER_MINUTE = 60;
    /** Grams of a kilogram, millilitres of a litre. */
    private static final int PER_THOUSAND = 1000;

    private final MessageSource messages;
    private final BusinessProfile business;

    PlanWords(MessageSource messages, BusinessProfile business) {
        this.messages = messages;
        this.business = business;
    }

    /** What stands against a place, by how much. */
    public String against(WeekReasons.Answer answer) {
        return answer.reason().shortages().stream()
                .map(shortage -> against(shortage, answer))
                .collect(Collectors.joining(" "));
    }

    private String against(Shortage shortage, WeekReasons.Answer answer) {
        if (shortage.constraint() == Constraint.SKILL) {
            return missing("rounds.against.SKILL.", answer);
        }
        Optional<DayAgainst> day = answer.dayAgainst();
        if (shortage.constraint() == Constraint.DAY && day.isPresent()) {
            return say(
                    "rounds.against.DAY." + day.get().kind(),
                    shortage.amount(),
                    day.get().detail().orElse(""));
        }
        return say(
                "rounds.against." + shortage.constraint(),
                amount(shortage),
                answer.because().map(site -> site.name()).orElse(""));
    }

    /** The van of an answer and, where it has several rounds that day, which of them. */
    public String van(WeekReasons.Answer answer) {
        return answer.trips() == 1
                ? answer.van().name()
                : say("rounds.trip.of-van", answer.van().name(), answer.trip());
    }

    /** Of what fits, what it costs and why the van has to load again for it; of anything else what stands against it. */
    public String verdict(WeekReasons.Answer answer, long base) {
        if (!answer.reason().shortages().isEmpty()) {
            return against(answer);
        }
        String price = price(answer.reason().extraCost() - base);
        List<Shortage> otherwise = answer.reason().withoutReload();
        return otherwise.isEmpty()
                ? price
                : price + " "
                        + say(
                                "rounds.plan.reload",
                                ListFormat.getInstance(
                                                LocaleContextHolder.getLocale(),
                                                ListFormat.Type.STANDARD,
                                                ListFormat.Style.FULL)
                                        .format(otherwise.stream()
                                                .map(shortage -> say(
                                                        "rounds.plan.reload." + shortage.constraint(),
                                                        amount(shortage)))
                                                .toList()));
    }

    /** What would admit it there. */
    public String change(WeekReasons.Answer answer) {
        return answer.reason().shortages().stream()
                .map(shortage -> change(shortage, answer))
                .collect(Collectors.joining(" "));
    }

    private String change(Shortage shortage, WeekReasons.Answer answer) {
        if (shortage.constraint() == Constraint.SKILL) {
            return missing("rounds.change.SKILL.", answer);
        }
        Optional<DayAgainst> day = answer.dayAgainst();
        if (shortage.constraint() == Constraint.DAY && day.isPresent()) {
            return say(
                    "rounds.change.DAY." + day.get().kind(),
                    shortage.amount(),
                    day.get().detail().orElse(""));
        }
        return say(
                "rounds.change." + shortage.constraint(),
                amount(shortage),
                answer.because().map(site -> site.name()).orElse(""));
    }

    private String missing(String prefix, WeekReasons.Answer answer) {
        return answer.reason().missing().stream()
                .sorted()
                .map(skill -> say(prefix + skill))
                .collect(Collectors.joining(" "));
    }

    /** Why a van cannot be planned on a day. */
    public String idle(WeekReasons.Idle idle) {
        return say("rounds.idle." + idle.because(), String.join(", ", idle.who()));
    }

    /** The number of a message, or the text with its unit where that depends on the business; never less than is short. */
    private Object amount(Shortage shortage) {
        UnitSystem units = business.current().unitSystem();
        return switch (shortage.constraint()) {
            case WINDOW, OTHER_WINDOW, SHIFT_END -> Math.ceilDiv(shortage.amount(), SECONDS_PER_MINUTE);
            case MASS ->
                new MassText(LocaleContextHolder.getLocale(), units)
                        .of(Mass.ofKilograms(Math.ceilDiv(shortage.amount(), PER_THOUSAND)));
            case ROOM ->
                new VolumeText(LocaleContextHolder.getLocale(), units)
                        .of(Volume.ofLitres(Math.ceilDiv(shortage.amount(), PER_THOUSAND)));
            case DAY, SKILL, LOCKED, SICK_BEFORE_CLEAN, NO_WAY -> shortage.amount();
        };
    }

    /** A cost of the planner beyond another, as money with its sign. */
    public String price(long extra) {
        NumberFormat format = NumberFormat.getCurrencyInstance(LocaleContextHolder.getLocale());
        format.setCurrency(Currency.getInstance(business.current().currency().getCode()));
        BigDecimal amount = BigDecimal.valueOf(extra, COSTS_PER_UNIT_DIGITS).setScale(2, RoundingMode.HALF_EVEN);
        return say(amount.signum() < 0 ? "rounds.plan.cheaper" : "rounds.plan.dearer", format.format(amount.abs()));
    }

    private String say(String code, Object... arguments) {
        return messages.getMessage(code, arguments, LocaleContextHolder.getLocale());
    }
}

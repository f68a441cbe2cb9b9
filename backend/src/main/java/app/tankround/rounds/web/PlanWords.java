package app.tankround.rounds.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.rounds.DayAgainst;
import app.tankround.rounds.WeekReasons;
import app.tankround.rounds.solver.FleetReasons.Constraint;
import app.tankround.rounds.solver.FleetReasons.Shortage;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.text.NumberFormat;
import java.util.Currency;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.springframework.context.MessageSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.stereotype.Component;

/** Puts what a plan says of a place into words. */
@Component
class PlanWords {

    /** The planner's costs are in thousandths of a cent. */
    private static final int COSTS_PER_UNIT_DIGITS = 5;

    private static final int SECONDS_PER_MINUTE = 60;
    private static final int GRAMS_PER_KILOGRAM = 1000;

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
        return Stream.concat(
                        Stream.of(price(answer.reason().extraCost() - base)),
                        answer.reason().withoutReload().stream()
                                .map(shortage -> say("rounds.plan.reload." + shortage.constraint(), amount(shortage))))
                .collect(Collectors.joining(" "));
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

    private static long amount(Shortage shortage) {
        return switch (shortage.constraint()) {
            case WINDOW, OTHER_WINDOW, SHIFT_END -> Math.ceilDiv(shortage.amount(), SECONDS_PER_MINUTE);
            case MASS, ROOM -> Math.ceilDiv(shortage.amount(), GRAMS_PER_KILOGRAM);
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

package app.tankround.rounds;

import app.tankround.rounds.solver.Disinfection;
import app.tankround.rounds.solver.FleetWeights;
import app.tankround.rounds.solver.Reload;
import app.tankround.rounds.solver.Rest;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalTime;
import java.util.Optional;
import java.util.OptionalLong;
import org.jspecify.annotations.Nullable;

/**
 * What the parts of a plan cost the business, in its currency, and what planning keeps to.
 *
 * @param drivingHour an hour on the road, 0 to 30 000
 * @param kilometre a kilometre driven, 0 to 10 000
 * @param overtimeHour an hour after the van should be back, 0 to 30 000
 * @param round a van that leaves at all, 0 to 1 000 000
 * @param dayBeyond each day that a visit leaves its tolerance, 0 to 1 000 000
 * @param stranger a visit by another technician than the one known there, 0 to 1 000 000
 * @param promise another time than the one promised, 0 to 1 000 000
 * @param lateHour an hour by which work begins later than promised, 0 to 30 000
 * @param unevenHour an hour of work that a week has beyond its share, 0 to 30 000
 * @param disinfection one disinfection with its materials, 0 to 100 000
 * @param reload a van that loads again at its depot on its way, 0 to 100 000
 * @param leftOut a site that is not visited, 0 to 1 000 000
 * @param daysBeyond by how many days a visit may leave its tolerance at most, 0 to 14
 * @param overtimeMinutes by how much a van may be back later than it should, 0 to 480
 * @param breakAfterMinutes after how long the break begins at the latest, 60 to 720
 * @param breakMinutes how long it lasts, 0 to 120; 0 for none
 * @param reloads whether planning lets vans do so
 * @param reloadMinutes how long it takes at the depot, 0 to 240
 * @param version 0 where nobody has changed the usual terms
 */
public record PlanningTerms(
        BigDecimal drivingHour,
        BigDecimal kilometre,
        BigDecimal overtimeHour,
        BigDecimal round,
        BigDecimal dayBeyond,
        BigDecimal stranger,
        BigDecimal promise,
        BigDecimal lateHour,
        BigDecimal unevenHour,
        BigDecimal disinfection,
        BigDecimal reload,
        BigDecimal leftOut,
        int daysBeyond,
        int overtimeMinutes,
        int breakAfterMinutes,
        int breakMinutes,
        boolean reloads,
        int reloadMinutes,
        int version) {

    /** The planner reckons in thousandths of a cent, so many to one of the currency. */
    static final int COSTS_PER_UNIT = 100_000;

    /** The ranges above, for whoever reads a form. */
    public static final int MOST_PER_HOUR = 30_000;

    public static final int MOST_PER_KILOMETRE = 10_000;
    public static final int MOST_PER_DISINFECTION = 100_000;
    public static final int MOST_PER_RELOAD = 100_000;
    public static final int MOST_RELOAD_MINUTES = 240;
    public static final int MOST = 1_000_000;

    private static final int SECONDS_PER_HOUR = 3600;
    private static final int METRES_PER_KILOMETRE = 1000;
    private static final int SECONDS_PER_MINUTE = 60;
    private static final int LAST_SECOND = 86_399;

    /** @throws FieldRefusal naming the field, the refused value and what is accepted */
    public PlanningTerms {
        within("drivingHour", drivingHour, MOST_PER_HOUR);
        within("kilometre", kilometre, MOST_PER_KILOMETRE);
        within("overtimeHour", overtimeHour, MOST_PER_HOUR);
        within("round", round, MOST);
        within("dayBeyond", dayBeyond, MOST);
        within("stranger", stranger, MOST);
        within("promise", promise, MOST);
        within("lateHour", lateHour, MOST_PER_HOUR);
        within("unevenHour", unevenHour, MOST_PER_HOUR);
        within("disinfection", disinfection, MOST_PER_DISINFECTION);
        within("reload", reload, MOST_PER_RELOAD);
        within("leftOut", leftOut, MOST);
        within("daysBeyond", daysBeyond, 0, 14);
        within("overtimeMinutes", overtimeMinutes, 0, 480);
        within("breakAfterMinutes", breakAfterMinutes, 60, 720);
        within("breakMinutes", breakMinutes, 0, 120);
        within("reloadMinutes", reloadMinutes, 0, MOST_RELOAD_MINUTES);
    }

    private static void within(String field, BigDecimal value, int most) {
        if (value.signum() < 0 || value.compareTo(BigDecimal.valueOf(most)) > 0) {
            throw new FieldRefusal(field, "web.number-out-of-range", value.toPlainString(), 0, most);
        }
    }

    private static void within(String field, int value, int least, int most) {
        if (value < least || value > most) {
            throw new FieldRefusal(field, "web.number-out-of-range", value, least, most);
        }
    }

    /**
     * Costs: common practice, no source. Where the working day is longer than six hours, Directive 2003/88/EC of the
     * European Parliament and of the Council, Article 4, asks for a break; how long it is, local rules say.
     */
    static PlanningTerms usual() {
        return new PlanningTerms(
                money("30.00"),
                money("0.40"),
                money("45.00"),
                money("20.00"),
                money("25.00"),
                money("10.00"),
                money("25.00"),
                money("30.00"),
                money("5.00"),
                money("18.00"),
                money("5.00"),
                money("1000.00"),
                2,
                90,
                360,
                30,
                true,
                20,
                0);
    }

    private static BigDecimal money(String amount) {
        return new BigDecimal(amount);
    }

    /** A sum as the planner reckons it. */
    static long cost(BigDecimal money) {
        return money.multiply(BigDecimal.valueOf(COSTS_PER_UNIT))
                .setScale(0, RoundingMode.HALF_EVEN)
                .longValueExact();
    }

    private static long perSecond(BigDecimal perHour) {
        return cost(perHour) / SECONDS_PER_HOUR;
    }

    FleetWeights weights() {
        return new FleetWeights(
                perSecond(drivingHour), cost(kilometre) / METRES_PER_KILOMETRE, perSecond(overtimeHour), cost(round));
    }

    long perSecondLate() {
        return perSecond(lateHour);
    }

    long perSecondUneven() {
        return perSecond(unevenHour);
    }

    Disinfection disinfection(int minutes) {
        return new Disinfection(minutes * SECONDS_PER_MINUTE, cost(disinfection));
    }

    /**
     * What it takes to load again on the way; null where planning lets no van do so. A round leaves at a full minute, so up to
     * one more is reckoned with.
     */
    @Nullable Reload reloading() {
        return reloads ? new Reload((reloadMinutes + 1) * SECONDS_PER_MINUTE - 1, cost(reload)) : null;
    }

    /** The break of a day that begins then; none where it would begin after midnight, or should be over already. */
    Rest rest(LocalTime begins, LocalTime from) {
        int by = begins.toSecondOfDay() + breakAfterMinutes * SECONDS_PER_MINUTE;
        return breakMinutes == 0 || by > LAST_SECOND || by < from.toSecondOfDay()
                ? Rest.NONE
                : new Rest(by, breakMinutes * SECONDS_PER_MINUTE);
    }

    /** The break of a day that begins then, in minutes of the day; empty where there is none. */
    Optional<RoundPace.Break> restMinutes(LocalTime begins) {
        Rest rest = rest(begins, begins);
        return rest.seconds() == 0
                ? Optional.empty()
                : Optional.of(
                        new RoundPace.Break(rest.bySecond() / SECONDS_PER_MINUTE, rest.seconds() / SECONDS_PER_MINUTE));
    }

    /** By when a van must be back, in seconds of day. */
    int latestEnd(LocalTime until) {
        return Math.min(LAST_SECOND, until.toSecondOfDay() + overtimeMinutes * SECONDS_PER_MINUTE);
    }

    /** Minutes of work in a day of so many minutes. */
    int withoutBreak(int minutes) {
        return minutes > breakAfterMinutes ? Math.max(breakAfterMinutes, minutes - breakMinutes) : minutes;
    }

    /** A sum in minutes on the road; empty where driving costs nothing. */
    public OptionalLong minutesOnTheRoad(BigDecimal money) {
        return drivingHour.signum() == 0
                ? OptionalLong.empty()
                : OptionalLong.of(money.multiply(BigDecimal.valueOf(60))
                        .divide(drivingHour, 0, RoundingMode.HALF_UP)
                        .longValueExact());
    }
}

package app.tankround.schedule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import app.tankround.units.SockSize;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.MonthDay;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.joda.money.CurrencyUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class AgreementRulesTests {

    private static final LocalDate DAY = LocalDate.of(2026, 11, 2);

    @ParameterizedTest
    @ValueSource(ints = {0, 53, -1, Integer.MAX_VALUE})
    void refusesWeeksOutsideOneTo52(int weeks) {
        assertThatThrownBy(() -> agreement(weeks, 45, "60", DAY))
                .isInstanceOfSatisfying(FieldRefusal.class, refusal -> {
                    assertThat(refusal.field()).isEqualTo("everyWeeks");
                    assertThat(refusal.args()).first().isEqualTo(weeks);
                });
    }

    @ParameterizedTest
    @ValueSource(ints = {0, -5, 1441, 1_000_000_000})
    void refusesMinutesOutsideADay(int minutes) {
        assertRefused(agreement(1, minutes, "60", DAY), "minutes", minutes);
    }

    @ParameterizedTest
    @ValueSource(strings = {"-0.01", "1000000.01", "1e9"})
    void refusesPriceOutsideRange(String price) {
        assertRefused(agreement(1, 45, price, DAY), "price", new BigDecimal(price).stripTrailingZeros());
    }

    @Test
    void refusesMoreDecimalsThanTheCurrencyHas() {
        assertThatThrownBy(() -> accepted(agreement(1, 45, "60.005", DAY), "EUR"))
                .isInstanceOf(FieldRefusal.class);
        assertThatThrownBy(() -> accepted(agreement(1, 45, "60.5", DAY), "JPY")).isInstanceOf(FieldRefusal.class);
        assertThat(accepted(agreement(1, 45, "60.500", DAY), "EUR").price()).isEqualTo(new BigDecimal("60.5"));
    }

    @Test
    void refusesYearOfASlippedKey() {
        LocalDate slipped = LocalDate.of(20225, 1, 1);
        assertRefused(agreement(1, 45, "60", slipped), "validFrom", slipped);
    }

    @Test
    void refusesLastDayBeforeFirst() {
        NewAgreement asked = new NewAgreement(
                "A-1",
                system(),
                1,
                Set.of(DayOfWeek.MONDAY),
                DAY,
                Optional.of(DAY.minusDays(1)),
                45,
                BigDecimal.TEN,
                List.of(),
                Optional.empty());
        assertRefused(asked, "validUntil", DAY.minusDays(1));
    }

    @Test
    void refusesNoWeekday() {
        assertRhythmRefused(
                VisitRhythm.byRule("FREQ=DAILY", Set.of(), DAY, Optional.empty()),
                "weekdays",
                "schedule.weekday-missing");
    }

    @Test
    void refusesARuleThatNeverHappens() {
        assertRhythmRefused(
                VisitRhythm.byRule("FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30", VisitRhythm.ANY_DAY, DAY, Optional.empty()),
                "rule",
                "schedule.rule-never");
        assertRhythmRefused(
                VisitRhythm.oneInWeeks(1, Set.of(DayOfWeek.FRIDAY), DAY, Optional.of(DAY.plusDays(2))),
                "rule",
                "schedule.rule-never");
    }

    @Test
    void refusesToleranceThatWouldLetOneVisitPassTheNext() {
        assertRhythmRefused(weekly().within(29), "toleranceDays", "schedule.out-of-range");
        assertRhythmRefused(weekly().within(7), "toleranceDays", "schedule.tolerance-past-next");
        assertThat(accepted(asked(weekly().within(6)), "EUR").rhythm().toleranceDays())
                .isEqualTo(6);
    }

    @Test
    void refusesPauseThatEndsBeforeItStarts() {
        assertRhythmRefused(
                weekly().with(List.of(), List.of(new Pause(DAY, DAY.minusDays(1)))),
                "pauses[0].last",
                "schedule.until-before-from");
    }

    @Test
    void refusesSeasonsThatOverlapAlsoOverTheTurnOfTheYear() {
        Season winter = VisitRhythmTests.winter(2, DAY);
        assertThat(accepted(asked(weekly().with(List.of(winter), List.of())), "EUR")
                        .rhythm()
                        .seasons())
                .containsExactly(winter);
        assertRhythmRefused(
                weekly().with(
                                List.of(winter, new Season(MonthDay.of(2, 29), MonthDay.of(5, 1), winter.rule())),
                                List.of()),
                "seasons[1].from",
                "schedule.seasons-overlap");
    }

    @Test
    void refusesSeasonsOfARhythmThatIsCounted() {
        assertRhythmRefused(
                VisitRhythm.byRule("FREQ=DAILY;COUNT=5", VisitRhythm.ANY_DAY, DAY, Optional.empty())
                        .with(List.of(VisitRhythmTests.winter(2, DAY)), List.of()),
                "seasons[0].rule",
                "schedule.rule-counted-season");
    }

    private static VisitRhythm weekly() {
        return VisitRhythm.oneInWeeks(1, Set.of(DayOfWeek.THURSDAY), DAY, Optional.empty());
    }

    private static NewAgreement asked(VisitRhythm rhythm) {
        return new NewAgreement("A-1", system(), rhythm, 45, BigDecimal.TEN, List.of(), Optional.empty());
    }

    private static void assertRhythmRefused(VisitRhythm rhythm, String field, String code) {
        assertThatThrownBy(() -> accepted(asked(rhythm), "EUR")).isInstanceOfSatisfying(FieldRefusal.class, refusal -> {
            assertThat(refusal.field()).isEqualTo(field);
            assertThat(refusal.code()).isEqualTo(code);
        });
    }

    @Test
    void refusesWaterChangeOfMoreThanAllTheWater() {
        assertTaskRefused(TaskView.waterChangePercent(new BigDecimal("150")), "amount");
        assertTaskRefused(TaskView.waterChangePercent(BigDecimal.ZERO), "amount");
        assertTaskRefused(TaskView.waterChangeLitres(new BigDecimal("401")), "amount");
    }

    @Test
    void refusesTasksThatCannotBeDone() {
        assertTaskRefused(TaskView.sockSwap(0, SockSize.ofDiameter(200), 4), "amount");
        assertTaskRefused(TaskView.sockSwap(2, SockSize.ofDiameter(5), 4), "sizeMm");
        assertTaskRefused(TaskView.sockSwap(2, SockSize.ofDiameter(200), 0), "intervalDays");
        assertTaskRefused(TaskView.dose("Iodide", new BigDecimal("5"), "L"), "unit");
        assertTaskRefused(TaskView.dose(" ", new BigDecimal("5"), "mL"), "item");
        assertTaskRefused(TaskView.work(""), "item");
        assertTaskRefused(
                new TaskView(
                        TaskKind.TEST,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.of("COLOUR"),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty()),
                "item");
    }

    @Test
    void takesEveryKindOfTask() {
        List<TaskView> tasks = List.of(
                TaskView.waterChangePercent(new BigDecimal("15.0")),
                TaskView.topUp(),
                TaskView.sockSwap(4, SockSize.ofDiameter(200), 4),
                TaskView.test(Quantity.SALINITY),
                TaskView.dose("Iodide", new BigDecimal("5"), "mL"),
                TaskView.media("Carbon", new BigDecimal("250"), "g"),
                TaskView.work("Scrape the panes"));
        assertThat(accepted(with(tasks), "EUR").tasks())
                .hasSize(7)
                .first()
                .isEqualTo(TaskView.waterChangePercent(new BigDecimal("15")));
    }

    private static void assertTaskRefused(TaskView task, String field) {
        assertThatThrownBy(() -> accepted(with(List.of(TaskView.topUp(), task)), "EUR"))
                .isInstanceOfSatisfying(
                        FieldRefusal.class,
                        refusal -> assertThat(refusal.field()).isEqualTo("tasks[1]." + field));
    }

    private static void assertRefused(NewAgreement asked, String field, Object value) {
        assertThatThrownBy(() -> accepted(asked, "EUR")).isInstanceOfSatisfying(FieldRefusal.class, refusal -> {
            assertThat(refusal.field()).isEqualTo(field);
            assertThat(refusal.args().getFirst().toString())
                    .isEqualTo(value instanceof BigDecimal number ? number.toPlainString() : value.toString());
        });
    }

    private static NewAgreement accepted(NewAgreement asked, String currency) {
        return AgreementRules.accepted(asked, CurrencyUnit.of(currency), Volume.ofLitres(400));
    }

    private static NewAgreement agreement(int weeks, int minutes, String price, LocalDate from) {
        return new NewAgreement(
                "A-1",
                system(),
                weeks,
                Set.of(DayOfWeek.MONDAY),
                from,
                Optional.empty(),
                minutes,
                new BigDecimal(price),
                List.of(),
                Optional.empty());
    }

    private static NewAgreement with(List<TaskView> tasks) {
        return new NewAgreement(
                "A-1",
                system(),
                1,
                Set.of(DayOfWeek.MONDAY),
                DAY,
                Optional.empty(),
                45,
                BigDecimal.TEN,
                tasks,
                Optional.empty());
    }

    private static WaterSystemId system() {
        return WaterSystemId.of(new UUID(0, 1));
    }
}

package app.tankround.purification;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import app.tankround.purification.WaterMeter.Shown;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Against sums made by hand. */
class WaterMeterTests {

    private static final Instant START = Instant.parse("2026-02-02T08:00:00Z");

    /** 100 a day for ten days, then 50 a day for ten. */
    private static final WaterMeter READ = new WaterMeter(List.of(shown(0, 1000), shown(10, 2000), shown(20, 2500)));

    @Test
    void drawsStraightLinesBetweenReadings() {
        assertThat(READ.madeBetween(day(5), day(12))).isCloseTo(5 * 100 + 2 * 50, within(1e-9));
        assertThat(READ.madeBetween(day(-5), day(1))).isCloseTo(100, within(1e-9));
    }

    @Test
    void goesOnAsLatelyAfterTheLastReading() {
        // 1500 in twenty days are 75 a day.
        assertThat(READ.perDay().orElseThrow()).isCloseTo(75, within(1e-9));
        assertThat(READ.madeBetween(day(20), day(24))).isCloseTo(300, within(1e-9));
        assertThat(READ.madeBetween(day(18), day(24))).isCloseTo(100 + 300, within(1e-9));
        assertThat(READ.madeBetween(day(22), day(24))).isCloseTo(150, within(1e-9));
    }

    @Test
    void countsNothingForTheTimeInWhichItWasExchanged() {
        var exchanged = new WaterMeter(List.of(shown(0, 1000), shown(10, 2000), shown(20, 300), shown(30, 1300)));
        assertThat(exchanged.madeBetween(day(0), day(30))).isCloseTo(1000 + 0 + 1000, within(1e-9));
    }

    @Test
    void knowsNothingWhereItWasNotReadSinceAndTheUseIsUnknown() {
        var once = new WaterMeter(List.of(shown(0, 1000)));
        assertThat(once.madeSince(day(0), day(9))).isEmpty();
        assertThat(once.madeSince(day(-3), day(9))).hasValue(0);
        assertThat(new WaterMeter(List.of()).madeSince(day(0), day(9))).isEmpty();
        assertThat(READ.madeSince(day(20), day(24)).orElseThrow()).isCloseTo(300, within(1e-9));
    }

    private static Shown shown(int day, double litres) {
        return new Shown(day(day), litres);
    }

    private static Instant day(int day) {
        return START.plus(Duration.ofDays(day));
    }
}

package app.tankround.testing;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A clock in UTC that stands still until a test moves it; back at {@link #START} before each test. */
public final class TestClock extends Clock {

    /** A Monday morning in a month without a change of summer time in Europe or North America before the 8th. */
    public static final Instant START = Instant.parse("2026-03-02T09:00:00Z");

    private volatile Instant now = START;

    public void set(Instant instant) {
        now = instant;
    }

    /** Moves forward, or back when the duration is negative. */
    public void advance(Duration duration) {
        now = now.plus(duration);
    }

    @Override
    public Instant instant() {
        return now;
    }

    @Override
    public ZoneId getZone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        TestClock origin = this;
        return new Clock() {
            @Override
            public Instant instant() {
                return origin.instant();
            }

            @Override
            public ZoneId getZone() {
                return zone;
            }

            @Override
            public Clock withZone(ZoneId other) {
                return origin.withZone(other);
            }
        };
    }
}

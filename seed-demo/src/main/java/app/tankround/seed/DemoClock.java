package app.tankround.seed;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Primary;
import org.springframework.stereotype.Component;

/** Stands at an instant of the past while the demo is filled, and tells the time otherwise. */
@Primary
@Component
class DemoClock extends Clock {

    private final Clock real = Clock.systemUTC();
    private volatile @Nullable Instant standing;

    void standAt(Instant instant) {
        standing = instant;
    }

    void tellTheTime() {
        standing = null;
    }

    @Override
    public Instant instant() {
        Instant held = standing;
        return held == null ? real.instant() : held;
    }

    @Override
    public ZoneId getZone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        return zone.equals(ZoneOffset.UTC) ? this : new Zoned(this, zone);
    }

    private static final class Zoned extends Clock {

        private final Clock clock;
        private final ZoneId zone;

        Zoned(Clock clock, ZoneId zone) {
            this.clock = clock;
            this.zone = zone;
        }

        @Override
        public Instant instant() {
            return clock.instant();
        }

        @Override
        public ZoneId getZone() {
            return zone;
        }

        @Override
        public Clock withZone(ZoneId other) {
            return clock.withZone(other);
        }
    }
}

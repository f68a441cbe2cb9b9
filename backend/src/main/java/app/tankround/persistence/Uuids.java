package app.tankround.persistence;

import java.security.SecureRandom;
import java.time.Instant;
import java.util.UUID;

/** Makes ids that sort by the time they were made: UUID version 7 of RFC 9562, section 5.7. */
public final class Uuids {

    private static final SecureRandom RANDOM = new SecureRandom();

    private Uuids() {}

    /** A new id whose first 48 bits are the milliseconds of {@code instant}. */
    public static UUID next(Instant instant) {
        long millis = instant.toEpochMilli();
        long high = (millis << 16) | 0x7000L | (RANDOM.nextLong() & 0x0FFFL);
        long low = 0x8000000000000000L | (RANDOM.nextLong() & 0x3FFFFFFFFFFFFFFFL);
        return new UUID(high, low);
    }
}

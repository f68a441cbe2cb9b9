package app.tankround.chemistry;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The instrument or kit that a reading was taken with, with everything that a verdict needs of it.
 *
 * @param history its facts, checks and falls
 * @param kit whether it is a test kit, which may go unchecked
 * @param expiresAtEpochMilli from when on it is past its shelf life, in milliseconds since 1970-01-01T00:00Z
 * @param rangeLow where its scale begins, if anybody said so
 * @param rangeHigh where its scale ends, likewise
 * @param suspicions every time that it was suspect
 */
public record ReadInstrument(
        InstrumentHistory history,
        boolean kit,
        @Nullable Long expiresAtEpochMilli,
        @Nullable Double rangeLow,
        @Nullable Double rangeHigh,
        List<Suspicion> suspicions) {

    public ReadInstrument {
        suspicions = List.copyOf(suspicions);
    }

    boolean isUncheckedKit() {
        return kit && history.checks().isEmpty();
    }

    boolean isExpired(long epochMilli) {
        return expiresAtEpochMilli != null && epochMilli >= expiresAtEpochMilli;
    }

    boolean isBeyondScale(double value) {
        return (rangeLow != null && value < rangeLow) || (rangeHigh != null && value > rangeHigh);
    }

    /** What others than its checks said of it at an instant, the graver where two did; absent where it is in use. */
    @Nullable InstrumentStatus suspectedAt(long epochMilli) {
        @Nullable InstrumentStatus gravest = null;
        for (Suspicion suspicion : suspicions) {
            @Nullable InstrumentStatus said = suspicion.at(epochMilli);
            gravest = gravest == InstrumentStatus.CONDEMNED || said == null ? gravest : said;
        }
        return gravest;
    }
}

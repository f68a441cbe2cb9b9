package app.tankround.socks.web;

import app.tankround.web.FormReader;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A count of the socks of one item at one place, as typed.
 *
 * @param id made when the form is shown
 */
record SockCountForm(
        @Nullable UUID id,
        @Nullable String which,
        @Nullable String counted,
        @Nullable String why) {

    private static final int MOST = 1_000_000;

    /** What was counted where, and why that is not what the ledger has. */
    record Counted(UUID id, SocksAt at, int count, String why) {}

    static SockCountForm blank(UUID id, @Nullable String which) {
        return new SockCountForm(id, which, null, null);
    }

    Optional<Counted> toCommand(FormReader reader) {
        Optional<SocksAt> at = reader.read(() -> SocksAt.require(which));
        Optional<Integer> many = reader.requiredWhole("counted", counted, 0, MOST);
        if (!reader.accepted() || id == null) {
            return Optional.empty();
        }
        return Optional.of(new Counted(
                id,
                at.orElseThrow(),
                many.orElseThrow(),
                Optional.ofNullable(why).orElse("")));
    }
}

package app.tankround.socks.web;

import app.tankround.socks.SocksTakenOut;
import app.tankround.stock.StockAccountKind;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Socks that are used no more, as typed.
 *
 * @param id made when the form is shown
 */
record TakeOutForm(
        @Nullable UUID id,
        @Nullable String which,
        @Nullable String count,
        @Nullable String to,
        @Nullable String tags,
        @Nullable String why) {

    /** More than anybody has of one item at one place. */
    private static final int MOST = 100_000;

    static TakeOutForm blank(UUID id, @Nullable String which) {
        return new TakeOutForm(id, which, null, StockAccountKind.RETIRED.name(), null, null);
    }

    Optional<SocksTakenOut> toCommand(FormReader reader) {
        Optional<SocksAt> at = reader.read(() -> SocksAt.require(which));
        Optional<Integer> many = reader.requiredWhole("count", count, 1, MOST);
        Optional<StockAccountKind> where = reader.choice("to", to, StockAccountKind.class);
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new SocksTakenOut(
                Optional.ofNullable(id).orElseThrow(() -> new FieldRefusal("", "stock.choice-missing")),
                at.orElseThrow().item(),
                at.orElseThrow().account(),
                many.orElseThrow(),
                where.orElseThrow(),
                TagsForm.lines(tags),
                Optional.ofNullable(why).orElse("")));
    }
}

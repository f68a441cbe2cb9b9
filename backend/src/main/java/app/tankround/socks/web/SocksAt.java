package app.tankround.socks.web;

import app.tankround.stock.StockAccount;
import app.tankround.stock.StockItemId;
import app.tankround.web.FieldRefusal;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The socks of one item at one place, as a choice of a form names them. */
record SocksAt(StockItemId item, StockAccount account) {

    String code() {
        return item + "@" + account.code();
    }

    /** @throws FieldRefusal at {@code which} where nothing was chosen */
    static SocksAt require(@Nullable String code) {
        return Optional.ofNullable(code)
                .map(text -> text.split("@", 2))
                .filter(parts -> parts.length == 2)
                .flatMap(parts -> StockAccount.ofCode(parts[1])
                        .flatMap(account -> item(parts[0]).map(item -> new SocksAt(item, account))))
                .orElseThrow(() -> new FieldRefusal("which", "stock.choice-missing"));
    }

    private static Optional<StockItemId> item(String text) {
        try {
            return Optional.of(StockItemId.of(UUID.fromString(text)));
        } catch (IllegalArgumentException none) {
            return Optional.empty();
        }
    }
}

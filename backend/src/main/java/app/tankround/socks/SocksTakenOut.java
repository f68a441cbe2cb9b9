package app.tankround.socks;

import app.tankround.stock.StockAccount;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockItemId;
import java.util.List;
import java.util.UUID;

/**
 * Socks that are used no more.
 *
 * @param id made when the page is shown, so that two taps take out once
 * @param from where they were
 * @param to retired, broken or lost
 * @param tags of those among them that carry one
 * @param why in words, 1 to 500 characters
 */
public record SocksTakenOut(
        UUID id, StockItemId item, StockAccount from, int count, StockAccountKind to, List<String> tags, String why) {

    public SocksTakenOut {
        tags = List.copyOf(tags);
    }
}

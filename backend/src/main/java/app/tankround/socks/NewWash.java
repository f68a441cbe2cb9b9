package app.tankround.socks;

import app.tankround.stock.StockItemId;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/**
 * A load that goes into the machine.
 *
 * @param id made when the page is shown, so that two taps start one
 * @param apart whether it is of those that are kept apart
 * @param counts how many of each item; 0 or more, at least 1 in all, as many as the machine takes at most
 * @param tags of those among them that carry one
 */
public record NewWash(UUID id, boolean apart, Map<StockItemId, Integer> counts, List<String> tags) {

    public NewWash {
        counts = Map.copyOf(counts);
        tags = List.copyOf(tags);
    }
}

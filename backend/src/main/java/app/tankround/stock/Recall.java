package app.tankround.stock;

import java.util.List;

/**
 * Where a lot is and where it went.
 *
 * @param there what still lies somewhere
 * @param went by when it went, newest first
 */
public record Recall(StockLotView lot, StockItemView item, List<StockBalance> there, List<LotUse> went) {}

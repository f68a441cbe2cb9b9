package app.tankround.stock;

import java.util.List;

/** Tells where something of a lot went that the ledger does not know of; implemented by whoever makes something of it. */
public interface LotUses {

    List<LotUse> usesOf(StockLotView lot);
}

package app.tankround.socks;

import app.tankround.stock.StockItemId;

/**
 * A sock that carries a tag of its own and is still in use.
 *
 * @param washes how often it was washed
 */
public record SockTag(String tag, StockItemId item, int washes) {}

package app.tankround.stock;

/**
 * What is dangerous about a product; its usual cautions are words for pages ({@code stock.hazard.X.note}). The label, the
 * safety data sheet and local codes go before them.
 */
public enum StockHazard {
    NONE,
    /** Calcium hydroxide: burns skin and, deeply, eyes (ICSC 0408). */
    LIME,
    ACID,
    /** Anhydrous calcium chloride: heats strongly as it dissolves. */
    CALCIUM_CHLORIDE,
    /** Bleach: gives off chlorine with acids. */
    HYPOCHLORITE,
    /** A drug for animals. */
    TREATMENT,
    OTHER
}

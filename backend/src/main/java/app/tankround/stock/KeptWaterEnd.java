package app.tankround.stock;

/** What became of water that waited in its drums. */
public enum KeptWaterEnd {
    /** It went out with a round again. */
    LOADED,
    /** It was poured away. */
    AWAY,
    /** It was poured into a vat. */
    VAT
}

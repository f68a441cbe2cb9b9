package app.tankround.stock;

/** What a supply system is to the water plan. */
public enum VatRole {
    /** A tank that purified water runs into. */
    PURIFIED,
    /** A vat in which salt water is mixed. */
    MIXING
}

package app.tankround.stock;

import java.util.List;

/** What sort of thing lies on the shelf, with the units it may be counted in, the usual one first. */
public enum StockKind {
    /** A salt mix for salt water. */
    SALT("kg"),
    /** Clean filter socks of one diameter. */
    SOCK("count"),
    MEDIA("g", "kg", "mL", "L", "count"),
    /** Whatever is dosed: solutions, powders, conditioner, feed. */
    DOSE("mL", "L", "g", "kg"),
    /** A set for one quantity; its name is that of the {@link app.tankround.units.Quantity}. */
    TEST_KIT("count");

    private final List<String> units;

    StockKind(String... units) {
        this.units = List.of(units);
    }

    public List<String> units() {
        return units;
    }
}

package app.tankround.schedule;

import java.util.List;

/** What can be agreed to be done at a visit, with the units its amount may be written in. */
public enum TaskKind {
    /** Part of the net volume, in percent, or litres. */
    WATER_CHANGE("%", "L"),
    /** Replacing evaporated water; without an amount, what is missing. */
    TOP_UP("L"),
    /** Filter socks: how many, of which size, swapped every so many days. */
    SOCK_SWAP("count"),
    /** Clean filter socks that are left with the client, who swaps them before the next visit. */
    SOCKS_LEFT("count"),
    /** A {@link app.tankround.units.Quantity} to measure. */
    TEST(),
    /** A product to dose. */
    DOSE("mL", "g"),
    /** A filter medium to change. */
    MEDIA("g", "mL", "L", "count"),
    /** Any other work, in words. */
    WORK();

    private final List<String> units;

    TaskKind(String... units) {
        this.units = List.of(units);
    }

    /** Codes of the units an amount may have, the usual one first; empty if the task has no amount. */
    public List<String> units() {
        return units;
    }
}

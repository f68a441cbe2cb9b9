package app.tankround.accounts;

import java.util.UUID;

/** A base of the business, where vans start and water is made. */
public record DepotId(UUID value) {

    public static DepotId of(UUID value) {
        return new DepotId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static DepotId parse(String text) {
        return new DepotId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}

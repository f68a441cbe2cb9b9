package app.tankround.accounts;

import java.util.UUID;

/** Who signs in and does the work. */
public record PersonId(UUID value) {

    public static PersonId of(UUID value) {
        return new PersonId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static PersonId parse(String text) {
        return new PersonId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}

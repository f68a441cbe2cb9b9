package app.tankround.schedule;

import java.util.UUID;

/** What was agreed for one water system. */
public record AgreementId(UUID value) {

    public static AgreementId of(UUID value) {
        return new AgreementId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static AgreementId parse(String text) {
        return new AgreementId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}

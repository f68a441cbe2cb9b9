package app.tankround.documents;

import java.util.UUID;

/** One version of a document. */
public record DocumentVersionId(UUID value) {

    public static DocumentVersionId of(UUID value) {
        return new DocumentVersionId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static DocumentVersionId parse(String text) {
        return new DocumentVersionId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}

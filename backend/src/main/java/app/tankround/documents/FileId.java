package app.tankround.documents;

import java.util.UUID;

/** Stored bytes such as a photo or a PDF. */
public record FileId(UUID value) {

    public static FileId of(UUID value) {
        return new FileId(value);
    }

    /** @throws IllegalArgumentException if the text is no UUID */
    public static FileId parse(String text) {
        return new FileId(UUID.fromString(text));
    }

    @Override
    public String toString() {
        return value.toString();
    }
}

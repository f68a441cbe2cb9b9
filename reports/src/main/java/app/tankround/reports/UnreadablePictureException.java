package app.tankround.reports;

import org.jspecify.annotations.Nullable;

/** A picture cannot be put into a document: it is neither JPEG nor PNG, is damaged, or is too large to open safely. */
public final class UnreadablePictureException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** Why the picture was refused. */
    public enum Reason {
        /** The bytes are not a JPEG or PNG file. */
        NOT_JPEG_OR_PNG,
        /** The file begins like a picture, but its content cannot be decoded. */
        DAMAGED,
        /** More than {@value Pictures#MAX_PIXELS} pixels. */
        TOO_LARGE
    }

    private final Reason reason;
    private final String alternativeText;

    UnreadablePictureException(Reason reason, String alternativeText, @Nullable Throwable cause) {
        super("Picture \"" + alternativeText + "\" refused: " + reason, cause);
        this.reason = reason;
        this.alternativeText = alternativeText;
    }

    public Reason reason() {
        return reason;
    }

    /** Tells which picture it was. */
    public String alternativeText() {
        return alternativeText;
    }
}

package app.tankround.reports;

/**
 * A photo or drawing as it was stored. The writer turns it upright, scales it down to what paper can show and leaves
 * its metadata out, so that a document never carries the place where a photo was taken.
 *
 * @param bytes a JPEG or PNG file; not changed after it was handed over
 * @param alternativeText what the picture shows, for those who cannot see it; not blank
 */
public record Picture(byte[] bytes, String alternativeText) {

    /** @throws IllegalArgumentException if there are no bytes or no words */
    public Picture {
        if (bytes.length == 0) {
            throw new IllegalArgumentException("A picture needs its bytes");
        }
        Texts.requireText("alternative text of a picture", alternativeText);
    }
}

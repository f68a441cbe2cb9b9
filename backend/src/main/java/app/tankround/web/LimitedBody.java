package app.tankround.web;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;

/** Reads what was sent up to a limit. */
public final class LimitedBody {

    /** So much more is read and thrown away, since a sender hears no refusal before everything is sent. */
    private static final long MOST_DISCARDED = 64L * 1024 * 1024;

    private LimitedBody() {}

    /** The body; empty if it is longer than {@code most} bytes. */
    public static Optional<byte[]> read(HttpServletRequest request, int most) throws IOException {
        InputStream input = request.getInputStream();
        byte[] body = input.readNBytes(most + 1);
        if (body.length <= most) {
            return Optional.of(body);
        }
        byte[] rest = new byte[8192];
        long discarded = 0;
        int read = input.read(rest);
        while (read >= 0 && discarded < MOST_DISCARDED) {
            discarded += read;
            read = input.read(rest);
        }
        return Optional.empty();
    }
}

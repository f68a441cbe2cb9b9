package app.tankround.persistence;

import java.security.SecureRandom;
import java.util.Base64;

/** Texts that nobody can guess, as addresses and headers carry them (RFC 4648, 5, without padding). */
public final class SecretText {

    private static final SecureRandom RANDOM = new SecureRandom();

    private SecretText() {}

    /** A new one of so many random bytes. */
    public static String of(int bytes) {
        byte[] random = new byte[bytes];
        RANDOM.nextBytes(random);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(random);
    }
}

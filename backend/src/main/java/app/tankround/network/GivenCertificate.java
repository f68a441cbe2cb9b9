package app.tankround.network;

import app.tankround.persistence.StartFailure;
import java.io.IOException;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.PrivateKey;
import java.security.Signature;
import java.security.cert.X509Certificate;
import java.util.Optional;

/** A certificate that somebody else makes and renews, given by its files; what they hold now is what counts. */
final class GivenCertificate implements CertificateSource {

    private final Path certificate;
    private final Path key;

    /** @param key may be the same file */
    GivenCertificate(Path certificate, Path key) {
        this.certificate = certificate;
        this.key = key;
    }

    @Override
    public Identity current() {
        try {
            Identity identity = PemFile.read(certificate, key);
            if (!belongTogether(identity.certificate(), identity.key())) {
                throw new IllegalArgumentException("the key of another certificate");
            }
            return identity;
        } catch (IOException e) {
            throw refusal("cannot be read: " + e.getClass().getSimpleName() + " " + e.getMessage(), e);
        } catch (IllegalArgumentException e) {
            throw refusal("are no certificate with its key", e);
        }
    }

    @Override
    public Optional<X509Certificate> authority() {
        return Optional.empty();
    }

    private StartFailure refusal(String what, Exception cause) {
        return new StartFailure(
                "The files for HTTPS, %s and %s, %s.".formatted(certificate, key, what),
                "Name PEM files that the user who runs this program may read: with tankround.https.certificate the"
                        + " certificate followed by those above it, with tankround.https.private-key its key, without a"
                        + " password. Without both the program makes a certificate of its own.",
                cause);
    }

    private static boolean belongTogether(X509Certificate certificate, PrivateKey key) {
        try {
            Signature signature = Signature.getInstance(
                    switch (key.getAlgorithm()) {
                        case "EC" -> "SHA256withECDSA";
                        case "RSA" -> "SHA256withRSA";
                        default -> key.getAlgorithm();
                    });
            byte[] something = certificate.getEncoded();
            signature.initSign(key);
            signature.update(something);
            byte[] signed = signature.sign();
            signature.initVerify(certificate.getPublicKey());
            signature.update(something);
            return signature.verify(signed);
        } catch (GeneralSecurityException differentKinds) {
            return false;
        }
    }
}

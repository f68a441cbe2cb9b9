package app.tankround.network;

import app.tankround.persistence.StartFailure;
import java.security.cert.X509Certificate;
import java.util.Optional;

/** Where the certificate for HTTPS comes from. */
interface CertificateSource {

    /**
     * What the server is to prove itself with now; another than a moment ago where it was renewed.
     *
     * @throws StartFailure if a file cannot be read or written, or is not what it should be
     */
    Identity current();

    /** The authority that devices have to be told to trust; none where they trust it anyway. */
    Optional<X509Certificate> authority();
}

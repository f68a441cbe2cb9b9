package app.tankround.network;

import java.security.PrivateKey;
import java.security.cert.X509Certificate;
import java.util.List;

/**
 * What a server or an authority proves itself with.
 *
 * @param chain its certificate, followed by those that certify it, if any are to be shown
 */
record Identity(List<X509Certificate> chain, PrivateKey key) {

    Identity {
        chain = List.copyOf(chain);
    }

    X509Certificate certificate() {
        return chain.getFirst();
    }
}

package app.tankround.network;

import java.net.InetAddress;
import java.security.cert.CertificateParsingException;
import java.security.cert.X509Certificate;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** The names that a certificate stands for (RFC 5280, 4.2.1.6). */
final class Alternatives {

    /** A host name, as the standard numbers the kinds. */
    static final int HOST = 2;

    private static final int ADDRESS = 7;

    private Alternatives() {}

    static List<String> hosts(X509Certificate certificate) {
        return ofKind(HOST, certificate).toList();
    }

    /** Host names, and addresses as Java writes them. */
    static Set<String> all(X509Certificate certificate) {
        return Stream.concat(
                        ofKind(HOST, certificate),
                        ofKind(ADDRESS, certificate)
                                .map(address -> InetAddress.ofLiteral(address).getHostAddress()))
                .collect(Collectors.toSet());
    }

    private static Stream<String> ofKind(int kind, X509Certificate certificate) {
        try {
            @Nullable Collection<List<?>> names = certificate.getSubjectAlternativeNames();
            return names == null
                    ? Stream.empty()
                    : names.stream()
                            .filter(name -> Integer.valueOf(kind).equals(name.getFirst()))
                            .map(name -> (String) name.get(1));
        } catch (CertificateParsingException unreadable) {
            return Stream.empty();
        }
    }
}

package app.tankround.network;

import java.net.Inet6Address;
import java.net.InetAddress;
import org.apache.tomcat.util.net.IPv6Utils;

/** Addresses as people are shown and type them; Java writes out every zero of one of IPv6. */
final class AddressText {

    private AddressText() {}

    /** Of IPv4 with dots, of IPv6 in the one form of RFC 5952, such as {@code fd00::2}, without its interface. */
    static String of(InetAddress address) {
        String written = address.getHostAddress();
        return address instanceof Inet6Address ? IPv6Utils.canonize(written.split("%", 2)[0]) : written;
    }

    /** As the host of a URI: of IPv6 in square brackets (RFC 3986, 3.2.2). */
    static String inUri(InetAddress address) {
        return address instanceof Inet6Address ? "[" + of(address) + "]" : of(address);
    }
}

package app.tankround.network;

import app.tankround.persistence.StartFailure;
import java.net.InetAddress;
import java.util.Arrays;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** The reverse proxies whose word about a request is taken, by the address that they call from. */
record NamedProxies(Set<InetAddress> addresses) {

    /** @throws StartFailure if it is anything but addresses; names are not taken, since a name server could lie */
    static NamedProxies of(String written) {
        return new NamedProxies(Arrays.stream(written.split(","))
                .map(String::strip)
                .filter(address -> !address.isEmpty())
                .map(NamedProxies::address)
                .collect(Collectors.toUnmodifiableSet()));
    }

    boolean include(InetAddress address) {
        return addresses.contains(address);
    }

    /** All of them, as Tomcat writes addresses; nothing fits where there are none. */
    String pattern() {
        return addresses.isEmpty()
                ? "(?!)"
                : addresses.stream()
                        .map(address -> Pattern.quote(address.getHostAddress()))
                        .collect(Collectors.joining("|"));
    }

    private static InetAddress address(String written) {
        try {
            return InetAddress.ofLiteral(written);
        } catch (IllegalArgumentException noAddress) {
            throw new StartFailure(
                    "tankround.proxies names “%s”, which is no IP address.".formatted(written),
                    "Name the addresses from which your reverse proxies call, such as --tankround.proxies=192.168.1.2.",
                    noAddress);
        }
    }
}

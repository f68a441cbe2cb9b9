package app.tankround.network;

import java.net.InetAddress;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;

/**
 * What others on the local network call this machine.
 *
 * @param hosts its host names, without {@code localhost}; the one under {@code .local} is what multicast DNS (RFC 6762)
 *     answers to
 * @param addresses its private addresses (RFC 1918, RFC 4193), without loopback; the likeliest to be reached comes first
 */
public record MachineNames(List<String> hosts, List<InetAddress> addresses) {

    /** Top-level name of multicast DNS. */
    static final String LOCAL = "local";

    /** Letters, digits and hyphens (RFC 1123, 2.1): anything else is in no certificate. */
    private static final Pattern HOST =
            Pattern.compile("(?!.{254})[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?(\\.[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?)*");

    public MachineNames {
        hosts = List.copyOf(hosts);
        addresses = List.copyOf(addresses);
    }

    /** Of a machine that calls itself so; a name that can stand in no certificate is left out. */
    static MachineNames of(String machine, List<InetAddress> addresses) {
        String name = machine.strip().toLowerCase(Locale.ROOT);
        if (!HOST.matcher(name).matches() || name.equals("localhost")) {
            return new MachineNames(List.of(), addresses);
        }
        String first = name.split("\\.", 2)[0];
        Set<String> hosts = new TreeSet<>(Set.of(first + "." + LOCAL));
        hosts.add(name);
        hosts.add(first);
        return new MachineNames(List.copyOf(hosts), addresses);
    }
}

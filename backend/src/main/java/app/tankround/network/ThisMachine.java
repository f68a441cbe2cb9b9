package app.tankround.network;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.DatagramSocket;
import java.net.Inet4Address;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.UnknownHostException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import org.springframework.stereotype.Component;

/** Asks the operating system, and no name server: that could take seconds. */
@Component
class ThisMachine implements Machine {

    private static final Path KERNEL_NAME = Path.of("/proc/sys/kernel/hostname");

    /** Of the range for documentation (RFC 5737); nothing is ever sent there. */
    private static final InetSocketAddress ELSEWHERE = new InetSocketAddress(InetAddress.ofLiteral("198.51.100.1"), 9);

    @Override
    public MachineNames names() {
        try {
            String name = Files.exists(KERNEL_NAME)
                    ? Files.readString(KERNEL_NAME)
                    : InetAddress.getLocalHost().getHostName();
            return MachineNames.of(name, addresses());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<InetAddress> addresses() throws SocketException {
        InetAddress outward = outward();
        return NetworkInterface.networkInterfaces()
                .flatMap(NetworkInterface::inetAddresses)
                .filter(ThisMachine::isPrivate)
                .map(ThisMachine::withoutInterface)
                .distinct()
                .sorted(Comparator.comparing((InetAddress address) -> !address.equals(outward))
                        .thenComparing(address -> address instanceof Inet6Address))
                .toList();
    }

    private static boolean isPrivate(InetAddress address) {
        return address instanceof Inet4Address
                ? address.isSiteLocalAddress()
                : (address.getAddress()[0] & 0xfe) == 0xfc;
    }

    /** Java knows on which interface an address of IPv6 is; a certificate does not. */
    private static InetAddress withoutInterface(InetAddress address) {
        try {
            return InetAddress.getByAddress(address.getAddress());
        } catch (UnknownHostException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    /** The address from which the machine would speak to others: that of the network that it is really on. */
    private static InetAddress outward() throws SocketException {
        try (var socket = new DatagramSocket()) {
            socket.connect(ELSEWHERE);
            return socket.getLocalAddress();
        } catch (IOException noNetwork) {
            return InetAddress.getLoopbackAddress();
        }
    }
}

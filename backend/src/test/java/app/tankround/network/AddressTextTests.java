package app.tankround.network;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AddressTextTests {

    /** The examples of RFC 5952, 4.1 to 4.3 and 5; the last but one is a private address of RFC 4193. */
    @ParameterizedTest
    @CsvSource({
        "2001:0db8::0001, 2001:db8::1",
        "2001:db8:0:0:0:0:2:1, 2001:db8::2:1",
        "2001:db8:0:1:1:1:1:1, 2001:db8:0:1:1:1:1:1",
        "2001:0:0:1:0:0:0:1, 2001:0:0:1::1",
        "2001:db8:0:0:1:0:0:1, 2001:db8::1:0:0:1",
        "2001:DB8:0:0:0:0:0:AAAA, 2001:db8::aaaa",
        "fd00:0:0:0:0:0:0:2, fd00::2",
        "0:0:0:0:0:0:0:1, ::1"
    })
    void writesAnAddressOfIpv6InItsOneForm(String any, String one) {
        assertThat(AddressText.of(InetAddress.ofLiteral(any))).isEqualTo(one);
        assertThat(AddressText.inUri(InetAddress.ofLiteral(any))).isEqualTo("[" + one + "]");
    }

    @Test
    void leavesAnAddressOfIpv4AsItIs() {
        assertThat(AddressText.of(InetAddress.ofLiteral("192.168.0.10"))).isEqualTo("192.168.0.10");
        assertThat(AddressText.inUri(InetAddress.ofLiteral("192.168.0.10"))).isEqualTo("192.168.0.10");
    }

    @Test
    void leavesTheInterfaceToTheMachineThatHasIt() {
        assertThat(AddressText.of(InetAddress.ofLiteral("fe80::1%1"))).isEqualTo("fe80::1");
    }
}

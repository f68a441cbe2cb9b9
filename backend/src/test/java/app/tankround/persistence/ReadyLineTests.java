package app.tankround.persistence;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import org.junit.jupiter.api.Test;

class ReadyLineTests {

    @Test
    void saysAnAddressThatABrowserTakes() {
        assertThat(ReadyLine.uri("http", null, 8080)).hasToString("http://127.0.0.1:8080");
        assertThat(ReadyLine.uri("http", InetAddress.ofLiteral("0:0:0:0:0:0:0:1"), 8080))
                .hasToString("http://[::1]:8080");
        assertThat(ReadyLine.uri("https", InetAddress.ofLiteral("10.0.0.4"), 8443))
                .hasToString("https://10.0.0.4:8443");
    }
}

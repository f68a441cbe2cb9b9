package app.tankround.network;

import java.net.InetAddress;
import java.util.ArrayList;
import java.util.List;
import org.springframework.boot.test.context.TestConfiguration;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Primary;

/** This machine, until a test gives it other names. */
@TestConfiguration(proxyBeanMethods = false)
class MachineOfTests {

    static final class Movable implements Machine {

        private final ThisMachine real = new ThisMachine();
        private volatile List<InetAddress> more = List.of();

        void alsoAt(String... addresses) {
            more = List.of(addresses).stream().map(InetAddress::ofLiteral).toList();
        }

        @Override
        public MachineNames names() {
            MachineNames names = real.names();
            var all = new ArrayList<>(names.addresses());
            all.addAll(more);
            return new MachineNames(names.hosts(), all);
        }
    }

    @Bean
    @Primary
    Movable movableMachine() {
        return new Movable();
    }
}

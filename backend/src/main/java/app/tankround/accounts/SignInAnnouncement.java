package app.tankround.accounts;

import app.tankround.persistence.DataDirectory;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.ApplicationContext;
import org.springframework.context.event.EventListener;
import org.springframework.core.annotation.Order;
import org.springframework.stereotype.Component;

/**
 * Tells whoever started the program how to sign in, since there is no default password: lines on standard output, and
 * the same lines in a file that only its owner can read.
 */
@Component
public class SignInAnnouncement {

    private static final String FILE = "sign-in-links.txt";

    private final People people;
    private final SignInLinks links;
    private final DataDirectory dataDirectory;
    private final ApplicationContext context;

    SignInAnnouncement(People people, SignInLinks links, DataDirectory dataDirectory, ApplicationContext context) {
        this.people = people;
        this.links = links;
        this.dataDirectory = dataDirectory;
        this.context = context;
    }

    /** While there is no owner, every start makes a new link for the first one. */
    @EventListener(ApplicationReadyEvent.class)
    @Order(100)
    void announceFirstOwner() {
        if (!people.hasOwner()) {
            announce(List.of("sign-in OWNER first-owner " + address("/first-owner/" + links.tokenForFirstOwner())));
        }
    }

    /** A new link for each person who may sign in. */
    public void announceEveryone() {
        announce(people.all().stream()
                .filter(PersonView::active)
                .map(person -> "sign-in %s %s %s"
                        .formatted(
                                person.role(),
                                person.signInName(),
                                address("/sign-in/once/" + links.tokenFor(person.id()))))
                .toList());
    }

    /** The address of a path on this machine. */
    private String address(String path) {
        var server = context instanceof WebServerApplicationContext web ? web.getWebServer() : null;
        int port = server == null ? 8080 : server.getPort();
        return "http://localhost:" + port + path;
    }

    private void announce(List<String> lines) {
        lines.forEach(System.out::println);
        Path file = dataDirectory.path().resolve(FILE);
        try {
            Files.createDirectories(dataDirectory.path());
            Files.deleteIfExists(file);
            Files.createFile(file, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
            Files.write(file, lines);
        } catch (IOException unwritable) {
            throw new UncheckedIOException(unwritable);
        }
    }
}

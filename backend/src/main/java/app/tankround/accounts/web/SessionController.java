package app.tankround.accounts.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonView;
import java.util.List;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.security.web.csrf.CsrfToken;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Tells a script who is signed in and how to send changes. */
@RestController
class SessionController {

    record Csrf(String headerName, String token) {}

    record Place(String href, String label) {}

    record SessionJson(String user, String name, String role, List<Place> navigation, Csrf csrf) {}

    private final CurrentPerson currentPerson;
    private final Navigation navigation;
    private final MessageSource messages;

    SessionController(CurrentPerson currentPerson, Navigation navigation, MessageSource messages) {
        this.currentPerson = currentPerson;
        this.navigation = navigation;
        this.messages = messages;
    }

    @GetMapping("/api/session")
    SessionJson session(CsrfToken csrf, Locale locale) {
        PersonView person = currentPerson.require();
        return new SessionJson(
                person.signInName(),
                person.name(),
                person.role().name(),
                navigation.visibleTo(person).stream()
                        .map(item -> new Place(item.href(), messages.getMessage(item.labelKey(), null, locale)))
                        .toList(),
                new Csrf(csrf.getHeaderName(), csrf.getToken()));
    }
}

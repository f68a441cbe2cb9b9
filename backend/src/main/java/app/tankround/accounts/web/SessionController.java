package app.tankround.accounts.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonView;
import org.springframework.security.web.csrf.CsrfToken;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Tells a script who is signed in and how to send changes. */
@RestController
class SessionController {

    record Csrf(String headerName, String token) {}

    record SessionJson(String user, String name, String role, Csrf csrf) {}

    private final CurrentPerson currentPerson;

    SessionController(CurrentPerson currentPerson) {
        this.currentPerson = currentPerson;
    }

    @GetMapping("/api/session")
    SessionJson session(CsrfToken csrf) {
        PersonView person = currentPerson.require();
        return new SessionJson(
                person.signInName(),
                person.name(),
                person.role().name(),
                new Csrf(csrf.getHeaderName(), csrf.getToken()));
    }
}

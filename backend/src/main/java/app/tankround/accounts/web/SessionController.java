package app.tankround.accounts.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonView;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.security.web.csrf.CsrfToken;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;

/** Tells a script who is signed in, how to send changes, and what time it is where the business is. */
@RestController
class SessionController {

    record Csrf(String headerName, String token) {}

    record Place(String href, String label) {}

    /**
     * @param now instant by the server's clock, since a device's may be days off
     * @param zone of the business
     */
    record SessionJson(
            String user, String name, String role, List<Place> navigation, Csrf csrf, String now, String zone) {}

    private final CurrentPerson currentPerson;
    private final Navigation navigation;
    private final MessageSource messages;
    private final BusinessProfile business;
    private final Clock clock;

    SessionController(
            CurrentPerson currentPerson,
            Navigation navigation,
            MessageSource messages,
            BusinessProfile business,
            Clock clock) {
        this.currentPerson = currentPerson;
        this.navigation = navigation;
        this.messages = messages;
        this.business = business;
        this.clock = clock;
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
                new Csrf(csrf.getHeaderName(), csrf.getToken()),
                clock.instant().toString(),
                business.find()
                        .map(BusinessSettings::zone)
                        .orElseGet(clock::getZone)
                        .getId());
    }
}

package app.tankround.accounts.web;

import app.tankround.accounts.ApplicationPasswords;
import app.tankround.accounts.ApplicationPasswords.Made;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonView;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpStatus;
import org.springframework.web.bind.annotation.DeleteMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;

/** Application passwords of whoever is signed in with a session; an application password makes no others. */
@RestController
class ApplicationPasswordsController {

    record NameJson(@Nullable String name) {}

    /**
     * A new application password.
     *
     * @param user the user name of HTTP Basic
     * @param password shown this once
     */
    record MadeJson(UUID id, String name, String user, String password, Instant madeAt) {}

    private final ApplicationPasswords passwords;
    private final CurrentPerson currentPerson;

    ApplicationPasswordsController(ApplicationPasswords passwords, CurrentPerson currentPerson) {
        this.passwords = passwords;
        this.currentPerson = currentPerson;
    }

    @PostMapping("/api/application-passwords")
    @ResponseStatus(HttpStatus.CREATED)
    MadeJson make(@RequestBody NameJson body) {
        PersonView person = currentPerson.require();
        Made made = passwords.make(person.id(), body.name() == null ? "" : body.name());
        return new MadeJson(made.id(), made.name(), person.signInName(), made.secret(), made.madeAt());
    }

    @DeleteMapping("/api/application-passwords/{id}")
    @ResponseStatus(HttpStatus.NO_CONTENT)
    void revoke(@PathVariable UUID id) {
        passwords.revoke(currentPerson.require().id(), id);
    }
}

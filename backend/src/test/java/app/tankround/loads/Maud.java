package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.security.test.web.servlet.request.SecurityMockMvcRequestPostProcessors.authentication;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.NewPerson;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.Role;
import java.util.Locale;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.springframework.boot.test.context.TestComponent;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.test.web.servlet.assertj.MockMvcTester;
import org.springframework.test.web.servlet.assertj.MvcTestResult;

/** Somebody of the office who loads vans. */
@TestComponent
class Maud {

    private static final String SIGN_IN_NAME = "loading-maud";

    private final MockMvcTester pages;
    private final People people;
    private final CurrentPerson currentPerson;

    Maud(MockMvcTester pages, People people, CurrentPerson currentPerson) {
        this.pages = pages;
        this.people = people;
        this.currentPerson = currentPerson;
    }

    <T> T does(Callable<T> work) throws Exception {
        return currentPerson.actingAs(id(), work);
    }

    Authentication signedIn() {
        try {
            return does(() ->
                    Objects.requireNonNull(SecurityContextHolder.getContext().getAuthentication()));
        } catch (Exception impossible) {
            throw new AssertionError(impossible);
        }
    }

    MvcTestResult opens(String address) {
        return pages.get().uri(address).with(authentication(signedIn())).exchange();
    }

    /** What a page says, with spaces where lines must not break. */
    static String text(MvcTestResult result) throws Exception {
        assertThat(result).doesNotHaveFailed();
        return result.getResponse().getContentAsString().replace('\u00a0', ' ');
    }

    private PersonId id() {
        return people.findBySignInName(SIGN_IN_NAME)
                .map(person -> person.id())
                .orElseGet(() -> people.add(new NewPerson(
                        PersonId.of(UUID.randomUUID()), SIGN_IN_NAME, "Maud", Role.OFFICE, Locale.ENGLISH)));
    }
}

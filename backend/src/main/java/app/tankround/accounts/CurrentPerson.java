package app.tankround.accounts;

import java.util.Optional;
import java.util.concurrent.Callable;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.stereotype.Component;

/** Who is signed in on this thread. */
@Component
public class CurrentPerson {

    private final Persons persons;

    CurrentPerson(Persons persons) {
        this.persons = persons;
    }

    public Optional<PersonId> id() {
        return principal().map(person -> PersonId.of(person.id()));
    }

    public Optional<PersonView> find() {
        return id().flatMap(persons::findById).map(Person::view);
    }

    /** @throws IllegalStateException if nobody is signed in, which no page behind sign-in sees */
    public PersonView require() {
        return find().orElseThrow(() -> new IllegalStateException("nobody is signed in"));
    }

    /** Does {@code work} in the name of a person, as jobs and imports need. */
    public <T> T actingAs(PersonId id, Callable<T> work) throws Exception {
        Person person = persons.findById(id).orElseThrow(() -> new IllegalArgumentException("no person " + id));
        SecurityContext before = SecurityContextHolder.getContext();
        try {
            var principal = SignedInPerson.of(person).forSession();
            SecurityContext context = SecurityContextHolder.createEmptyContext();
            context.setAuthentication(
                    UsernamePasswordAuthenticationToken.authenticated(principal, null, principal.getAuthorities()));
            SecurityContextHolder.setContext(context);
            return work.call();
        } finally {
            SecurityContextHolder.setContext(before);
        }
    }

    private static Optional<SignedInPerson> principal() {
        Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
        return authentication != null && authentication.getPrincipal() instanceof SignedInPerson person
                ? Optional.of(person)
                : Optional.empty();
    }
}

package app.tankround.accounts;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.context.SecurityContext;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.security.web.context.SecurityContextRepository;
import org.springframework.stereotype.Component;

/** Opens the session of somebody whose link has proven who they are. */
@Component
public class SignInSession {

    private final Persons persons;
    private final SecurityContextRepository contexts;

    SignInSession(Persons persons, SecurityContextRepository contexts) {
        this.persons = persons;
        this.contexts = contexts;
    }

    /** Signs the person in; false for somebody who may not sign in any more. */
    public boolean open(PersonId id, HttpServletRequest request, HttpServletResponse response) {
        Person person = persons.findById(id).orElse(null);
        if (person == null || !person.active()) {
            return false;
        }
        request.getSession(true);
        request.changeSessionId();
        var principal = SignedInPerson.of(person).forSession();
        SecurityContext context = SecurityContextHolder.createEmptyContext();
        context.setAuthentication(
                UsernamePasswordAuthenticationToken.authenticated(principal, null, principal.getAuthorities()));
        SecurityContextHolder.setContext(context);
        contexts.saveContext(context, request, response);
        return true;
    }
}

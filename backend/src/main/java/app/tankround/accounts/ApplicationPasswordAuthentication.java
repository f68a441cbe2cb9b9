package app.tankround.accounts;

import org.jspecify.annotations.Nullable;
import org.springframework.security.authentication.AuthenticationProvider;
import org.springframework.security.authentication.BadCredentialsException;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.Authentication;

/** Signs programs in by application password, and by nothing else: a person's own password is no use here. */
final class ApplicationPasswordAuthentication implements AuthenticationProvider {

    private final ApplicationPasswords passwords;

    ApplicationPasswordAuthentication(ApplicationPasswords passwords) {
        this.passwords = passwords;
    }

    @Override
    public Authentication authenticate(Authentication given) {
        @Nullable Object secret = given.getCredentials();
        return passwords
                .signIn(given.getName(), secret == null ? "" : secret.toString())
                .map(person -> UsernamePasswordAuthenticationToken.authenticated(person, null, person.getAuthorities()))
                .orElseThrow(() -> new BadCredentialsException("no such application password"));
    }

    @Override
    public boolean supports(Class<?> authentication) {
        return UsernamePasswordAuthenticationToken.class.isAssignableFrom(authentication);
    }
}

package app.tankround.accounts;

import java.io.Serializable;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.security.core.GrantedAuthority;
import org.springframework.security.core.authority.SimpleGrantedAuthority;
import org.springframework.security.core.userdetails.UserDetails;

/** What a session remembers of a person; it lies in the database, so its form is part of what must stay readable. */
record SignedInPerson(
        UUID id,
        String signInName,
        String roleName,
        @Nullable String passwordHash,
        boolean active) implements UserDetails, Serializable {

    static SignedInPerson of(Person person) {
        return new SignedInPerson(
                person.id().value(), person.signInName(), person.role().name(), person.passwordHash(), person.active());
    }

    /** The same person without the hash, which no session needs. */
    SignedInPerson forSession() {
        return new SignedInPerson(id, signInName, roleName, null, active);
    }

    @Override
    public Collection<? extends GrantedAuthority> getAuthorities() {
        return List.of(new SimpleGrantedAuthority("ROLE_" + roleName));
    }

    @Override
    public @Nullable String getPassword() {
        return passwordHash;
    }

    @Override
    public String getUsername() {
        return signInName;
    }

    @Override
    public boolean isEnabled() {
        return active;
    }
}

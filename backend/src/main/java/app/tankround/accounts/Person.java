package app.tankround.accounts;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;

/** Somebody who signs in. */
record Person(
        @Id PersonId id,
        String signInName,
        String name,
        Role role,
        @Nullable String passwordHash,
        Locale locale,
        boolean active,
        @Version int version) {

    Person withPasswordHash(String hash) {
        return new Person(id, signInName, name, role, hash, locale, active, version);
    }

    Person with(String newName, Role newRole, Locale newLocale, boolean nowActive, int seenVersion) {
        return new Person(id, signInName, newName, newRole, passwordHash, newLocale, nowActive, seenVersion);
    }

    PersonView view() {
        return new PersonView(id, signInName, name, role, locale, active, version);
    }
}

package app.tankround.accounts;

import java.util.Locale;

/** A person as other modules and pages see them. */
public record PersonView(
        PersonId id, String signInName, String name, Role role, Locale locale, boolean active, int version) {}

package app.tankround.accounts;

import java.util.Locale;

/**
 * Somebody to be added.
 *
 * @param id made by the caller, so that a form sent twice adds one person
 */
public record NewPerson(PersonId id, String signInName, String name, Role role, Locale locale) {}

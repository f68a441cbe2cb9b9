package app.tankround.accounts;

/** What a person may do that most may not. */
public enum Skill {
    /** Licensed to work on electrical installations, by the rules of the place. */
    ELECTRICIAN,
    /** May dive at work, by the rules of the place. */
    DIVING
}

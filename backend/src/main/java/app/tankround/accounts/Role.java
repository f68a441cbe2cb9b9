package app.tankround.accounts;

/** What a person may do. Rights follow from the role alone; the rules stand in one place, the security configuration. */
public enum Role {
    OWNER,
    OFFICE,
    TECHNICIAN,
    CLIENT
}

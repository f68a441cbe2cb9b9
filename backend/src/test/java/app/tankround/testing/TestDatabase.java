package app.tankround.testing;

/** A database that nobody else uses, and the ordinary role that owns it. */
public record TestDatabase(String jdbcUrl, String username, String password) {}

package app.tankround.clients;

import java.util.Optional;

/** A person to talk to at a client's. */
public record ContactView(
        ContactId id,
        String code,
        ClientId clientId,
        String name,
        Optional<String> role,
        Optional<String> phone,
        Optional<String> email,
        boolean receivesReports,
        int version) {}

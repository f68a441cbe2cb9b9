package app.tankround.clients;

import java.util.Optional;

/** A client as other modules and pages see it. */
public record ClientView(
        ClientId id,
        String code,
        String name,
        Optional<String> billingAddress,
        Optional<String> email,
        Optional<String> phone,
        Optional<String> notes,
        int version) {}

package app.tankround.visits;

import app.tankround.units.SockSize;
import java.util.Optional;
import tools.jackson.databind.JsonNode;

/** The size of socks in an entry, by its parts: what was written down before there was more than a diameter is any other. */
final class SockFacts {

    private static final String DIAMETER = "sizeMm";
    private static final String LENGTH = "lengthMm";
    private static final String FINENESS = "finenessUm";

    private SockFacts() {}

    static SockSize size(EntryBody body) {
        return new SockSize(
                body.whole(DIAMETER, 10, 1000),
                body.optionalWhole(LENGTH, 10, 3000),
                body.optionalWhole(FINENESS, 1, 2000));
    }

    static Facts put(SockSize size, Facts facts) {
        facts.put(DIAMETER, size.diameterMm());
        size.lengthMm().ifPresent(length -> facts.put(LENGTH, length));
        size.finenessUm().ifPresent(fineness -> facts.put(FINENESS, fineness));
        return facts;
    }

    static SockSize size(JsonNode facts) {
        return new SockSize(facts.path(DIAMETER).asInt(), part(facts, LENGTH), part(facts, FINENESS));
    }

    private static Optional<Integer> part(JsonNode facts, String name) {
        return facts.path(name).isMissingNode()
                ? Optional.empty()
                : Optional.of(facts.path(name).asInt());
    }
}

package app.tankround.visits;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.UUID;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Builds what is kept of an entry; what is absent is left out, numbers are decimal text. */
final class Facts {

    private final ObjectNode node = JsonNodeFactory.instance.objectNode();

    Facts put(String name, Optional<String> text) {
        text.ifPresent(value -> node.put(name, value));
        return this;
    }

    Facts put(String name, String text) {
        node.put(name, text);
        return this;
    }

    Facts put(String name, UUID id) {
        node.put(name, id.toString());
        return this;
    }

    Facts put(String name, int number) {
        node.put(name, number);
        return this;
    }

    Facts put(String name, boolean flag) {
        node.put(name, flag);
        return this;
    }

    Facts number(String name, Optional<BigDecimal> number) {
        return put(name, number.map(BigDecimal::toPlainString));
    }

    ObjectNode node() {
        return node;
    }
}

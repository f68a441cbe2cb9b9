package app.tankround.tablet;

import app.tankround.persistence.Sha256;
import app.tankround.web.Entry;
import java.util.Map;
import java.util.TreeMap;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * An entry as text that is the same however its members were ordered or spaced: names sorted, no blanks, everything
 * that was sent.
 *
 * @param hash SHA-256 of the text in UTF-8
 */
@SuppressWarnings("ArrayRecordComponent")
record CanonicalEntry(String text, byte[] hash) {

    static CanonicalEntry of(Entry entry) {
        ObjectNode node = JsonNodeFactory.instance.objectNode();
        node.put("id", entry.id().toString());
        node.put("kind", entry.kind());
        entry.subject().ifPresent(subject -> node.put("subject", subject.toString()));
        node.put("device", entry.device());
        node.put("sequence", entry.sequence());
        entry.field().ifPresent(field -> node.put("field", field));
        node.put("deviceTime", entry.deviceTime().toString());
        entry.base().ifPresent(base -> node.set("base", base));
        node.set("body", entry.body());
        String text = sorted(node).toString();
        return new CanonicalEntry(text, Sha256.of(text));
    }

    private static JsonNode sorted(JsonNode node) {
        if (node.isObject()) {
            Map<String, JsonNode> members = new TreeMap<>();
            node.properties().forEach(member -> members.put(member.getKey(), sorted(member.getValue())));
            ObjectNode sorted = JsonNodeFactory.instance.objectNode();
            members.forEach(sorted::set);
            return sorted;
        }
        if (node.isArray()) {
            var sorted = JsonNodeFactory.instance.arrayNode();
            node.forEach(element -> sorted.add(sorted(element)));
            return sorted;
        }
        return node;
    }
}

package app.tankround.socks.web;

import app.tankround.socks.SockWashing;
import app.tankround.stock.StockItemId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Tags that socks of an item are given, one on each line. */
record TagsForm(
        @Nullable StockItemId item,
        @Nullable String tags,
        @Nullable String washes) {

    /** What is to be kept. */
    record Tags(StockItemId item, List<String> tags, int washes) {}

    static TagsForm blank() {
        return new TagsForm(null, null, "0");
    }

    static List<String> lines(@Nullable String text) {
        return text == null
                ? List.of()
                : text.lines().filter(line -> !line.isBlank()).toList();
    }

    Optional<Tags> toCommand(FormReader reader) {
        Optional<StockItemId> which = reader.read(
                () -> Optional.ofNullable(item).orElseThrow(() -> new FieldRefusal("item", "stock.choice-missing")));
        Optional<Integer> many = reader.requiredWhole("washes", washes, 0, SockWashing.MOST_WASHES);
        return reader.accepted()
                ? Optional.of(new Tags(which.orElseThrow(), lines(tags), many.orElseThrow()))
                : Optional.empty();
    }
}

package app.tankround.socks.web;

import app.tankround.socks.NewWash;
import app.tankround.socks.SockWash;
import app.tankround.socks.SockWashing;
import app.tankround.stock.StockItemId;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** What goes into the machine, as typed; what is left empty is none. A bean, since its lines are bound one by one. */
final class WashStartForm {

    /** One item. */
    static final class Line {

        private @Nullable StockItemId item;
        private @Nullable String count;

        public @Nullable StockItemId getItem() {
            return item;
        }

        public void setItem(@Nullable StockItemId item) {
            this.item = item;
        }

        public @Nullable String getCount() {
            return count;
        }

        public void setCount(@Nullable String count) {
            this.count = count;
        }
    }

    private @Nullable UUID id;
    private boolean apart;
    private List<Line> lines = new ArrayList<>();
    private @Nullable String tags;

    /** As many as the machine takes, in the order of the lines. */
    static WashStartForm of(UUID id, boolean apart, List<SockWash.Line> waiting, int most) {
        WashStartForm form = new WashStartForm();
        form.id = id;
        form.apart = apart;
        int open = most;
        for (SockWash.Line each : waiting) {
            Line line = new Line();
            line.item = each.item().id();
            line.count = Integer.toString(Math.min(open, each.count()));
            open -= Math.min(open, each.count());
            form.lines.add(line);
        }
        return form;
    }

    public @Nullable UUID getId() {
        return id;
    }

    public void setId(@Nullable UUID id) {
        this.id = id;
    }

    public boolean isApart() {
        return apart;
    }

    public void setApart(boolean apart) {
        this.apart = apart;
    }

    public List<Line> getLines() {
        return lines;
    }

    public void setLines(List<Line> lines) {
        this.lines = lines;
    }

    public @Nullable String getTags() {
        return tags;
    }

    public void setTags(@Nullable String tags) {
        this.tags = tags;
    }

    /** @throws FieldRefusal without the id that the page made */
    Optional<NewWash> toCommand(FormReader reader) {
        Map<StockItemId, Integer> counts = new LinkedHashMap<>();
        for (int place = 0; place < lines.size(); place++) {
            Line line = lines.get(place);
            if (line.item != null && line.count != null && !line.count.isBlank()) {
                StockItemId item = line.item;
                reader.requiredWhole("lines[" + place + "].count", line.count, 0, SockWashing.MOST_IN_LOAD)
                        .ifPresent(count -> counts.merge(item, count, Integer::sum));
            }
        }
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new NewWash(
                Optional.ofNullable(id).orElseThrow(() -> new FieldRefusal("", "socks.wash.none")),
                apart,
                counts,
                TagsForm.lines(tags)));
    }

    /** The field of a refusal of the service. */
    String field(String refused) {
        for (int place = 0; place < lines.size(); place++) {
            if (refused.equals("counts[" + lines.get(place).item + "]")) {
                return "lines[" + place + "].count";
            }
        }
        return refused;
    }
}

package app.tankround.loads.web;

import app.tankround.loads.LoadReturns;
import app.tankround.loads.ReturnPage;
import app.tankround.loads.ReturnSheet;
import app.tankround.loads.Returned;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.validation.BindingResult;

/** What came back from a round, as typed. A bean, since its lines are bound one by one. */
final class ReturnForm {

    private static final MathContext DIGITS = new MathContext(7, RoundingMode.HALF_EVEN);

    /** One thing; all of it came back as it should, or the numbers say what became of it. */
    static final class Line {

        private @Nullable String key;
        private boolean asExpected;
        private @Nullable String back;
        private @Nullable String stays;
        private @Nullable String wasted;
        private @Nullable String broken;
        private @Nullable String reason;
        private @Nullable String goes;

        public @Nullable String getKey() {
            return key;
        }

        public void setKey(@Nullable String key) {
            this.key = key;
        }

        public boolean isAsExpected() {
            return asExpected;
        }

        public void setAsExpected(boolean asExpected) {
            this.asExpected = asExpected;
        }

        public @Nullable String getBack() {
            return back;
        }

        public void setBack(@Nullable String back) {
            this.back = back;
        }

        public @Nullable String getStays() {
            return stays;
        }

        public void setStays(@Nullable String stays) {
            this.stays = stays;
        }

        public @Nullable String getWasted() {
            return wasted;
        }

        public void setWasted(@Nullable String wasted) {
            this.wasted = wasted;
        }

        public @Nullable String getBroken() {
            return broken;
        }

        public void setBroken(@Nullable String broken) {
            this.broken = broken;
        }

        public @Nullable String getReason() {
            return reason;
        }

        public void setReason(@Nullable String reason) {
            this.reason = reason;
        }

        public @Nullable String getGoes() {
            return goes;
        }

        public void setGoes(@Nullable String goes) {
            this.goes = goes;
        }

        private boolean saysNothing() {
            return back == null && stays == null && wasted == null && broken == null;
        }
    }

    private @Nullable String id;
    private int seen;
    private List<Line> lines = new ArrayList<>();

    static ReturnForm of(UUID id, ReturnSheet sheet) {
        ReturnForm form = new ReturnForm();
        form.id = id.toString();
        form.seen = sheet.told().size();
        for (ReturnSheet.Thing thing : sheet.things()) {
            Line line = new Line();
            line.key = thing.key();
            if (thing.isWater()) {
                line.goes = thing.isApart() ? Returned.AWAY : Returned.KEEP;
            }
            form.lines.add(line);
        }
        return form;
    }

    public @Nullable String getId() {
        return id;
    }

    public void setId(@Nullable String id) {
        this.id = id;
    }

    public int getSeen() {
        return seen;
    }

    public void setSeen(int seen) {
        this.seen = seen;
    }

    public List<Line> getLines() {
        return lines;
    }

    public void setLines(List<Line> lines) {
        this.lines = lines;
    }

    /** What was said of each thing; empty after a refusal, which is then shown at its field. */
    Optional<Map<String, Returned>> toCommand(FormReader reader, ReturnPage page) {
        Map<String, Returned> said = new LinkedHashMap<>();
        for (ReturnPage.Row row : page.rows()) {
            for (int index = 0; index < lines.size(); index++) {
                Line line = lines.get(index);
                if (row.key().equals(line.key)) {
                    said.put(row.key(), returned(reader, "lines[" + index + "].", line, row));
                }
            }
        }
        return reader.accepted() ? Optional.of(said) : Optional.empty();
    }

    private static Returned returned(FormReader reader, String path, Line line, ReturnPage.Row row) {
        String reason = line.reason == null ? "" : line.reason;
        String goes = line.goes == null ? "" : line.goes;
        if (line.asExpected && line.saysNothing()) {
            return Returned.allBack(row.expected(), reason, goes);
        }
        if (line.asExpected) {
            reader.refuse(path + "back", "loads.return.both");
        } else if (line.saysNothing()) {
            reader.refuse(path + "back", "loads.return.needed");
        }
        return new Returned(
                number(reader, path + "back", line.back, row.factor()),
                number(reader, path + "stays", line.stays, row.factor()),
                number(reader, path + "wasted", line.wasted, row.factor()),
                number(reader, path + "broken", line.broken, row.factor()),
                reason,
                goes);
    }

    private static BigDecimal number(FormReader reader, String field, @Nullable String typed, BigDecimal factor) {
        return reader.number(field, typed, BigDecimal.ZERO, LoadReturns.MOST)
                .map(number -> factor.compareTo(BigDecimal.ONE) == 0 ? number : number.multiply(factor, DIGITS))
                .orElse(BigDecimal.ZERO);
    }

    /** Shows what the rules did not take at the field of its line. */
    void show(FieldRefusal refusal, BindingResult result) {
        int dot = refusal.field().lastIndexOf('.');
        for (int index = 0; dot > 0 && index < lines.size(); index++) {
            if (refusal.field().substring(0, dot).equals(lines.get(index).key)) {
                new FieldRefusal(
                                "lines[" + index + "]" + refusal.field().substring(dot),
                                refusal.code(),
                                refusal.args().toArray())
                        .into(result);
                return;
            }
        }
        result.reject(refusal.code(), refusal.args().toArray(), refusal.code());
    }
}

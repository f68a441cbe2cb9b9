package app.tankround.seed;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ChangeLog;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/**
 * How far the demo is filled. Each step leaves a line in the log of changes, in its own transaction: a step is there
 * with its line or not at all.
 */
@Component
class DemoProgress {

    private static final String KIND = "demo";
    private static final UUID DEMO = new UUID(0x7000L, 0x8000_0000_0000_0001L);

    private final ChangeLog changes;
    private final BusinessProfile business;
    private final JsonMapper json;

    DemoProgress(ChangeLog changes, BusinessProfile business, JsonMapper json) {
        this.changes = changes;
        this.business = business;
        this.json = json;
    }

    /**
     * Where the filling stands.
     *
     * @param done how many steps are done
     * @param today the day all days are counted back from; empty before the first step
     */
    record Standing(int done, Optional<LocalDate> today) {}

    /** @throws IllegalStateException if there is a business that is not the demo's */
    Standing standing() {
        List<ChangeLog.Line> lines = changes.of(KIND, DEMO);
        if (lines.isEmpty() && business.find().isPresent()) {
            throw new IllegalStateException("The data directory holds the business "
                    + business.current().name()
                    + ", which is not the demo's. Choose another one with --tankround.data=DIRECTORY.");
        }
        Optional<LocalDate> today = lines.stream()
                .findFirst()
                .map(line -> LocalDate.parse(
                        json.readTree(line.detail()).path("today").stringValue()));
        return new Standing(lines.size(), today);
    }

    /** Says that a step is done, in the transaction that does it. */
    void done(int step, LocalDate today) {
        changes.record(KIND, DEMO, "filled", Map.of("step", step, "today", today.toString()));
    }
}

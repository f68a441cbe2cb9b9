package app.tankround.visits.apart;

import app.tankround.tanks.ReleaseCheck;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** @param checks what was looked at and is well; a box that is not ticked is not sent */
record ReleaseForm(
        int version,
        @Nullable List<ReleaseCheck> checks,
        @Nullable String note) {

    public List<ReleaseCheck> done() {
        return checks == null ? List.of() : List.copyOf(checks);
    }
}

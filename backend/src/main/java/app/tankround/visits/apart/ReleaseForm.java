package app.tankround.visits.apart;

import app.tankround.tanks.ReleaseCheck;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** @param checks what was looked at and is well */
record ReleaseForm(int version, @Nullable List<ReleaseCheck> checks, @Nullable String note) {

    ReleaseForm {
        checks = checks == null ? List.of() : List.copyOf(checks);
    }
}

package app.tankround.clients.web;

import app.tankround.clients.LoneHazard;
import app.tankround.clients.ResidualCurrentTest;
import app.tankround.clients.SiteSafetyDetails;
import app.tankround.clients.SiteSafetyView;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What was agreed with a site, as the page sends it. */
record SafetyForm(
        int version,
        @Nullable String residualCurrentTest,
        @Nullable String residualCurrentNote,
        @Nullable String checkInFor,
        @Nullable String checkInNote)
        implements VersionedForm<SafetyForm> {

    static SafetyForm of(SiteSafetyView safety) {
        return new SafetyForm(
                safety.version(),
                safety.residualCurrentTest().name(),
                safety.residualCurrentNote().orElse(null),
                safety.checkInFor().name(),
                safety.checkInNote().orElse(null));
    }

    @Override
    public SafetyForm withVersion(int newest) {
        return new SafetyForm(newest, residualCurrentTest, residualCurrentNote, checkInFor, checkInNote);
    }

    Optional<SiteSafetyDetails> toCommand(FormReader reader) {
        Optional<ResidualCurrentTest> test =
                reader.choice("residualCurrentTest", residualCurrentTest, ResidualCurrentTest.class);
        Optional<LoneHazard> hazard = reader.choice("checkInFor", checkInFor, LoneHazard.class);
        return test.flatMap(agreed -> hazard.flatMap(
                why -> reader.read(() -> new SiteSafetyDetails(agreed, residualCurrentNote, why, checkInNote))));
    }
}

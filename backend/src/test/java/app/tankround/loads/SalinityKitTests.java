package app.tankround.loads;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.accounts.PersonId;
import app.tankround.chemistry.CalibrationCheck;
import app.tankround.chemistry.CheckPoint;
import app.tankround.chemistry.InstrumentHistory;
import app.tankround.chemistry.SalinityScale;
import app.tankround.chemistry.StandardRole;
import app.tankround.chemistry.UncertaintyDefaults;
import app.tankround.instruments.CalibrationHistory;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.instruments.InstrumentView;
import app.tankround.instruments.StandardId;
import app.tankround.instruments.StandardKind;
import app.tankround.instruments.StandardView;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** Meters that read practical salinity, may be off by 0.5 and are checked every 30 days. The rules are our own. */
class SalinityKitTests {

    private static final Instant LEAVES = Instant.parse("2026-11-25T06:20:00Z");
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
    private static final PersonId NOOR = PersonId.of(new UUID(1, 1));
    private static final PersonId IVO = PersonId.of(new UUID(1, 2));

    @Test
    void takesTheSoundInstrumentAndNoStandardWhileNoCheckIsDue() {
        SalinityKit kit = choose(meter("C-1", NOOR, 40, 35), meter("C-2", null, 5, 35));
        assertThat(kit.lines()).extracting(LoadLine::key).containsExactly("instrument:C-2");
        assertThat(kit.notes()).isEmpty();
    }

    @Test
    void ofTwoSoundOnesTakesTheTechniciansOwn() {
        assertThat(choose(meter("C-1", null, 5, 35), meter("C-2", NOOR, 5, 35)).lines())
                .extracting(LoadLine::key)
                .containsExactly("instrument:C-2");
    }

    @Test
    void leavesTheInstrumentsOfOthersAlone() {
        SalinityKit kit = choose(meter("C-1", IVO, 5, 35));
        assertThat(kit.lines()).isEmpty();
        assertThat(kit.notes()).extracting(LoadText::code).containsExactly("loads.note.no-salinity-instrument");
    }

    @Test
    void bringsAStandardOnTheDayACheckFallsDue() {
        assertThat(choose(meter("C-1", NOOR, 29, 35)).lines())
                .extracting(LoadLine::key)
                .containsExactly("instrument:C-1", "standard:S-35");
        assertThat(choose(meter("C-1", NOOR, 28, 35)).lines()).hasSize(1);
    }

    @Test
    void takesAnOverdueOneWithAStandardAndSaysSo() {
        SalinityKit kit = choose(meter("C-1", NOOR, 45, 35));
        assertThat(kit.lines()).extracting(LoadLine::key).containsExactly("instrument:C-1", "standard:S-35");
        assertThat(kit.notes()).extracting(LoadText::code).containsExactly("loads.note.instrument-unsound");
    }

    @Test
    void leavesAtTheDepotWhatFailedItsCheck() {
        SalinityKit kit = choose(meter("R-02", NOOR, 1, 32));
        assertThat(kit.lines()).isEmpty();
        assertThat(kit.notes())
                .extracting(LoadText::code)
                .containsExactly("loads.note.instrument-failed", "loads.note.no-salinity-instrument");
    }

    private static SalinityKit choose(CalibrationHistory... register) {
        return SalinityKit.choose(
                List.of(register),
                List.of(
                        standard("S-00", "0", null),
                        standard("S-30", "30", TODAY.minusDays(1)),
                        standard("S-35", "35", null)),
                Optional.of(NOOR),
                LEAVES,
                TODAY,
                Work.weights());
    }

    private static StandardView standard(String code, String value, @Nullable LocalDate expires) {
        return new StandardView(
                StandardId.of(new UUID(5, code.hashCode())),
                code,
                "Standard",
                StandardKind.SEAWATER,
                Quantity.SALINITY,
                new BigDecimal(value),
                MeasurementUnit.PRACTICAL_SALINITY,
                new BigDecimal("0.1"),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.ofNullable(expires),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                1);
    }

    /** A meter that showed {@code shown} in a standard of 35, so many days ago. */
    private static CalibrationHistory meter(String code, @Nullable PersonId holder, int daysAgo, double shown) {
        InstrumentView view = new InstrumentView(
                InstrumentId.of(new UUID(6, code.hashCode())),
                code,
                "Meter",
                InstrumentKind.CONDUCTIVITY_METER,
                Quantity.SALINITY,
                MeasurementUnit.PRACTICAL_SALINITY,
                Optional.empty(),
                Optional.empty(),
                new BigDecimal("0.1"),
                new BigDecimal("0.5"),
                30,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.ofNullable(holder),
                1);
        return new CalibrationHistory(
                view,
                InstrumentHistory.of(
                        UncertaintyDefaults.instrument(
                                        app.tankround.chemistry.InstrumentKind.CONDUCTIVITY_METER,
                                        SalinityScale.practicalSalinity())
                                .withResolution(0.1)
                                .withPermittedError(0.5)
                                .withCheckIntervalDays(30),
                        List.of(new CalibrationCheck(
                                "check",
                                LEAVES.minus(Duration.ofDays(daysAgo)).getEpochSecond(),
                                List.of(CheckPoint.of(StandardRole.WORKING_RANGE, "S-35", 35, shown, shown, 0.05))))),
                List.of());
    }
}

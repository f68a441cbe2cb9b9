package app.tankround.clients;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.web.FieldRefusal;
import java.time.LocalTime;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SiteDetailsTests {

    @ParameterizedTest
    @CsvSource({
        "90.0001, 0, latitude",
        "-91, 0, latitude",
        "NaN, 0, latitude",
        "Infinity, 0, latitude",
        "0, 180.5, longitude",
        "0, -1e9, longitude",
        "0, NaN, longitude"
    })
    void refusesCoordinatesOffTheGlobe(double latitude, double longitude, String field) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> site(latitude, longitude, null, null))
                .satisfies(refusal -> {
                    assertThat(refusal.field()).isEqualTo(field);
                    assertThat(refusal.code()).isEqualTo("web.number-out-of-range");
                });
    }

    @ParameterizedTest
    @CsvSource({"90, 180", "-90, -180", "0, 0"})
    void takesTheEndsOfTheGlobe(double latitude, double longitude) {
        assertThat(site(latitude, longitude, null, null).latitude()).isEqualTo(Double.valueOf(latitude));
    }

    @Test
    void refusesHoursThatEndBeforeTheyBegin() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> site(52, 4, LocalTime.of(17, 0), LocalTime.of(9, 0)))
                .satisfies(refusal -> {
                    assertThat(refusal.field()).isEqualTo("attendedUntil");
                    assertThat(refusal.args()).containsExactly(LocalTime.of(9, 0), LocalTime.of(17, 0));
                });
    }

    @Test
    void refusesHoursThatBeginButNeverEnd() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> site(52, 4, LocalTime.of(9, 0), null))
                .satisfies(refusal -> assertThat(refusal.field()).isEqualTo("attendedUntil"));
    }

    @ParameterizedTest
    @CsvSource({"0", "-1", "NaN", "Infinity", "1000.1"})
    void refusesARefillOfNothingOrMoreThanAVanCarries(double litres) {
        assertRefill(litres, true, ClientId.of(UUID.randomUUID()), "clients.refill-out-of-range");
    }

    @Test
    void refusesARefillWithoutOwnWaterOrAtTheDepot() {
        assertRefill(40, false, ClientId.of(UUID.randomUUID()), "clients.refill-without-own-water");
        assertRefill(40, true, null, "clients.refill-at-depot");
        assertThat(refilling(1000, true, ClientId.of(UUID.randomUUID())).refillLitres())
                .isEqualTo(Double.valueOf(1000));
    }

    private static void assertRefill(double litres, boolean ownRoDi, @Nullable ClientId client, String code) {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> refilling(litres, ownRoDi, client))
                .satisfies(refusal -> {
                    assertThat(refusal.field()).isEqualTo("refillLitres");
                    assertThat(refusal.code()).isEqualTo(code);
                });
    }

    private static SiteDetails refilling(double litres, boolean ownRoDi, @Nullable ClientId client) {
        return new SiteDetails(
                "S-1", client, "Yard", null, null, null, 52.0, 4.0, null, null, null, true, true, ownRoDi, false,
                litres);
    }

    private static SiteDetails site(
            double latitude, double longitude, @Nullable LocalTime from, @Nullable LocalTime until) {
        return new SiteDetails(
                "S-1", null, "Yard", null, null, null, latitude, longitude, null, from, until, true, true, false, false,
                null);
    }
}

package app.tankround.tanks.web;

import app.tankround.tanks.LivestockDetails;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.WaterSystemId;
import app.tankround.web.FormReader;
import app.tankround.web.TextInput;
import app.tankround.web.VersionedForm;
import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * @param id made when the form is shown, so that sending it twice adds once
 * @param because why animals go in although something speaks against it
 */
record LivestockForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String commonName,
        @Nullable String scientificName,
        @Nullable String quantity,
        @Nullable String addedOn,
        @Nullable Boolean willBeEaten,
        @Nullable String because)
        implements VersionedForm<LivestockForm> {

    /** A box that is not ticked is not sent. */
    LivestockForm {
        willBeEaten = Boolean.TRUE.equals(willBeEaten);
    }

    static LivestockForm blank(LivestockId id, String code, LocalDate today) {
        return new LivestockForm(id.toString(), 0, code, null, null, null, today.toString(), false, null);
    }

    static LivestockForm of(LivestockView animals) {
        return new LivestockForm(
                animals.id().toString(),
                animals.version(),
                animals.code(),
                animals.commonName(),
                animals.scientificName().orElse(null),
                String.valueOf(animals.quantity()),
                animals.addedOn().map(LocalDate::toString).orElse(null),
                animals.willBeEaten(),
                null);
    }

    @Override
    public LivestockForm withVersion(int newest) {
        return new LivestockForm(id, newest, code, commonName, scientificName, quantity, addedOn, willBeEaten, because);
    }

    /** Why they go in although something speaks against it. */
    Optional<String> reason() {
        return Optional.ofNullable(TextInput.optional("because", because, 500))
                .map(text -> TextInput.inWords("because", text));
    }

    /** Animals that go in now: at least one, on a day that is known. */
    Optional<NewLivestock> toCommand(LivestockId newId, WaterSystemId systemId, FormReader reader, LocalDate today) {
        Optional<Integer> count = reader.requiredWhole("quantity", quantity, 1, LivestockDetails.MOST);
        Optional<LocalDate> on = reader.requiredDate("addedOn", addedOn, SystemForm.FIRST_DAY, today.plusDays(1));
        return details(systemId, reader, count.orElse(1), on.orElse(null))
                .map(read -> new NewLivestock(
                        newId,
                        systemId,
                        read.code(),
                        read.commonName(),
                        read.scientificName(),
                        read.quantity(),
                        read.willBeEaten(),
                        on.orElseThrow()));
    }

    Optional<LivestockDetails> toCorrection(WaterSystemId systemId, FormReader reader, LocalDate today) {
        Optional<Integer> count = reader.requiredWhole("quantity", quantity, 0, LivestockDetails.MOST);
        Optional<LocalDate> on = reader.date("addedOn", addedOn, SystemForm.FIRST_DAY, today.plusDays(1));
        return details(systemId, reader, count.orElse(0), on.orElse(null));
    }

    private Optional<LivestockDetails> details(
            WaterSystemId systemId, FormReader reader, int count, @Nullable LocalDate on) {
        return reader.read(() -> new LivestockDetails(
                        Objects.requireNonNullElse(code, ""),
                        systemId,
                        Objects.requireNonNullElse(commonName, ""),
                        scientificName,
                        count,
                        on,
                        Boolean.TRUE.equals(willBeEaten)))
                .filter(read -> reader.accepted());
    }
}

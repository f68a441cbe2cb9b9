package app.tankround.accounts.web;

import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.VanId;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import app.tankround.web.FormReader;
import app.tankround.web.NumberText;
import app.tankround.web.ShownMeasures;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.function.DoubleFunction;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;

/**
 * A container for water, as typed; size, mass and height in the units that the business reads.
 *
 * @param place {@code van:} or {@code depot:} and an id
 */
record ContainerForm(
        int version,
        @Nullable String number,
        @Nullable String place,
        @Nullable String role,
        @Nullable String size,
        @Nullable String empty,
        @Nullable Boolean pumped,
        @Nullable String stands,
        @Nullable Boolean outOfUse)
        implements VersionedForm<ContainerForm> {

    private static final String VAN = "van:";
    private static final String DEPOT = "depot:";

    ContainerForm {
        pumped = Boolean.TRUE.equals(pumped);
        outOfUse = Boolean.TRUE.equals(outOfUse);
    }

    static ContainerForm blank(@Nullable String place) {
        return new ContainerForm(0, null, place, null, null, null, false, "0", false);
    }

    static ContainerForm of(WaterContainerView container, ShownMeasures measures, Locale locale) {
        return new ContainerForm(
                container.version(),
                container.number(),
                container
                        .van()
                        .map(ContainerForm::place)
                        .or(() -> container.depot().map(ContainerForm::place))
                        .orElse(null),
                container.role().name(),
                NumberText.plain(measures.shownVolume(container.size().litres()), locale),
                NumberText.plain(measures.shownMass(container.empty().kilograms()), locale),
                container.pumped(),
                NumberText.plain(measures.shownLength(container.standsCm()), locale),
                container.outOfUse());
    }

    static String place(VanId van) {
        return VAN + van;
    }

    static String place(DepotId depot) {
        return DEPOT + depot;
    }

    @Override
    public ContainerForm withVersion(int newest) {
        return new ContainerForm(newest, number, place, role, size, empty, pumped, stands, outOfUse);
    }

    /** @param stored empty for one that is to be added */
    Optional<WaterContainerView> toCommand(
            WaterContainerId id, Optional<WaterContainerView> stored, FormReader reader, ShownMeasures measures) {
        Optional<Double> litres = reader.requiredNumber(
                        "size",
                        size,
                        measures.shownVolume(ContainerRegister.SMALLEST_L),
                        measures.shownVolume(ContainerRegister.LARGEST_L))
                .map(typed -> unlessUnchanged(
                        typed, stored.map(before -> before.size().litres()), measures::shownVolume, measures::litres))
                .map(read -> Math.clamp(read, ContainerRegister.SMALLEST_L, ContainerRegister.LARGEST_L));
        Optional<Double> kilograms = reader.requiredNumber(
                        "empty", empty, BigDecimal.ZERO, measures.shownMass(ContainerRegister.HEAVIEST_EMPTY_KG))
                .map(typed -> unlessUnchanged(
                        typed,
                        stored.map(before -> before.empty().kilograms()),
                        measures::shownMass,
                        measures::kilograms))
                .map(read -> Math.min(read, ContainerRegister.HEAVIEST_EMPTY_KG));
        Optional<Double> centimetres = stands == null || stands.isBlank()
                ? Optional.of(0.0)
                : reader.number(
                                "stands",
                                stands,
                                BigDecimal.ZERO,
                                measures.shownLength(ContainerRegister.HIGHEST_STAND_CM))
                        .map(typed -> unlessUnchanged(
                                typed,
                                stored.map(WaterContainerView::standsCm),
                                measures::shownLength,
                                measures::centimetres))
                        .map(read -> Math.min(read, ContainerRegister.HIGHEST_STAND_CM));
        Optional<ContainerRole> held = reader.choice("role", role, ContainerRole.class);
        String where = place == null ? "" : place;
        Optional<UUID> owner = reader.id("place", where.substring(where.indexOf(':') + 1));
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return Optional.of(new WaterContainerView(
                id,
                SettingsForm.text(number),
                owner.filter(of -> where.startsWith(VAN)).map(VanId::of),
                owner.filter(of -> where.startsWith(DEPOT)).map(DepotId::of),
                held.orElseThrow(),
                Volume.ofLitres(litres.orElseThrow()),
                Mass.ofKilograms(kilograms.orElseThrow()),
                Boolean.TRUE.equals(pumped),
                centimetres.orElseThrow(),
                Boolean.TRUE.equals(outOfUse),
                version));
    }

    /** A rounded number that nobody touched must not change what is stored. */
    private static double unlessUnchanged(
            BigDecimal typed,
            Optional<Double> stored,
            DoubleFunction<BigDecimal> shown,
            ToDoubleFunction<BigDecimal> read) {
        return stored.filter(before -> shown.apply(before).compareTo(typed) == 0)
                .orElseGet(() -> read.applyAsDouble(typed));
    }
}

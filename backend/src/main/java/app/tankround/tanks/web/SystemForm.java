package app.tankround.tanks.web;

import app.tankround.clients.SiteId;
import app.tankround.tanks.NetVolume;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.SystemDetails;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.VolumeBasis;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Volume;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * A water system as typed; volumes are in the business's unit. Infection class, its day and the preset of targets are asked
 * for a new system only.
 *
 * @param id made when the form is shown, so that sending it twice adds once
 */
record SystemForm(
        String id,
        int version,
        @Nullable String code,
        @Nullable String site,
        @Nullable String name,
        @Nullable String kind,
        @Nullable String basis,
        @Nullable String netVolume,
        @Nullable String displayVolume,
        @Nullable String displacement,
        @Nullable String sumpVolume,
        @Nullable String startedOn,
        @Nullable String evaporation,
        @Nullable String samplePoints,
        @Nullable String notes,
        @Nullable Boolean active,
        @Nullable String infectionClass,
        @Nullable String classSince,
        @Nullable String preset)
        implements VersionedForm<SystemForm> {

    static final LocalDate FIRST_DAY = LocalDate.of(1970, 1, 1);

    /** The value of the preset field that sets no targets. */
    static final String NO_PRESET = "NONE";

    /** A box that is not ticked is not sent. */
    SystemForm {
        active = Boolean.TRUE.equals(active);
    }

    static SystemForm blank(WaterSystemId id, String code, @Nullable String site, LocalDate today) {
        return new SystemForm(
                id.toString(),
                0,
                code,
                site,
                null,
                null,
                VolumeBasis.STATED.name(),
                null,
                null,
                null,
                null,
                null,
                "0",
                null,
                null,
                true,
                null,
                today.toString(),
                null);
    }

    static SystemForm of(WaterSystemView system, List<SamplePointView> points, Figures figures) {
        return new SystemForm(
                system.id().toString(),
                system.version(),
                system.code(),
                system.siteId().toString(),
                system.name(),
                system.kind().name(),
                system.basis().name(),
                figures.number(system.netVolume()),
                system.displayVolume().map(figures::number).orElse(null),
                system.displacement().map(figures::number).orElse(null),
                system.sumpVolume().map(figures::number).orElse(null),
                system.startedOn().map(LocalDate::toString).orElse(null),
                figures.number(system.evaporationPerDay()),
                points.stream().map(SamplePointView::name).collect(Collectors.joining("\n")),
                system.notes().orElse(null),
                system.active(),
                null,
                null,
                null);
    }

    @Override
    public SystemForm withVersion(int newest) {
        return new SystemForm(
                id,
                newest,
                code,
                site,
                name,
                kind,
                basis,
                netVolume,
                displayVolume,
                displacement,
                sumpVolume,
                startedOn,
                evaporation,
                samplePoints,
                notes,
                active,
                infectionClass,
                classSince,
                preset);
    }

    List<String> samplePointNames() {
        return Arrays.stream(Objects.requireNonNullElse(samplePoints, "").split("[|\\n\\r]"))
                .map(String::strip)
                .filter(point -> !point.isEmpty())
                .toList();
    }

    /** @param stored the system that is changed; its volumes are kept where the shown numbers are left as they are */
    Optional<SystemDetails> toCommand(
            FormReader reader, Figures figures, LocalDate today, Optional<WaterSystemView> stored) {
        Optional<UUID> siteId = reader.id("site", site);
        Optional<SystemKind> systemKind = reader.choice("kind", kind, SystemKind.class);
        Optional<NetVolume> volume = volume(reader, figures, stored);
        Optional<LocalDate> started = reader.date("startedOn", startedOn, FIRST_DAY, today.plusYears(1));
        Optional<Volume> lost = reader.number(
                        "evaporation",
                        evaporation,
                        BigDecimal.ZERO,
                        figures.limit(SystemDetails.MOST_EVAPORATION_LITRES))
                .map(typed -> figures.volume(typed, stored.map(WaterSystemView::evaporationPerDay)));
        // Stand-ins for what was refused, so that the other fields are looked at too.
        Optional<SystemDetails> details = reader.read(() -> new SystemDetails(
                Objects.requireNonNullElse(code, ""),
                SiteId.of(siteId.orElse(new UUID(0, 0))),
                Objects.requireNonNullElse(name, ""),
                systemKind.orElse(SystemKind.SUPPLY),
                volume.orElse(NetVolume.stated(1)),
                started.orElse(null),
                lost.orElse(Volume.ofLitres(0)),
                notes,
                Boolean.TRUE.equals(active)));
        return details.filter(read -> reader.accepted());
    }

    private Optional<NetVolume> volume(FormReader reader, Figures figures, Optional<WaterSystemView> stored) {
        Optional<VolumeBasis> known = reader.choice("basis", basis, VolumeBasis.class);
        if (known.isEmpty()) {
            return Optional.empty();
        }
        BigDecimal smallest = figures.limit(NetVolume.SMALLEST_LITRES);
        BigDecimal largest = figures.limit(NetVolume.LARGEST_LITRES);
        boolean stated = known.get() == VolumeBasis.STATED;
        Optional<BigDecimal> display = stated
                ? reader.number("displayVolume", displayVolume, smallest, largest)
                : reader.requiredNumber("displayVolume", displayVolume, smallest, largest);
        Optional<BigDecimal> taken = reader.number("displacement", displacement, BigDecimal.ZERO, largest);
        Optional<BigDecimal> added = reader.number("sumpVolume", sumpVolume, BigDecimal.ZERO, largest);
        Optional<BigDecimal> net =
                stated ? reader.requiredNumber("netVolume", netVolume, smallest, largest) : Optional.empty();
        if (display.isPresent() && taken.isPresent() && taken.get().compareTo(display.get()) >= 0) {
            reader.refuse("displacement", "tanks.displacement-fills-display", taken.get(), display.get());
        }
        if (!reader.accepted()) {
            return Optional.empty();
        }
        @Nullable Volume displayLitres = display.map(
                        typed -> figures.volume(typed, stored.flatMap(WaterSystemView::displayVolume)))
                .orElse(null);
        @Nullable Volume takenLitres = taken.map(typed -> figures.volume(typed, stored.flatMap(WaterSystemView::displacement)))
                .orElse(null);
        @Nullable Volume addedLitres = added.map(typed -> figures.volume(typed, stored.flatMap(WaterSystemView::sumpVolume)))
                .orElse(null);
        return reader.read(() -> {
            if (displayLitres != null && !stated) {
                return NetVolume.calculated(displayLitres, takenLitres, addedLitres);
            }
            return new NetVolume(
                    VolumeBasis.STATED,
                    figures.volume(net.orElseThrow(), stored.map(WaterSystemView::netVolume)),
                    displayLitres,
                    takenLitres,
                    addedLitres);
        });
    }
}

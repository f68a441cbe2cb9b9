package app.tankround.clients;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.units.Hardness;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.sql.Timestamp;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** How hard the tap water at the sites is: what was measured there, of which the latest counts. */
@Service
public class TapWater {

    /** Harder than any drinking water; own choice, no source. */
    public static final double HARDEST_DGH = 100;

    private static final int DECIMALS = 2;

    private final SiteService sites;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final Days days;
    private final JdbcClient jdbc;
    private final Clock clock;

    TapWater(
            SiteService sites,
            CurrentPerson currentPerson,
            ChangeLog changes,
            Days days,
            JdbcClient jdbc,
            Clock clock) {
        this.sites = sites;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.days = days;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** The latest at a site; empty where nobody has measured any. */
    public Optional<TapWaterView> latest(SiteId site) {
        return Optional.ofNullable(latest(List.of(site)).get(site));
    }

    /** The latest at each of these sites where any was measured. */
    public Map<SiteId, TapWaterView> latest(Collection<SiteId> ofSites) {
        return jdbc
                .sql("""
                        select distinct on (site_id) site_id, measured_on, hardness, unit
                        from tap_water
                        where site_id = any(:sites)
                        order by site_id, measured_on desc, written_at desc
                        """)
                .param("sites", ofSites.stream().map(SiteId::value).toArray(UUID[]::new))
                .query((row, number) -> new TapWaterView(
                        SiteId.of(row.getObject("site_id", UUID.class)),
                        row.getObject("measured_on", LocalDate.class),
                        row.getBigDecimal("hardness"),
                        MeasurementUnit.ofCode(row.getString("unit")).orElseThrow()))
                .list()
                .stream()
                .collect(Collectors.toMap(TapWaterView::siteId, Function.identity()));
    }

    /**
     * Writes down what was measured. The same under the same id is written down once.
     *
     * @param id made before the form was shown
     * @throws FieldRefusal at {@code hardness} for less than nothing or more than {@value #HARDEST_DGH} degrees, at {@code unit}
     *     for a unit of something else, at {@code measuredOn} for a day that has not come, at {@code site} without a tap
     * @throws app.tankround.web.NotFound if there is no such site
     */
    @Transactional
    public void write(UUID id, TapWaterView measured) {
        SiteView site = sites.require(measured.siteId());
        requireSound(site, measured);
        int written = jdbc.sql("""
                        insert into tap_water (id, site_id, measured_on, hardness, unit, person_id, written_at)
                        values (:id, :site, :on, :hardness, :unit, :person, :at)
                        on conflict (id) do nothing
                        """)
                .param("id", id)
                .param("site", site.id().value())
                .param("on", measured.measuredOn())
                .param("hardness", measured.hardness())
                .param("unit", measured.unit().code())
                .param("person", currentPerson.require().id().value())
                .param("at", Timestamp.from(clock.instant()))
                .update();
        if (written == 1) {
            changes.record(
                    "site",
                    site.id(),
                    "tap-water-measured",
                    Map.of(
                            "hardness",
                            measured.hardness().toPlainString(),
                            "unit",
                            measured.unit().code()));
        }
    }

    private void requireSound(SiteView site, TapWaterView measured) {
        if (!site.ownTap()) {
            throw new FieldRefusal("site", "clients.tap.none", site.name());
        }
        if (!Quantity.HARDNESS.units().contains(measured.unit())) {
            throw new FieldRefusal("unit", "clients.tap.unit");
        }
        BigDecimal most = most(measured.unit());
        if (measured.hardness().signum() < 0 || measured.hardness().compareTo(most) > 0) {
            throw new FieldRefusal(
                    "hardness", "web.number-out-of-range", measured.hardness().toPlainString(), 0, most);
        }
        if (measured.hardness().stripTrailingZeros().scale() > DECIMALS) {
            throw new FieldRefusal("hardness", "clients.tap.decimals", DECIMALS);
        }
        if (measured.measuredOn().isAfter(days.of(clock.instant()))) {
            throw new FieldRefusal("measuredOn", "clients.tap.not-yet");
        }
    }

    private static BigDecimal most(MeasurementUnit unit) {
        return BigDecimal.valueOf(
                unit == MeasurementUnit.DEGREE_GENERAL_HARDNESS
                        ? Math.round(HARDEST_DGH)
                        : Math.round(Hardness.ofDgh(HARDEST_DGH).inMilligramsPerLitreCalciumCarbonate()));
    }
}

package app.tankround.loads.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.accounts.DepotId;
import app.tankround.persistence.Uuids;
import app.tankround.stock.KeptWater;
import app.tankround.stock.VatView;
import app.tankround.stock.WaterBack;
import app.tankround.web.VolumeText;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.util.List;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Water that waits in its drums, in words. */
@Component
class KeptWaterRows {

    private static final int DECIMALS = 6;

    /**
     * @param id that what becomes of it will have
     * @param litres all that is left of it
     * @param past whether it must not go into a system any more
     * @param vats that hold the same and have room for it
     */
    record Row(
            String id,
            String kept,
            String litres,
            String what,
            String good,
            boolean past,
            String page,
            List<VatView> vats) {}

    private final WaterBack back;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    KeptWaterRows(WaterBack back, BusinessProfile business, Days days, MessageSource messages, Clock clock) {
        this.back = back;
        this.business = business;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    /** The oldest first. */
    List<Row> at(DepotId depot, Locale locale) {
        return back.keptAt(depot).stream().map(kept -> row(kept, locale)).toList();
    }

    private Row row(KeptWater kept, Locale locale) {
        boolean past = kept.goodUntil().isBefore(days.of(clock.instant()));
        VolumeText volumes = new VolumeText(locale, business.current().unitSystem());
        String kind = kept.salinity()
                .map(salinity ->
                        messages.getMessage("loads.plant.of-salinity", new Object[] {salinity.practical()}, locale))
                .orElseGet(() -> messages.getMessage("loads.plant.purified", null, locale));
        return new Row(
                Uuids.next(clock.instant()).toString(),
                kept.id().toString(),
                BigDecimal.valueOf(kept.left().litres())
                        .setScale(DECIMALS, RoundingMode.DOWN)
                        .stripTrailingZeros()
                        .toPlainString(),
                volumes.of(kept.left()) + ", " + kind,
                messages.getMessage(
                        past ? "loads.kept.past" : "loads.kept.good",
                        new Object[] {Days.day(kept.goodUntil(), locale)},
                        locale),
                past,
                kept.page(),
                past
                        ? List.of()
                        : back.taking(kept.depot(), kept.salinity()).stream()
                                .filter(vat ->
                                        vat.volume().litres() - vat.level().litres()
                                                >= kept.left().litres())
                                .toList());
    }
}

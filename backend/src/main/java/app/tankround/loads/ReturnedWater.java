package app.tankround.loads;

import app.tankround.accounts.Days;
import app.tankround.rounds.RoundView;
import app.tankround.stock.VatView;
import app.tankround.stock.WaterBack;
import app.tankround.stock.WaterBatches;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** What becomes of water that came back from a round. */
@Component
class ReturnedWater {

    static final String KEPT = "KEPT";
    static final String AWAY = "AWAY";
    static final String VAT = "VAT";

    private final WaterBack back;

    ReturnedWater(WaterBack back) {
        this.back = back;
    }

    /** Mixed the day before the round at the latest; common practice, no source. */
    static LocalDate goodUntil(RoundView round) {
        return round.date().minusDays(1).plusDays(WaterBatches.KEEPS.toDays());
    }

    /**
     * A way for what is back.
     *
     * @param value what the form sends
     */
    record Way(String value, String words) {}

    /** The ways open to what is back of a thing, the one that is offered first. */
    List<Way> ways(RoundView round, ReturnSheet.Thing thing, LoadWords words, Locale locale) {
        Way away = new Way(Returned.AWAY, words.word("loads.return.goes.away"));
        if (thing.isApart()) {
            return List.of(away);
        }
        Way keep = new Way(Returned.KEEP, words.word("loads.return.goes.keep", Days.day(goodUntil(round), locale)));
        return Stream.concat(
                        Stream.concat(
                                Stream.of(keep),
                                back.taking(round.van().depotId(), thing.salinity()).stream()
                                        .map(vat -> into(vat, words))),
                        Stream.of(away))
                .toList();
    }

    private static Way into(VatView vat, LoadWords words) {
        Volume room = Volume.ofLitres(vat.volume().litres() - vat.level().litres());
        return new Way(
                vat.id().toString(),
                words.word(
                        "loads.return.goes.vat",
                        vat.name(),
                        words.amount(BigDecimal.valueOf(room.litres()), LoadUnit.LITRE)));
    }

    /**
     * Does what was said of what is back of a thing, and keeps what stays in the van.
     *
     * @return what became of what is back; empty where nothing is
     * @throws FieldRefusal at {@code KEY.goes} if it cannot go there
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public Optional<String> bringBack(UUID returned, RoundView round, ReturnSheet.Thing thing, Returned said) {
        String page = "/rounds/" + round.id() + "/load/return";
        if (said.stays().signum() > 0) {
            keep(returned, round, thing, "stays", said.stays(), page);
        }
        if (said.back().signum() == 0) {
            return Optional.empty();
        }
        if (said.goes().equals(Returned.AWAY) || thing.isApart()) {
            return Optional.of(AWAY);
        }
        if (said.goes().isEmpty() || said.goes().equals(Returned.KEEP)) {
            keep(returned, round, thing, "back", said.back(), page);
            return Optional.of(KEPT);
        }
        pour(returned, round, thing, said, page);
        return Optional.of(VAT);
    }

    private void keep(
            UUID returned, RoundView round, ReturnSheet.Thing thing, String what, BigDecimal litres, String page) {
        back.keep(id(returned, thing, what), round.van().depotId(), thing.salinity(), litres, goodUntil(round), page);
    }

    private void pour(UUID returned, RoundView round, ReturnSheet.Thing thing, Returned said, String page) {
        String field = thing.key() + ".goes";
        WaterSystemId vat;
        try {
            vat = WaterSystemId.parse(said.goes());
        } catch (IllegalArgumentException malformed) {
            throw new FieldRefusal(field, "loads.return.goes.unknown");
        }
        boolean offered = back.taking(round.van().depotId(), thing.salinity()).stream()
                .anyMatch(each -> each.id().equals(vat));
        if (!offered) {
            throw new FieldRefusal(field, "loads.return.goes.unknown");
        }
        try {
            back.pour(id(returned, thing, "back"), thing.salinity(), said.back(), vat, page);
        } catch (FieldRefusal refusal) {
            throw new FieldRefusal(field, refusal.code(), refusal.args().toArray());
        }
    }

    private static UUID id(UUID returned, ReturnSheet.Thing thing, String what) {
        return UUID.nameUUIDFromBytes(
                ("water " + returned + " " + thing.key() + " " + what).getBytes(StandardCharsets.UTF_8));
    }
}

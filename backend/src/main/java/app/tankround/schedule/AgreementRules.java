package app.tankround.schedule;

import app.tankround.units.Quantity;
import app.tankround.units.Volume;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.joda.money.CurrencyUnit;

/** Which agreements are accepted. A refusal names the field as the form does, the refused value and the range. */
final class AgreementRules {

    private static final LocalDate FIRST_DAY = LocalDate.of(2000, 1, 1);
    private static final LocalDate LAST_DAY = LocalDate.of(2099, 12, 31);

    private static final int MOST_SEASONS = 6;
    private static final int MOST_PAUSES = 40;
    private static final int LEAP_YEAR = 2028;
    private static final int LONGEST_CODE = 40;
    private static final int LONGEST_ITEM = 500;
    private static final int MOST_TASKS = 60;
    private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);
    private static final BigDecimal LARGEST_AMOUNT = new BigDecimal("100000");
    private static final int MOST_DECIMALS = 3;

    private AgreementRules() {}

    /**
     * The same agreement with numbers in their shortest form and texts without blanks around them.
     *
     * @param netVolume of the water system; a water change in litres cannot be more
     * @throws FieldRefusal for the first value that is not accepted
     */
    static NewAgreement accepted(NewAgreement asked, CurrencyUnit currency, Volume netVolume) {
        String code = TextInput.required("code", asked.code(), LONGEST_CODE);
        VisitRhythm rhythm = accepted(asked.rhythm());
        whole("minutes", asked.minutes(), 1, 1440);
        BigDecimal price = plain(asked.price());
        if (price.signum() < 0 || price.compareTo(NewAgreement.HIGHEST_PRICE) > 0) {
            throw new FieldRefusal("price", "schedule.out-of-range", price, 0, NewAgreement.HIGHEST_PRICE);
        }
        if (price.scale() > currency.getDecimalPlaces()) {
            throw new FieldRefusal(
                    "price",
                    "schedule.price-decimals",
                    price.toPlainString(),
                    currency.getCode(),
                    currency.getDecimalPlaces());
        }
        if (asked.tasks().size() > MOST_TASKS) {
            throw new FieldRefusal(
                    "tasks", "schedule.too-many-tasks", asked.tasks().size(), 0, MOST_TASKS);
        }
        List<TaskView> tasks = IntStream.range(0, asked.tasks().size())
                .mapToObj(i -> task("tasks[" + i + "].", asked.tasks().get(i), netVolume))
                .toList();
        return new NewAgreement(code, asked.waterSystemId(), rhythm, asked.minutes(), price, tasks, asked.planFrom());
    }

    private static VisitRhythm accepted(VisitRhythm asked) {
        day("validFrom", asked.validFrom());
        asked.validUntil().ifPresent(last -> {
            day("validUntil", last);
            if (last.isBefore(asked.validFrom())) {
                throw new FieldRefusal("validUntil", "schedule.until-before-from", last, asked.validFrom());
            }
        });
        if (asked.weekdays().isEmpty()) {
            throw new FieldRefusal("weekdays", "schedule.weekday-missing");
        }
        seasons(asked);
        pauses(asked.pauses());
        if (!asked.with(asked.seasons(), List.of()).everHappens()) {
            throw new FieldRefusal("rule", "schedule.rule-never", asked.rule().text(), asked.validFrom());
        }
        whole("toleranceDays", asked.toleranceDays(), 0, VisitRhythm.MOST_TOLERANCE_DAYS);
        asked.gaps().filter(gaps -> asked.toleranceDays() >= gaps.shortest()).ifPresent(gaps -> {
            throw new FieldRefusal(
                    "toleranceDays", "schedule.tolerance-past-next", asked.toleranceDays(), 0, gaps.shortest() - 1);
        });
        return asked;
    }

    private static void seasons(VisitRhythm asked) {
        List<Season> seasons = asked.seasons();
        if (seasons.size() > MOST_SEASONS) {
            throw new FieldRefusal("seasons", "schedule.too-many-seasons", seasons.size(), 0, MOST_SEASONS);
        }
        for (int i = 0; i < seasons.size(); i++) {
            Season season = seasons.get(i);
            String field = "seasons[" + i + "].";
            if (season.rule().isCounted() || asked.rule().isCounted()) {
                throw new FieldRefusal(
                        field + "rule",
                        "schedule.rule-counted-season",
                        season.rule().text());
            }
            if (seasons.subList(0, i).stream().anyMatch(other -> overlap(other, season))) {
                throw new FieldRefusal(field + "from", "schedule.seasons-overlap", season.fromText());
            }
        }
    }

    private static boolean overlap(Season one, Season other) {
        return one.contains(other.from().atYear(LEAP_YEAR))
                || other.contains(one.from().atYear(LEAP_YEAR));
    }

    private static void pauses(List<Pause> pauses) {
        if (pauses.size() > MOST_PAUSES) {
            throw new FieldRefusal("pauses", "schedule.too-many-pauses", pauses.size(), 0, MOST_PAUSES);
        }
        for (int i = 0; i < pauses.size(); i++) {
            Pause pause = pauses.get(i);
            String field = "pauses[" + i + "].";
            day(field + "first", pause.first());
            day(field + "last", pause.last());
            if (pause.last().isBefore(pause.first())) {
                throw new FieldRefusal(field + "last", "schedule.until-before-from", pause.last(), pause.first());
            }
        }
    }

    private static TaskView task(String field, TaskView asked, Volume netVolume) {
        TaskKind kind = asked.kind();
        boolean needsItem = switch (kind) {
            case TEST, DOSE, MEDIA, WORK -> true;
            case WATER_CHANGE, TOP_UP, SOCK_SWAP, SOCKS_LEFT -> false;
        };
        Optional<String> item = needsItem
                ? Optional.of(TextInput.required(field + "item", asked.item().orElse(""), LONGEST_ITEM))
                : Optional.empty();
        if (kind == TaskKind.TEST
                && Quantity.read().stream()
                        .noneMatch(quantity -> quantity.name().equals(item.orElseThrow()))) {
            throw new FieldRefusal(field + "item", "schedule.no-such-quantity", item.orElseThrow());
        }
        boolean needsAmount = switch (kind) {
            case WATER_CHANGE, SOCK_SWAP, SOCKS_LEFT, DOSE -> true;
            case TOP_UP, TEST, MEDIA, WORK -> false;
        };
        if (needsAmount && asked.amount().isEmpty()) {
            throw new FieldRefusal(field + "amount", "schedule.amount-missing");
        }
        Optional<BigDecimal> amount = asked.amount().map(AgreementRules::plain);
        if (amount.isPresent()) {
            amount(field, kind, amount.get(), asked.unit(), netVolume);
        }
        boolean isSocks = kind == TaskKind.SOCK_SWAP || kind == TaskKind.SOCKS_LEFT;
        if (isSocks && asked.sizeMm().isEmpty()) {
            throw new FieldRefusal(field + "sizeMm", "schedule.size-missing", 10, 1000);
        }
        if (kind == TaskKind.SOCK_SWAP && asked.intervalDays().isEmpty()) {
            throw new FieldRefusal(field + "intervalDays", "schedule.interval-missing", 1, 3660);
        }
        asked.sizeMm().ifPresent(size -> whole(field + "sizeMm", size, 10, 1000));
        asked.lengthMm().ifPresent(length -> whole(field + "lengthMm", length, 10, 3000));
        asked.finenessUm().ifPresent(fineness -> whole(field + "finenessUm", fineness, 1, 2000));
        asked.intervalDays().ifPresent(days -> whole(field + "intervalDays", days, 1, 3660));
        return new TaskView(
                kind,
                amount,
                amount.flatMap(some -> asked.unit()),
                item,
                isSocks ? asked.sizeMm() : Optional.empty(),
                isSocks ? asked.lengthMm() : Optional.empty(),
                isSocks ? asked.finenessUm() : Optional.empty(),
                kind == TaskKind.SOCKS_LEFT ? Optional.empty() : asked.intervalDays());
    }

    private static void amount(
            String field, TaskKind kind, BigDecimal amount, Optional<String> unit, Volume netVolume) {
        if (kind.units().isEmpty()) {
            throw new FieldRefusal(field + "amount", "schedule.amount-not-used", amount);
        }
        String written = unit.orElse("");
        if (!kind.units().contains(written)) {
            throw new FieldRefusal(field + "unit", "schedule.unit", written, String.join(", ", kind.units()));
        }
        BigDecimal most = LARGEST_AMOUNT;
        if (written.equals("%")) {
            most = HUNDRED;
        } else if (kind == TaskKind.WATER_CHANGE) {
            most = plain(BigDecimal.valueOf(netVolume.litres()));
        } else if (kind == TaskKind.SOCK_SWAP || kind == TaskKind.SOCKS_LEFT) {
            most = HUNDRED;
        }
        if (amount.signum() <= 0 || amount.compareTo(most) > 0) {
            throw new FieldRefusal(field + "amount", "schedule.amount-out-of-range", amount, most, written);
        }
        int decimals = written.equals("count") ? 0 : MOST_DECIMALS;
        if (amount.scale() > decimals) {
            throw new FieldRefusal(field + "amount", "schedule.amount-decimals", amount, decimals);
        }
    }

    private static BigDecimal plain(BigDecimal value) {
        BigDecimal shortest = value.stripTrailingZeros();
        return shortest.scale() < 0 ? shortest.setScale(0) : shortest;
    }

    private static void whole(String field, int value, int least, int most) {
        if (value < least || value > most) {
            throw new FieldRefusal(field, "schedule.out-of-range", value, least, most);
        }
    }

    private static void day(String field, LocalDate day) {
        if (day.isBefore(FIRST_DAY) || day.isAfter(LAST_DAY)) {
            throw new FieldRefusal(field, "schedule.out-of-range", day, FIRST_DAY, LAST_DAY);
        }
    }
}

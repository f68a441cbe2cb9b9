package app.tankround.seed;

import app.tankround.accounts.PersonId;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentKind;
import app.tankround.persistence.Uuids;
import app.tankround.readings.Answer;
import app.tankround.readings.NewReading;
import app.tankround.readings.ReadingId;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.WaterSystemId;
import app.tankround.units.Quantity;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;

/**
 * What is written down when a system is measured on a day, the planted cases included.
 *
 * @param instruments their ids by code
 */
record Measuring(DemoDays days, Map<String, InstrumentId> instruments) {

    private static final BigDecimal AMMONIA_SEEN_FROM = new BigDecimal("0.05");
    private static final BigDecimal NITRITE_SEEN_FROM = new BigDecimal("0.02");
    private static final int KNOCKED_FOR_DAYS = 36;
    /** Days a young system takes until ammonia is gone for the first time. */
    static final int AMMONIA_GONE = 40;

    private static final double NOT_MEASURED_SHARE = 0.008;
    private static final double SECONDS_BETWEEN = 240;

    /** Where and when somebody measures. */
    record Sampling(
            PlannedSystem system,
            WaterSystemId id,
            LocalDate day,
            Instant at,
            int van,
            PersonId person,
            Optional<UUID> visit,
            boolean last) {}

    /** Everything that is measured at a visit. */
    List<NewReading> at(Sampling sampling) {
        PlannedSystem system = sampling.system();
        List<Quantity> quantities = new ArrayList<>(Husbandry.tests(system.kind()));
        if (system.startedDaysAgo() > 0 && !quantities.contains(Quantity.AMMONIA)) {
            quantities.add(Quantity.AMMONIA);
        }
        List<Quantity> turns = Husbandry.nowAndThen(system.kind());
        long week =
                sampling.day().toEpochDay() / 7 + Math.floorMod(system.code().hashCode(), 4);
        if (!turns.isEmpty() && week % 4 == 0) {
            Quantity turn = turns.get((int) (week / 4 % turns.size()));
            if (!quantities.contains(turn)) {
                quantities.add(turn);
            }
        }
        List<NewReading> readings = new ArrayList<>();
        for (Quantity quantity : quantities) {
            Instant at = sampling.at().plusSeconds((long) (SECONDS_BETWEEN * readings.size()));
            readings.add(one(sampling, quantity, at));
        }
        return readings;
    }

    /** One quantity. */
    NewReading one(Sampling sampling, Quantity quantity, Instant at) {
        PlannedSystem system = sampling.system();
        SplittableRandom chance = Waters.random(system.code() + sampling.day() + quantity + "answer");
        Tool tool = tool(sampling, quantity);
        if (chance.nextDouble() < NOT_MEASURED_SHARE && system.story() == Story.NONE && !sampling.last()) {
            return reading(sampling, quantity, tool, at, Answer.NOT_MEASURED, Optional.empty());
        }
        return switch (quantity) {
            case AMMONIA -> ammonia(sampling, tool, at);
            case NITRITE ->
                reading(sampling, quantity, tool, at, Answer.BELOW_DETECTION, Optional.of(NITRITE_SEEN_FROM));
            case DISSOLVED_SOLIDS -> reading(sampling, quantity, tool, at, Answer.VALUE, Optional.of(solids(sampling)));
            default -> reading(sampling, quantity, tool, at, Answer.VALUE, Optional.of(read(sampling, quantity, tool)));
        };
    }

    /** A salinity on the conductivity meter of the depot. */
    NewReading withMeter(Sampling sampling, BigDecimal salinity, Instant at) {
        return reading(sampling, Quantity.SALINITY, Tool.of(Tool.METER), at, Answer.VALUE, Optional.of(salinity));
    }

    private Tool tool(Sampling sampling, Quantity quantity) {
        return isKnocked(sampling, quantity)
                ? Tool.of(Tool.KNOCKED)
                : Tool.chosen(sampling.system(), quantity, sampling.van());
    }

    private boolean isKnocked(Sampling sampling, Quantity quantity) {
        return quantity == Quantity.SALINITY
                && sampling.system().story() == Story.KNOCKED_REFRACTOMETER
                && ChronoUnit.DAYS.between(sampling.day(), days.lastWorked()) < KNOCKED_FOR_DAYS;
    }

    private BigDecimal read(Sampling sampling, Quantity quantity, Tool tool) {
        if (isKnocked(sampling, quantity)) {
            return new BigDecimal("1.025");
        }
        if (quantity == Quantity.SALINITY && sampling.system().story() == Story.LOW_SUMP && sampling.last()) {
            return new BigDecimal("36.8");
        }
        double real = sampling.system().kind() == SystemKind.SUPPLY && quantity == Quantity.SALINITY
                ? Waters.of(PlannedSystem.of(SystemKind.REEF, "", 1).coded("W-003"), quantity, sampling.day())
                : Waters.of(sampling.system(), quantity, sampling.day());
        return tool.readOff(tool.shown(real));
    }

    private NewReading ammonia(Sampling sampling, Tool tool, Instant at) {
        PlannedSystem system = sampling.system();
        long age = ChronoUnit.DAYS.between(days.today().minusDays(system.startedDaysAgo()), sampling.day());
        if (system.story() == Story.LATE_AMMONIA && sampling.last()) {
            return found(sampling, tool, at, new BigDecimal("0.50"));
        }
        if (system.story() == Story.LATE_AMMONIA && age < AMMONIA_GONE) {
            return found(sampling, tool, at, new BigDecimal(age < AMMONIA_GONE / 2 ? "1.00" : "0.25"));
        }
        if (system.kind() == SystemKind.LIVE_SEAFOOD) {
            double amount =
                    0.1 + 0.05 * Waters.random(system.code() + sampling.day()).nextInt(3);
            return found(sampling, tool, at, BigDecimal.valueOf(amount).setScale(2, RoundingMode.HALF_EVEN));
        }
        return reading(sampling, Quantity.AMMONIA, tool, at, Answer.BELOW_DETECTION, Optional.of(AMMONIA_SEEN_FROM));
    }

    private NewReading found(Sampling sampling, Tool tool, Instant at, BigDecimal amount) {
        return reading(sampling, Quantity.AMMONIA, tool, at, Answer.VALUE, Optional.of(amount));
    }

    /** Nothing, now and then 1 mg/L; in the one container 6 by now, half of it three weeks ago. */
    private BigDecimal solids(Sampling sampling) {
        if (sampling.system().story() == Story.CREEPING_SOLIDS) {
            long weeks = ChronoUnit.DAYS.between(sampling.day(), days.lastWorked()) / 7;
            return BigDecimal.valueOf(Math.max(0, Math.round(6 - weeks * 0.6)));
        }
        boolean flicker =
                Waters.random(sampling.system().code() + sampling.day()).nextDouble() < 0.06;
        return flicker && !sampling.last() ? BigDecimal.ONE : BigDecimal.ZERO;
    }

    private NewReading reading(
            Sampling sampling, Quantity quantity, Tool tool, Instant at, Answer answer, Optional<BigDecimal> value) {
        boolean measured = answer != Answer.NOT_MEASURED;
        return new NewReading(
                ReadingId.of(Uuids.next(at)),
                sampling.id(),
                Optional.empty(),
                quantity,
                answer,
                value,
                Optional.empty(),
                tool.unit(),
                tool.gravityReference(),
                measured && tool.kind() == InstrumentKind.HYDROMETER
                        ? Optional.of(new BigDecimal("20"))
                        : Optional.empty(),
                measured ? Optional.ofNullable(instruments.get(tool.code())) : Optional.empty(),
                measured && tool.kind().isKit() ? Optional.of(tool.lot()) : Optional.empty(),
                measured ? Optional.empty() : Optional.of("Left in the other van"),
                at,
                sampling.person(),
                sampling.visit());
    }
}

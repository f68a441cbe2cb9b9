package app.tankround.instruments.web;

import static app.tankround.instruments.web.InstrumentForm.given;

import app.tankround.chemistry.WeighedSolution.Solute;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.NewMadeUpStandard;
import app.tankround.instruments.StandardRecipe;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

record MadeUpForm(
        @Nullable String code,
        @Nullable String name,
        @Nullable Solute solute,
        @Nullable BigDecimal soluteGrams,
        @Nullable BigDecimal purityPercent,
        @Nullable BigDecimal purityGiveOrTake,
        @Nullable InstrumentId balance,
        @Nullable BigDecimal waterGrams,
        @Nullable InstrumentId waterBalance,
        @Nullable LocalDate madeOn,
        @Nullable Integer openDays) {

    static MadeUpForm empty(LocalDate today) {
        return new MadeUpForm(null, null, Solute.SODIUM_CHLORIDE, null, null, null, null, null, null, today, null);
    }

    NewMadeUpStandard toCommand() {
        return new NewMadeUpStandard(
                given("code", code, "instruments.text-missing"),
                given("name", name, "instruments.text-missing"),
                new StandardRecipe(
                        given("solute", solute, "instruments.choice-missing"),
                        given("soluteGrams", soluteGrams, "instruments.number-missing"),
                        given("purityPercent", purityPercent, "instruments.number-missing"),
                        given("purityGiveOrTake", purityGiveOrTake, "instruments.number-missing"),
                        given("waterGrams", waterGrams, "instruments.number-missing"),
                        given("balance", balance, "instruments.choice-missing"),
                        Optional.ofNullable(waterBalance),
                        given("madeOn", madeOn, "instruments.date-missing")),
                Optional.ofNullable(openDays));
    }
}

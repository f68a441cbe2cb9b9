package app.tankround.instruments;

import app.tankround.chemistry.WeighedSolution.Solute;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The recipes of all made-up standards: rows are added, and go with their standard. */
@Repository
class StandardRecipes {

    private static final String COLUMNS = """
            select standard_id, solute, solute_g, purity_percent, purity_give_or_take, water_g, balance_id, water_balance_id,
                made_on
            from standard_recipe
            """;

    private final JdbcClient jdbc;

    StandardRecipes(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Optional<StandardRecipe> find(StandardId id) {
        return jdbc.sql(COLUMNS + " where standard_id = :id")
                .param("id", id.value())
                .query((row, number) -> recipe(row))
                .optional();
    }

    Map<StandardId, StandardRecipe> all() {
        Map<StandardId, StandardRecipe> found = new HashMap<>();
        jdbc.sql(COLUMNS).query(row -> {
            found.put(StandardId.of(row.getObject("standard_id", UUID.class)), recipe(row));
        });
        return found;
    }

    void insert(StandardId id, StandardRecipe recipe) {
        jdbc.sql("""
                        insert into standard_recipe (
                            standard_id, solute, solute_g, purity_percent, purity_give_or_take, water_g, balance_id,
                            water_balance_id, made_on)
                        values (
                            :id, :solute, :soluteGrams, :purity, :giveOrTake, :waterGrams, :balance, :waterBalance, :madeOn)
                        """)
                .param("id", id.value())
                .param("solute", recipe.solute().name())
                .param("soluteGrams", recipe.soluteGrams())
                .param("purity", recipe.purityPercent())
                .param("giveOrTake", recipe.purityGiveOrTake())
                .param("waterGrams", recipe.waterGrams())
                .param("balance", recipe.balance().value())
                .param(
                        "waterBalance",
                        recipe.waterBalance().map(InstrumentId::value).orElse(null),
                        Types.OTHER)
                .param("madeOn", recipe.madeOn())
                .update();
    }

    private static StandardRecipe recipe(ResultSet row) throws SQLException {
        return new StandardRecipe(
                Solute.valueOf(row.getString("solute")),
                row.getBigDecimal("solute_g"),
                row.getBigDecimal("purity_percent"),
                row.getBigDecimal("purity_give_or_take"),
                row.getBigDecimal("water_g"),
                InstrumentId.of(row.getObject("balance_id", UUID.class)),
                Optional.ofNullable(row.getObject("water_balance_id", UUID.class))
                        .map(InstrumentId::of),
                row.getObject("made_on", LocalDate.class));
    }
}

package app.tankround.instruments;

import java.util.Optional;

/**
 * A standard that somebody made up on a balance.
 *
 * @param openDays how many days it keeps
 */
public record NewMadeUpStandard(String code, String name, StandardRecipe recipe, Optional<Integer> openDays) {}

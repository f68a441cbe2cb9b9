package app.tankround.stock;

import app.tankround.units.Mass;

/**
 * What an amount of something weighs.
 *
 * @param estimated whether the catalogue does not know it, so that a usual density or mass was taken
 */
public record StockMass(Mass mass, boolean estimated) {}

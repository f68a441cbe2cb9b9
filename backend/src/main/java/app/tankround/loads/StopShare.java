package app.tankround.loads;

import java.math.BigDecimal;

/**
 * How much of a line one stop needs.
 *
 * @param position of the stop, 1 for the first
 * @param amount litres of water, or in the unit of the line
 */
public record StopShare(int position, String siteName, BigDecimal amount) {}

package app.tankround.chemistry;

import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import app.tankround.units.Volume;

/**
 * What brings a batch of salt water to its salinity, by balance of masses ({@link BatchContents}).
 *
 * @param takenOut to take out first, at the batch's temperature, so that the rest has room
 * @param product salt mix to put in; nothing where it is too salty
 * @param water purified water to put in, at its own temperature; nothing where it is not salty enough
 * @param after how much there is then, at the batch's temperature
 */
public record BatchCorrection(Volume takenOut, Mass product, Volume water, Volume after) {

    /**
     * Works it out.
     *
     * @param volume of the batch at {@code temperature}
     * @param room that the vat holds, at least {@code volume}
     * @param found its salinity, up to 50
     * @param wanted salinity, above 0 to 50
     * @param waterTemperature of the purified water
     * @param yield grams of anhydrous salt per gram of product, 0.5 to 1
     */
    public static BatchCorrection of(
            Volume volume,
            Volume room,
            Salinity found,
            Salinity wanted,
            Temperature temperature,
            Temperature waterTemperature,
            double yield) {
        BatchContents present = BatchContents.of(volume, found, temperature);
        if (found.practical() <= wanted.practical()) {
            Mass product = SaltWater.productToRaise(volume, found, wanted, temperature, yield);
            BatchContents after = present.plusProduct(product, yield);
            double over = Math.max(0, after.volume(temperature).litres() - room.litres());
            if (over == 0) {
                return new BatchCorrection(new Volume(0), product, new Volume(0), after.volume(temperature));
            }
            // What is corrected grows in proportion to what is left in the vat.
            double kept = room.litres() / after.volume(temperature).litres();
            return new BatchCorrection(
                    new Volume(volume.litres() * (1 - kept)),
                    new Mass(product.kilograms() * kept),
                    new Volume(0),
                    room);
        }
        double salt = present.salt();
        double together = 1000 * salt / SaltWater.gramsPerKilogram(wanted);
        Volume thinned = SaltWater.volume(new Mass(together), wanted, temperature);
        double share = Math.min(1, room.litres() / thinned.litres());
        double added = share * (together - present.mass().kilograms());
        return new BatchCorrection(
                new Volume(volume.litres() * (1 - share)),
                new Mass(0),
                new Volume(1000 * added / SeawaterDensity.ofPureWater(waterTemperature)),
                new Volume(Math.min(room.litres(), thinned.litres())));
    }
}

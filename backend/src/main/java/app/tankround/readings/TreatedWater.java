package app.tankround.readings;

import app.tankround.tanks.WaterSystemId;
import java.util.Optional;

/** What is in water on purpose; implemented by whoever knows what is given. */
public interface TreatedWater {

    /** Up to how much copper a treatment that runs there aims for, mg/L as the kit of that treatment shows it. */
    Optional<Double> copperUpTo(WaterSystemId system);
}

package app.tankround.tanks;

import java.time.LocalDate;
import java.util.List;

/**
 * A water system to be added. The id is made before the form is shown, so that sending it twice adds once.
 *
 * @param classSince since when the system has been in its infection class
 * @param samplePoints their names, in the order in which they are drawn
 */
public record NewWaterSystem(
        WaterSystemId id,
        SystemDetails details,
        InfectionClass infectionClass,
        LocalDate classSince,
        List<String> samplePoints,
        List<TargetRange> targets) {

    public NewWaterSystem {
        classSince = Days.required("classSince", classSince);
        samplePoints = SamplePointNames.checked(samplePoints);
        targets = Targets.of(targets).targets();
    }
}
